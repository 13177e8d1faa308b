package chainage.ledger;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.Computing;
import chainage.TestLedger;
import java.time.Instant;
import org.junit.jupiter.api.Test;

class ManyChainsTest {
    /** A look through all facts at each question would be some five thousand million of them: a minute, not a second. */
    @Test
    void aQuestionAboutOneChainLooksAtItsFactsAlone() throws Throwable {
        int chains = 40_000;
        TestLedger made = new TestLedger();
        for (int c = 0; c < chains; c++) {
            String chain = "Chain " + c;
            made.bike("Bike " + c).chain(chain).installed(chain, "Bike " + c, "2026-01-01T00:00:00Z");
            made.treated(chain, "wet-lube", "2026-01-01T00:00:00Z");
            made.add(new Event.Remarked(chain, Instant.parse("2026-01-20T00:00:00Z"), Remark.NOISY, ""));
            made.treated(chain, "wet-lube", "2026-02-01T00:00:00Z");
        }
        Computing.atMost(15, () -> {
            Ledger ledger = made.ledger();
            Instant then = Instant.parse("2026-02-02T00:00:00Z");
            for (int c = 0; c < chains; c++) {
                String chain = "Chain " + c;
                assertEquals(3, ledger.spells(chain).size());
                assertTrue(ledger.noiseSinceTreatment(chain).isEmpty());
                assertEquals(
                        "Bike " + c,
                        ledger.installationOf(chain, then).orElseThrow().bike());
            }
        });
    }
}
