package chainage.ledger;

import static org.junit.jupiter.api.Assertions.assertEquals;

import chainage.TestLedger;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CleaningTest {
    /** What counts as cleaned before the last of two treatments. */
    @ParameterizedTest
    @CsvSource({
        "hot-wax, DEEP, hot-wax, NONE, DEEP",
        "hot-wax, QUICK, drip-wax, NONE, QUICK",
        "hot-wax, DEEP, hot-wax, QUICK, QUICK",
        "wet-lube, DEEP, hot-wax, NONE, NONE",
        "hot-wax, DEEP, wet-lube, NONE, NONE",
        "hot-wax, NONE, hot-wax, NONE, NONE"
    })
    void waxOnWaxIsAsCleanAsTheWaxBefore(
            String first, Cleaning firstCleaned, String then, Cleaning thenCleaned, Cleaning counts) {
        Ledger ledger = new TestLedger()
                .chain("Amber")
                .add(treated(first, "2026-03-01T00:00:00Z", firstCleaned))
                .add(treated(then, "2026-04-01T00:00:00Z", thenCleaned))
                .ledger();
        List<Event.Treated> treatments = ledger.treatments("Amber");
        assertEquals(counts, ledger.cleaning(treatments.get(1)));
        assertEquals(firstCleaned, ledger.cleaning(treatments.get(0)));
    }

    private static Event.Treated treated(String product, String at, Cleaning cleaning) {
        return new Event.Treated("Amber", product, Instant.parse(at), cleaning, null, null);
    }
}
