package chainage.ledger;

import static org.junit.jupiter.api.Assertions.assertEquals;

import chainage.TestLedger;
import chainage.quantity.Interval;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;

class InstallationsTest {
    private static final Instant MARCH = Instant.parse("2026-03-01T00:00:00Z");
    private static final Instant APRIL = Instant.parse("2026-04-01T00:00:00Z");

    private static TestLedger two() {
        return new TestLedger().bike("Dunlin").bike("Natterjack").chain("Amber").chain("Ochre");
    }

    private static Installation on(String chain, Instant from, long entry) {
        return new Installation(chain, "Dunlin", new Interval(from, null), entry);
    }

    private static String chainOn(Ledger ledger, String bike, Instant at) {
        return ledger.installedOn(bike, at).map(Installation::chain).orElse("none");
    }

    @Test
    void aSwapAtOneInstantLeavesNoGapAndNoOverlap() {
        Ledger l = two().installed("Amber", "Dunlin", "2026-03-01T00:00:00Z")
                .removed("Amber", "2026-04-01T00:00:00Z")
                .installed("Ochre", "Dunlin", "2026-04-01T00:00:00Z")
                .ledger();
        assertEquals(0, l.problems().size());
        assertEquals("none", chainOn(l, "Dunlin", MARCH.minusMillis(1)));
        assertEquals("Amber", chainOn(l, "Dunlin", MARCH));
        assertEquals("Amber", chainOn(l, "Dunlin", APRIL.minusMillis(1)));
        assertEquals("Ochre", chainOn(l, "Dunlin", APRIL));
    }

    @Test
    void aChainMovesFromBikeToBikeAtOneInstant() {
        Ledger l = two().installed("Amber", "Dunlin", "2026-03-01T00:00:00Z")
                .installed("Amber", "Natterjack", "2026-04-01T00:00:00Z")
                .removed("Amber", "2026-04-01T00:00:00Z")
                .ledger();
        assertEquals(0, l.problems().size());
        assertEquals("Amber", chainOn(l, "Natterjack", APRIL));
        assertEquals("none", chainOn(l, "Dunlin", APRIL));
    }

    @Test
    void twoChainsOnOneBikeAreAProblemThatNamesBoth() {
        Ledger l = two().installed("Amber", "Dunlin", "2026-03-01T00:00:00Z")
                .installed("Ochre", "Dunlin", "2026-04-01T00:00:00Z")
                .ledger();
        assertEquals(List.of(new Problem.TwoChains(on("Amber", MARCH, 5), on("Ochre", APRIL, 6))), l.problems());
        assertEquals("Ochre", chainOn(l, "Dunlin", APRIL), "the later one counts");
    }

    @Test
    void oneChainOnTwoBikesIsAProblem() {
        Ledger l = two().installed("Amber", "Dunlin", "2026-03-01T00:00:00Z")
                .installed("Amber", "Natterjack", "2026-04-01T00:00:00Z")
                .ledger();
        assertEquals(1, l.problems().size());
    }

    @Test
    void aRemovalWithoutAnInstallationIsAProblem() {
        assertEquals(
                1,
                two().removed("Amber", "2026-03-01T00:00:00Z")
                        .ledger()
                        .problems()
                        .size());
    }

    @Test
    void theOrderOfWritingDoesNotMatter() {
        Ledger backwards = two().installed("Ochre", "Dunlin", "2026-04-01T00:00:00Z")
                .removed("Amber", "2026-04-01T00:00:00Z")
                .installed("Amber", "Dunlin", "2026-03-01T00:00:00Z")
                .ledger();
        assertEquals(0, backwards.problems().size());
        assertEquals("Amber", chainOn(backwards, "Dunlin", MARCH));
    }

    @Test
    void anUndoneFactIsOutOfForceAndAnUndoneUndoBringsItBack() {
        TestLedger t = two().installed("Amber", "Dunlin", "2026-03-01T00:00:00Z");
        t.add(new Event.Undone(5));
        assertEquals("none", chainOn(t.ledger(), "Dunlin", MARCH));
        t.add(new Event.Undone(6));
        assertEquals("Amber", chainOn(t.ledger(), "Dunlin", MARCH));
        t.add(new Event.Undone(7));
        assertEquals("none", chainOn(t.ledger(), "Dunlin", MARCH));
    }

    @Test
    void undoingADescriptionThatIsUsedIsAProblem() {
        TestLedger t = two().installed("Amber", "Dunlin", "2026-03-01T00:00:00Z");
        t.add(new Event.Undone(1));
        assertEquals(
                List.of(new Problem.Unknown(5, Event.Named.BIKE, "Dunlin")),
                t.ledger().problems());
    }

    @Test
    void asOfLeavesLaterFactsOut() {
        TestLedger t =
                two().installed("Amber", "Dunlin", "2026-03-01T00:00:00Z").removed("Amber", "2026-04-01T00:00:00Z");
        assertEquals("Amber", chainOn(Ledger.asOf(t.entries(), MARCH.plusSeconds(1)), "Dunlin", APRIL));
        assertEquals("none", chainOn(Ledger.asOf(t.entries(), APRIL), "Dunlin", APRIL));
    }
}
