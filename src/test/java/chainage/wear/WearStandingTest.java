package chainage.wear;

import static chainage.TestRides.ride;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.TestLedger;
import chainage.TestRides;
import chainage.attribution.Attribution;
import chainage.exposure.Exposures;
import chainage.exposure.Factors;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Method;
import chainage.ledger.Reading;
import chainage.ledger.Remark;
import chainage.ledger.Rule;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class WearStandingTest {
    private static final Factors FACTORS = TestLedger.factors();

    private static TestLedger amber() {
        return new TestLedger()
                .bike("Dunlin")
                .add(new Event.RuleSet(new Rule(new Rule.Otherwise(), "Dunlin", null)))
                .chain("Amber")
                .installed("Amber", "Dunlin", "2026-03-01T00:00:00Z")
                .treated("Amber", "hot-wax", "2026-03-01T00:00:00Z");
    }

    private static Event measured(String chain, String at, Reading reading) {
        return new Event.Measured(chain, Instant.parse(at), reading);
    }

    private static Reading length(double percent) {
        return new Reading.Elongation(percent, Reading.Tool.CALLIPER, 8);
    }

    /** So many rides of 50 km, a day apart. */
    private static Exposures exposures(Ledger ledger, int rides) {
        List<TestRides> all = new ArrayList<>();
        for (int i = 0; i < rides; i++) {
            all.add(ride(
                    "r" + i,
                    Instant.parse("2026-03-01T08:00:00Z")
                            .plusSeconds(86_400L * i)
                            .toString(),
                    50));
        }
        return Exposures.of(
                ledger,
                Attribution.of(ledger, all.stream().map(TestRides::filed).toList()),
                TestLedger.roads(ledger),
                FACTORS);
    }

    private static WearStanding of(TestLedger facts, int rides) {
        Ledger ledger = facts.ledger();
        Exposures exposures = exposures(ledger, rides);
        return WearStanding.of(
                ledger,
                Objects.requireNonNull(exposures.chains().get("Amber")),
                WearModel.of(ledger, exposures, FACTORS, Paces.TABLE),
                FACTORS);
    }

    /** The usual limits are common practice; of unknown speeds the strictest. */
    @ParameterizedTest
    @CsvSource({"0,0.5", "1,1.0", "2,0.75", "10,0.75", "11,0.5", "13,0.5"})
    void theLimitGoesByTheSpeeds(int speeds, double limit) {
        assertEquals(limit, WearStanding.limit(new Event.ChainDescribed("x", 112, speeds, null, null), FACTORS));
        assertEquals(0.6, WearStanding.limit(new Event.ChainDescribed("x", 112, speeds, 0.6, null), FACTORS));
    }

    /** 200 km of dry clean road under hot wax, before its rate rises: the table's 0.025 % a 1000 km. */
    @Test
    void withoutReadingsItIsTheTable() {
        WearStanding s = of(amber(), 4);
        assertEquals(0.2 * 0.025, s.expectedPercent(), 1e-6);
        assertEquals(s.expectedPercent(), s.elongationPercent().likely(), 1e-6);
        assertEquals(s.expectedPercent() / 200_000, s.percentPerMetre(), 1e-15);
        // What the table expects up to the limit, less what it expects of what was ridden.
        assertEquals(
                (0.5 - s.expectedPercent()) / s.percentPerMetre(),
                s.ridableMetres().likely(),
                1_000);
        // Both ends by the spread that the table of factors states, the shared part and a chain's own together.
        double tenth = Math.exp(
                FACTORS.value("wear.spread") * NormalDistribution.of(0, 1).inverseCumulativeProbability(0.1));
        assertEquals(s.expectedPercent() * tenth, s.elongationPercent().low(), 1e-6);
        assertEquals(s.expectedPercent() / tenth, s.elongationPercent().high(), 1e-6);
        assertEquals(
                (0.5 * tenth - s.expectedPercent()) / s.percentPerMetre(),
                s.ridableMetres().low(),
                20_000);
        assertEquals(
                (0.5 / tenth - s.expectedPercent()) / s.percentPerMetre(),
                s.ridableMetres().high(),
                20_000);
        assertEquals(s.ridableMetres(), s.leftMetres());
        assertEquals(s.elongationPercent().likely() / 0.5, s.used(), 1e-12);
        assertEquals(0, s.over(), 1e-6);
        assertEquals(0, s.othersRead());
        assertNull(s.outOfService());
        assertTrue(s.bad().isEmpty());
    }

    /** Hardly ridden, the chain's own mix says nothing, and the table's rate of the method stands in. */
    @Test
    void aChainHardlyRiddenGoesByItsMethod() {
        assertEquals(0.025 / 1e6, of(amber(), 1).percentPerMetre(), 1e-15);
        // From 100 km on it is the mix: half under hot wax, half under oil, though it has oil on it now.
        WearStanding mixed = of(amber().treated("Amber", "wet-lube", "2026-03-02T00:00:00Z"), 2);
        assertEquals((0.025 + 0.060) / 2 / 1e6, mixed.percentPerMetre(), 1e-12);
    }

    /** The edges of one gauge, tried together: that 0.75 stays out does not clear what 0.5 said. */
    @Test
    void aHigherEdgeThatStaysOutTakesNothingFromALowerOneThatDropsIn() {
        WearStanding s = of(
                amber().add(
                                measured("Amber", "2026-03-03T00:00:00Z", new Reading.Gauge(0.5, true)),
                                measured("Amber", "2026-03-03T00:00:00Z", new Reading.Gauge(0.75, false))),
                4);
        assertEquals(
                new Reading.Gauge(0.5, true), s.bad().orElseThrow().measured().reading());
        assertTrue(s.used() >= 1);
        // A later one that does not drop in does.
        assertTrue(of(
                        amber().add(
                                        measured("Amber", "2026-03-02T00:00:00Z", new Reading.Gauge(0.5, true)),
                                        measured("Amber", "2026-03-03T00:00:00Z", new Reading.Gauge(0.5, false))),
                        4)
                .bad()
                .isEmpty());
    }

    @Test
    void theLatestReadingAtTheLimitIsNotArguedAway() {
        WearStanding below = of(amber().add(measured("Amber", "2026-03-03T00:00:00Z", length(0.499))), 4);
        assertTrue(below.bad().isEmpty());
        WearStanding at = of(amber().add(measured("Amber", "2026-03-03T00:00:00Z", length(0.5))), 4);
        assertFalse(at.bad().isEmpty());
        assertTrue(at.used() >= 1);
        WearStanding later = of(
                amber().add(
                                measured("Amber", "2026-03-03T00:00:00Z", length(0.5)),
                                measured("Amber", "2026-03-04T00:00:00Z", length(0.3))),
                4);
        assertTrue(later.bad().isEmpty());
        assertEquals(2, later.readings().size());
        // The edge that drops says so much; one that passes says nothing by itself.
        assertFalse(of(amber().add(measured("Amber", "2026-03-03T00:00:00Z", new Reading.Gauge(0.5, true))), 4)
                .bad()
                .isEmpty());
        assertTrue(of(amber().add(measured("Amber", "2026-03-03T00:00:00Z", new Reading.Gauge(0.5, false))), 4)
                .bad()
                .isEmpty());
        assertTrue(of(amber().add(measured("Amber", "2026-03-03T00:00:00Z", new Reading.Gauge(0.25, true))), 4)
                .bad()
                .isEmpty());
    }

    @Test
    void aReadingIsHeldAgainstWhatWasRiddenBeforeIt() {
        WearStanding s = of(amber().add(measured("Amber", "2026-03-03T00:00:00Z", length(0.01))), 4);
        assertEquals(0.1 * 0.025, s.readings().get(0).expectedPercent(), 1e-6);
    }

    @Test
    void aCondemnedChainHasNothingLeft() {
        WearStanding s = of(
                amber().add(new Event.Remarked("Amber", Instant.parse("2026-03-05T00:00:00Z"), Remark.DAMAGED, "")), 4);
        assertEquals(0, s.leftMetres().high());
        assertTrue(s.ridableMetres().high() > 0);
        assertEquals(1, s.used());
    }

    @Test
    void othersAreCountedThatWereRead() {
        TestLedger two = amber().chain("Moss").add(measured("Moss", "2026-03-03T00:00:00Z", length(0.2)));
        assertEquals(1, of(two, 4).othersRead());
        assertEquals(
                1,
                of(two.add(measured("Amber", "2026-03-03T00:00:00Z", length(0.01))), 4)
                        .othersRead());
    }

    /** Four fifths of what the table expects of a chain must be of one product for the chain to speak for it. */
    @ParameterizedTest
    @CsvSource({"9,true", "8,false"})
    void aChainSpeaksForTheProductThatItWasMostlyRiddenOn(int onWax, boolean speaks) {
        String then = Instant.parse("2026-03-01T00:00:00Z")
                .plusSeconds(86_400L * onWax)
                .toString();
        // Products of one method wear alike, so that the shares are those of the distance.
        Event.ProductDescribed block = new Event.ProductDescribed("Kettle Block", Method.HOT_WAX, null, null);
        Ledger ledger = new TestLedger()
                .bike("Dunlin")
                .add(new Event.RuleSet(new Rule(new Rule.Otherwise(), "Dunlin", null)), block)
                .chain("Amber")
                .installed("Amber", "Dunlin", "2026-03-01T00:00:00Z")
                .treated("Amber", "hot-wax", "2026-03-01T00:00:00Z")
                .treated("Amber", "hot-wax", "2026-03-05T00:00:00Z")
                .treated("Amber", "Kettle Block", then)
                .add(measured("Amber", "2026-03-13T00:00:00Z", length(0.2)))
                .ledger();
        Exposures exposures = exposures(ledger, 11);
        WearModel model = WearModel.of(ledger, exposures, FACTORS, Paces.TABLE);
        ProductWear wear = model.of(new Event.ProductDescribed("hot-wax", Method.HOT_WAX, null, null), 0.025);
        assertEquals(speaks ? 1 : 0, wear.chains());
        assertEquals(0, model.of(block, 0.025).chains());
        assertEquals(speaks ? 1 : 0, wear.readings());
        // 0.2 % measured where 0.01375 % was expected: faster than the table, and each product's share of that counts.
        assertTrue(wear.percentPer1000Km().likely() > 0.026);
    }
}
