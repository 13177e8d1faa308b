package chainage.analysis;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;

class RideNamesTest {
    /** The rule of version control: as few digits as tell each from the next, and never fewer than the usual number. */
    @Test
    void anIdIsAsLongAsItMustBeToBeNoOthersBeginning() {
        assertEquals(
                List.of("0123456789", "aaaaaaaaaa0", "aaaaaaaaaa1", "bbbbbbbbbb00", "bbbbbbbbbb01", "bbbbbbbbbb1"),
                RideNames.unique(List.of(
                        "0123456789abc0",
                        "aaaaaaaaaa0000",
                        "aaaaaaaaaa1000",
                        "bbbbbbbbbb0000",
                        "bbbbbbbbbb0100",
                        "bbbbbbbbbb1000")));
    }
}
