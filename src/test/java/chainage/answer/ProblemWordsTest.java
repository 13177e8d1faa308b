package chainage.answer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.ledger.Event;
import chainage.ledger.Installation;
import chainage.ledger.Kinds;
import chainage.ledger.Misfit;
import chainage.ledger.Problem;
import chainage.quantity.Interval;
import chainage.render.Formatter;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

class ProblemWordsTest {
    /** One hour after UTC on both days. */
    private static final ProblemWords WORDS = new ProblemWords(new Formatter(false, ZoneId.of("Europe/Berlin")));

    private static final Instant FIRST = Instant.parse("2026-01-31T23:30:00Z");
    private static final Instant SECOND = Instant.parse("2026-02-28T23:30:00Z");

    /** A name that only looks like an instant stays as it is. */
    private static final String NAME = "2026-01-01T00:00:00Z";

    private static final List<Problem> ALL = List.of(
            new Problem.Unknown(3, Event.Named.CHAIN, NAME),
            new Problem.NotBefore(3, 4),
            new Problem.Alike(Event.Named.CHAIN, "Amber", 3, "AMBER", 4),
            new Problem.NoisyAndQuiet(NAME, FIRST, 3, SECOND, 4),
            new Problem.OnTwoBikes(
                    new Event.Installed(NAME, "Dunlin", FIRST), 3, new Event.Installed(NAME, "Knot", SECOND), 4),
            new Problem.OnNoBike(NAME, SECOND, 3),
            new Problem.TwoChains(on(NAME, FIRST, 3), on("Ochre", SECOND, 4)));

    private static Installation on(String chain, Instant from, long entry) {
        return new Installation(chain, "Dunlin", new Interval(from, null), entry);
    }

    /** A shell runs what stands between double quotes after a dollar sign. */
    @Test
    void aNameInACommandIsQuotedAsAShellMust() {
        assertTrue(ProblemWords.hint(new Problem.Unknown(3, Event.Named.CHAIN, "$(x)"))
                .contains("chainage chain add '$(x)',"));
    }

    @Test
    void everyProblemHasWordsAndAMend() {
        assertEquals(
                Set.of(Problem.class.getPermittedSubclasses()),
                ALL.stream().map(Problem::getClass).collect(Collectors.toSet()));
        for (Problem p : ALL) {
            assertFalse(WORDS.of(p).isBlank());
            assertTrue(p.entries().contains(3L));
            assertFalse(ProblemWords.hint(p).isBlank());
        }
    }

    @Test
    void timesAreByTheRidersClockAndNamesAsTheyAre() {
        assertEquals(
                "chain " + NAME + " was noisy at 2026-02-01 00:30 (entry 3), and quiet until treated at"
                        + " 2026-03-01 00:30 (entry 4)",
                WORDS.of(ALL.get(3)));
        assertEquals(
                "bike Dunlin has two chains from 2026-03-01 00:30: " + NAME + " (since 2026-02-01 00:30) and Ochre",
                WORDS.of(ALL.get(6)));
    }

    @Test
    void whatIsOutOfBoundsIsToldByTheSameClock() {
        Event.Removed never = new Event.Removed("Amber", Instant.parse("1969-06-30T23:30:00Z"));
        Misfit misfit = assertThrows(Misfit.class, () -> Kinds.of(never).check(never));
        assertEquals(
                "this cannot be noted (field at: 1969-07-01 00:30 is not in the years 1970 to 2099)", WORDS.of(misfit));
        assertEquals("field at: 1969-06-30T23:30:00Z is not in the years 1970 to 2099", misfit.getMessage());
    }
}
