package chainage.render;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;

class JsonTest {
    /** A path can be gone through, name by name, and yet it is one text. */
    @Test
    void aPathIsText() {
        Path path = Path.of("rides", "a.gpx");
        Json json = new Json().put("path", path).put("paths", List.of(path));
        assertEquals(path.toString(), json.fields().get("path"));
        assertEquals(List.of(path.toString()), json.fields().get("paths"));
    }

    @Test
    void whatIsPutIsWhatIsPrinted() {
        Json json = new Json()
                .put("at", Instant.EPOCH)
                .put("none", null)
                .put("yes", true)
                .put("some", Arrays.asList(1L, null, new Json().put("a", 1)))
                .put("set", Set.of("b"));
        assertEquals("1970-01-01T00:00:00Z", json.fields().get("at"));
        assertEquals(
                "{at=1970-01-01T00:00:00Z, none=null, yes=true, some=[1, null, {a=1}], set=[b]}",
                json.fields().toString());
    }
}
