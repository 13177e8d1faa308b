package chainage.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.TestLedger;
import chainage.TestRides;
import chainage.attribution.AttributedRide;
import chainage.attribution.Attribution;
import chainage.exposure.Exposures;
import chainage.exposure.Factors;
import chainage.ledger.Cleaning;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Method;
import chainage.ledger.Reading;
import chainage.ledger.Remark;
import chainage.ledger.Rule;
import chainage.ride.FiledRide;
import chainage.standing.Estimates;
import chainage.standing.Standing;
import chainage.standing.Standings;
import chainage.treatment.Life;
import chainage.treatment.LifeModel;
import chainage.wear.Paces;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import java.util.stream.LongStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class PlanTest {
    private static final Factors FACTORS = TestLedger.factors();
    private static final Instant NOW = Instant.parse("2026-07-01T00:00:00Z");
    private static final Event.ProductDescribed WAX =
            new Event.ProductDescribed("Kettle Block", Method.HOT_WAX, null, 40.0, 5.0, 20.0);

    static LongStream seeds() {
        return LongStream.range(0, 200);
    }

    private static Instant day(int day) {
        return NOW.plus(Duration.ofDays(day));
    }

    private static PlannedTreatment need(String chain, double used, int from, @Nullable Integer cautious) {
        return new PlannedTreatment(
                chain,
                cautious == null ? null : "Dunlin",
                WAX,
                used,
                day(from),
                cautious == null ? null : day(cautious),
                cautious == null ? null : day(cautious + 5),
                Double.NaN,
                null);
    }

    private static List<String> chains(PotSession s) {
        return s.treatments().stream().map(PlannedTreatment::chain).toList();
    }

    @Test
    void oneSessionServesAllThatAreWorthwhileBeforeTheFirstIsLate() {
        List<PotSession> sessions = PotSession.of(
                List.of(
                        need("Amber", 0.6, 0, 10),
                        need("Ochre", 0.2, 8, 20),
                        need("Moss", 0.1, 15, 25),
                        need("Flint", 0.7, 0, null)),
                NOW,
                day(42));
        assertEquals(2, sessions.size());
        assertEquals(day(10), sessions.get(0).by());
        assertEquals(List.of("Amber", "Ochre", "Flint"), chains(sessions.get(0)));
        assertEquals(day(25), sessions.get(1).by());
        assertEquals(List.of("Moss"), chains(sessions.get(1)));
    }

    @Test
    void chainsOnTheShelfAloneCallForASessionOnlyWhenOneIsUsedUp() {
        assertEquals(List.of(), PotSession.of(List.of(need("Amber", 0.7, 0, null)), NOW, day(42)));
        List<PotSession> sessions =
                PotSession.of(List.of(need("Amber", 0.7, 0, null), need("Ochre", 1.1, 0, null)), NOW, day(42));
        assertEquals(NOW, sessions.get(0).by());
        assertEquals(List.of("Ochre", "Amber"), chains(sessions.get(0)));
    }

    @Test
    void whatHasTimeBeyondTheWeeksIsLeftForLater() {
        assertEquals(List.of(), PotSession.of(List.of(need("Amber", 0.6, 0, 50)), NOW, day(42)));
    }

    /** Three chains of 20 minutes, 60 % of them once a session: 12 + 3 × 8. */
    @Test
    void theFixedPartOfASessionIsSpentOnce() {
        PotSession s = new PotSession(
                NOW, WAX, List.of(need("Amber", 1, 0, 0), need("Ochre", 1, 0, 0), need("Moss", 1, 0, 0)));
        assertEquals(60, s.oneByOne(20), 1e-12);
        assertEquals(36, s.together(20, 0.6), 1e-12);
        assertEquals(20, new PotSession(NOW, WAX, List.of(need("Amber", 1, 0, 0))).together(20, 0.6), 1e-12);
    }

    /** Against trying all sets of days: no fewer sessions are in time for every chain, and none is too early for one. */
    @ParameterizedTest
    @MethodSource("seeds")
    void noFewerSessionsWouldDo(long seed) {
        Random random = new Random(seed);
        List<PlannedTreatment> needs = new ArrayList<>();
        for (int i = 0; i < 6; i++) {
            int from = random.nextInt(8);
            needs.add(need("C" + i, 0.6, from, from + random.nextInt(5)));
        }
        List<PotSession> sessions = PotSession.of(needs, NOW, day(42));
        assertEquals(6, sessions.stream().mapToInt(s -> s.treatments().size()).sum(), "seed " + seed);
        for (PotSession s : sessions) {
            for (PlannedTreatment n : s.treatments()) {
                assertFalse(n.from().isAfter(s.by()), "seed " + seed);
                assertFalse(Objects.requireNonNull(n.cautious()).isBefore(s.by()), "seed " + seed);
            }
        }
        int fewest = Integer.MAX_VALUE;
        for (int set = 1; set < 1 << 12; set++) {
            int days = set;
            if (needs.stream().allMatch(n -> {
                for (int d = 0; d < 12; d++) {
                    if ((days >> d & 1) == 1
                            && !n.from().isAfter(day(d))
                            && !Objects.requireNonNull(n.cautious()).isBefore(day(d))) {
                        return true;
                    }
                }
                return false;
            })) {
                fewest = Math.min(fewest, Integer.bitCount(set));
            }
        }
        assertEquals(fewest, sessions.size(), "seed " + seed);
    }

    /** Amber on the bike, ridden 40 km every week; the others on the shelf as the tests say. */
    private static TestLedger rotation() {
        return new TestLedger()
                .bike("Dunlin")
                .add(new Event.RuleSet(new Rule(new Rule.Otherwise(), "Dunlin", null)), WAX)
                .chain("Amber")
                .chain("Ochre")
                .chain("Flint")
                .installed("Amber", "Dunlin", "2026-01-01T00:00:00Z")
                .treated("Amber", "Kettle Block", "2026-01-01T00:00:00Z")
                .treated("Amber", "Kettle Block", "2026-06-10T00:00:00Z")
                .treated("Ochre", "Kettle Block", "2026-01-02T00:00:00Z")
                .treated("Flint", "Kettle Block", "2026-01-02T00:00:00Z");
    }

    private static Plan plan(TestLedger facts, int weeks) {
        return Plan.of(facts.ledger(), standings(facts), FACTORS, NOW, NOW.plus(Duration.ofDays(7L * weeks)));
    }

    private static List<Standing> standings(TestLedger facts) {
        Ledger ledger = facts.ledger();
        List<FiledRide> rides = new ArrayList<>();
        for (Instant t = Instant.parse("2026-01-03T08:00:00Z"); t.isBefore(NOW); t = t.plus(Duration.ofDays(7))) {
            rides.add(TestRides.ride("r" + t, t.toString(), 40).filed());
        }
        rides.sort(FiledRide.BY_START);
        List<AttributedRide> attributed = Attribution.of(ledger, rides);
        Exposures exposures = Exposures.of(ledger, attributed, TestLedger.roads(ledger), FACTORS);
        return Standings.of(
                ledger,
                exposures,
                Estimates.of(
                        new LifeModel(Life.of(ledger, exposures, FACTORS), FACTORS),
                        ledger,
                        exposures,
                        FACTORS,
                        Paces.TABLE),
                FACTORS,
                NOW);
    }

    @Test
    void aTreatmentIsPlannedBetweenWorthwhileAndLate() {
        Plan plan = plan(rotation(), 6);
        assertEquals(1, plan.treatments().size());
        PlannedTreatment amber = plan.treatments().get(0);
        // 120 km since 10 June of what is seen to be its limit; about 40 km a week to come.
        double limit = standings(rotation()).stream()
                .filter(s -> s.chain().equals("Amber"))
                .findFirst()
                .orElseThrow()
                .treatment()
                .limitMetres();
        assertEquals(120_000 / limit, amber.used(), 1e-9);
        assertFalse(amber.from().isBefore(NOW));
        assertFalse(amber.from().isAfter(Objects.requireNonNull(amber.cautious())));
        assertTrue(amber.cautious().isBefore(Objects.requireNonNull(amber.likely())));
        assertEquals(amber.cautious(), plan.sessions().get(0).by());
        assertEquals(List.of(), plan(rotation(), 0).treatments());
    }

    @Test
    void theLeastWornOfTheBestTreatedChainsThatFitIsNext() {
        Swap swap = plan(rotation(), 6).swaps().get(0);
        assertEquals("Flint", Objects.requireNonNull(swap.next()).chain(), "all alike: by name");
        assertEquals(Swap.Fit.AS_LONG_AND_NARROW, swap.fits());
        assertFalse(swap.treatFirst());
        Swap worn = plan(
                        rotation()
                                .add(new Event.Measured(
                                        "Flint",
                                        Instant.parse("2026-06-01T00:00:00Z"),
                                        new Reading.Elongation(0.2, Reading.Tool.CALLIPER, 24))),
                        6)
                .swaps()
                .get(0);
        assertEquals("Ochre", Objects.requireNonNull(worn.next()).chain());
    }

    /** The bike whose chain is due first chooses first; the other takes what is left. */
    @Test
    void noChainIsPromisedToTwoBikes() {
        TestLedger two = rotation().bike("Bittern").chain("Moss").installed("Moss", "Bittern", "2026-01-01T00:00:00Z");
        assertEquals(
                List.of("Bittern Ochre", "Dunlin Flint"),
                plan(two, 6).swaps().stream()
                        .map(s -> s.bike() + " "
                                + Objects.requireNonNull(s.next()).chain())
                        .toList());
    }

    @Test
    void aCondemnedChainIsNeverNextNorOneThatDoesNotFit() {
        TestLedger damaged = rotation()
                .add(
                        new Event.Remarked("Flint", NOW.minusSeconds(60), Remark.DAMAGED, ""),
                        new Event.Remarked("Ochre", NOW.minusSeconds(60), Remark.RETIRED, ""));
        assertNull(plan(damaged, 6).swaps().get(0).next());
        TestLedger other = new TestLedger();
        rotation().entries().forEach(e -> other.add(e.event()));
        other.add(
                new Event.ChainDescribed("Flint", 116, 11, null, null),
                new Event.ChainDescribed("Ochre", 112, 12, null, null));
        assertNull(plan(other, 6).swaps().get(0).next());
    }

    @Test
    void aWornChainIsToBeReplacedNotTreated() {
        TestLedger worn = rotation()
                .add(new Event.Measured(
                        "Amber",
                        Instant.parse("2026-06-20T00:00:00Z"),
                        new Reading.Elongation(0.6, Reading.Tool.CALLIPER, 24)));
        Plan plan = plan(worn, 6);
        assertTrue(plan.treatments().stream().noneMatch(n -> n.chain().equals("Amber")));
        assertTrue(plan.purchases().stream()
                .anyMatch(p -> p instanceof Purchase.Chain c && c.worn().chain().equals("Amber")));
    }

    /** One package of 40 ml on 1 May; what is left after some treatments of 5 ml each. */
    @Test
    void aProductThatRunsOutIsToBeBought() {
        TestLedger facts = rotation().add(new Event.Bought("Kettle Block", Instant.parse("2026-05-01T00:00:00Z"), 1));
        Purchase.Supply plenty = plan(facts, 6).supplies().get(0);
        // The one of 10 June.
        assertEquals(35, plenty.stock().millilitres(), 1e-9);
        assertEquals(7, plenty.treatmentsLeft(), 1e-9);
        assertEquals(1 / 61.0, plenty.treatmentsPerDay(), 1e-9);
        assertEquals(List.of(), plan(facts, 6).purchases());
        for (int i = 0; i < 6; i++) {
            facts.add(new Event.Treated(
                    "Ochre",
                    "Kettle Block",
                    Instant.parse("2026-05-10T00:00:00Z").plusSeconds(864_000L * i),
                    Cleaning.QUICK,
                    null,
                    null));
        }
        // One is left: at seven in 61 days it lasts less than nine days, though one treatment is planned.
        Purchase soon = plan(facts, 6).purchases().get(0);
        assertNotNull(soon.by());
        assertTrue(soon.by().isAfter(day(8)) && soon.by().isBefore(day(9)), soon.toString());
        facts.add(new Event.Treated(
                "Ochre", "Kettle Block", Instant.parse("2026-06-25T00:00:00Z"), Cleaning.QUICK, null, null));
        assertEquals(NOW, plan(facts, 6).purchases().get(0).by());
    }

    @Test
    void aBareChainGetsWhatWasUsedLast() {
        TestLedger facts = rotation().treated("Amber", "none", "2026-06-20T00:00:00Z");
        PlannedTreatment amber = plan(facts, 6).treatments().stream()
                .filter(n -> n.chain().equals("Amber"))
                .max(Comparator.comparingDouble(PlannedTreatment::used))
                .orElseThrow();
        assertEquals(WAX, amber.product());
        assertEquals(NOW, amber.cautious());
    }
}
