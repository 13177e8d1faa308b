package chainage.standing;

import static chainage.TestRides.ride;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.TestLedger;
import chainage.TestRides;
import chainage.attribution.AttributedRide;
import chainage.attribution.Attribution;
import chainage.exposure.Exposures;
import chainage.exposure.Factors;
import chainage.ledger.Event;
import chainage.ledger.Grit;
import chainage.ledger.Ledger;
import chainage.ledger.Moisture;
import chainage.ledger.Reading;
import chainage.ledger.Remark;
import chainage.ledger.Rule;
import chainage.quantity.Estimate;
import chainage.standing.Standing.Limit;
import chainage.treatment.Life;
import chainage.treatment.LifeModel;
import chainage.treatment.TreatmentStanding;
import chainage.wear.Paces;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class StandingsTest {
    private static final Factors FACTORS = TestLedger.factors();
    private static final Instant NOW = Instant.parse("2026-03-29T00:00:00Z");

    /** Two bikes, a chain on each, one on the shelf; four weeks of a ride a week. */
    private static TestLedger three() {
        return new TestLedger()
                .bike("Dunlin")
                .bike("Natterjack")
                .add(
                        new Event.RuleSet(new Rule(new Rule.Otherwise(), "Dunlin", null)),
                        new Event.RuleSet(new Rule(new Rule.Path("mud"), "Natterjack", null)))
                .chain("Amber")
                .chain("Moss")
                .chain("Ochre")
                .installed("Amber", "Dunlin", "2026-03-01T00:00:00Z")
                .installed("Moss", "Natterjack", "2026-03-01T00:00:00Z")
                .treated("Amber", "hot-wax", "2026-03-01T00:00:00Z")
                .treated("Moss", "wet-lube", "2026-03-01T00:00:00Z")
                .treated("Ochre", "hot-wax", "2026-03-01T00:00:00Z");
    }

    private static TestRides[] rides() {
        return new TestRides[] {
            ride("a", "2026-03-01T08:00:00Z", 20),
            ride("b", "2026-03-08T08:00:00Z", 20),
            ride("c", "2026-03-15T08:00:00Z", 20),
            ride("m", "2026-03-21T08:00:00Z", 10).path("/x/mud/m.fit"),
            ride("d", "2026-03-22T08:00:00Z", 20)
        };
    }

    private static List<Standing> standings(TestLedger t, TestRides... rides) {
        Ledger l = t.ledger();
        List<AttributedRide> all =
                Attribution.of(l, Arrays.stream(rides).map(TestRides::filed).toList());
        Exposures exposures = Exposures.of(l, all, TestLedger.roads(l), FACTORS);
        return Standings.of(
                l,
                exposures,
                Estimates.of(
                        new LifeModel(Life.of(l, exposures, FACTORS), FACTORS), l, exposures, FACTORS, Paces.TABLE),
                FACTORS,
                NOW);
    }

    private static List<String> order(List<Standing> standings) {
        return standings.stream().map(Standing::chain).toList();
    }

    private static Standing of(List<Standing> standings, String chain) {
        return standings.stream()
                .filter(s -> s.chain().equals(chain))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void theNearestLimitComesFirst() {
        List<Standing> s = standings(three(), rides());
        assertEquals(List.of("Amber", "Moss", "Ochre"), order(s));
        TreatmentStanding amber = of(s, "Amber").treatment();
        assertEquals(80_000, amber.exposureMetres(), 1e-6);
        assertEquals(80_000 / amber.limitMetres(), of(s, "Amber").used(), 1e-12);
        assertEquals(Limit.TREATMENT, of(s, "Amber").nearest());
    }

    @Test
    void datesGoByThePaceOfTheBike() {
        // Four weeks of 20 km each; what is left to the limit at that pace, to the minute.
        Standing amber = of(standings(three(), rides()), "Amber");
        double left = amber.treatment().dueInMetres() / 1000;
        assertTrue(left > 10 && left < 140, left + " km");
        double days = left / 20 * 7;
        Dates dates = amber.treatBy();
        assertNotNull(dates);
        assertEquals(days, (dates.likely().getEpochSecond() - NOW.getEpochSecond()) / 86_400.0, 1.0 / 1440);
        assertEquals(4, dates.weeks());
        Dates end = amber.treatOn();
        assertNotNull(end);
        assertTrue(!end.low().isAfter(end.likely()) && !end.likely().isAfter(end.high()));
        assertTrue(dates.likely().isBefore(end.likely()), "cautious is before likely");
    }

    /** Of four rides two were wet, which hot wax counts four times (the table): a usual km counts 2.5. */
    @Test
    void whatIsLeftIsToldAsTheBikeIsRidden() {
        TestRides[] rides = rides();
        Standing dry = of(standings(three(), rides), "Amber");
        assertEquals(1, dry.usualCounts(), 1e-12);
        assertEquals(dry.treatment().dueInMetres(), dry.leftMetres(), 1e-9);
        assertEquals(dry.treatment().limitMetres() / 20_000 * 7, dry.freshDays(), 1e-9);

        List<String> first = List.of(rides[0].id(), rides[1].id());
        TestLedger tagged = three().treated("Amber", "hot-wax", "2026-03-14T00:00:00Z")
                .add(new Event.Tagged(first, Moisture.WET, 1, Grit.CLEAN));
        Standing wet = of(standings(tagged, rides), "Amber");
        double left = wet.treatment().dueInMetres();
        assertTrue(left > 0, left + " m");
        assertEquals(2.5, wet.usualCounts(), 1e-12);
        assertEquals(left / 2.5, wet.leftMetres(), 1e-9);
        assertEquals(wet.treatment().limitMetres() / 50_000 * 7, wet.freshDays(), 1e-9);
        assertTrue(wet.dueBeforeNextRide() == wet.usualRideMetres() >= left);
    }

    @Test
    void whatIsUntreatedIsNotTreatedEveryNoughtDays() {
        Standing bare = of(standings(three().treated("Amber", "none", "2026-03-02T00:00:00Z"), rides()), "Amber");
        assertTrue(Double.isNaN(bare.freshDays()));
    }

    /** On the shelf it goes by its last bike: what that usually rides must be left before it goes on again. */
    @Test
    void aChainOnTheShelfIsTreatedBeforeUseWhereAUsualRideWouldBeTooMuch() {
        TestLedger off = three().removed("Amber", "2026-03-28T00:00:00Z");
        Standing begun = of(standings(off, rides()), "Amber");
        assertEquals(20_000, begun.usualRideMetres(), 1e-9);
        assertEquals(begun.treatment().dueInMetres() <= 20_000, begun.dueBeforeUse());
        TestRides[] more = Arrays.copyOf(rides(), 6);
        more[5] = ride("e", "2026-03-25T08:00:00Z", (int) (begun.treatment().dueInMetres() / 1000) - 5);
        Standing nearly = of(standings(off, more), "Amber");
        assertTrue(
                nearly.treatment().used() < 1 && nearly.dueBeforeUse(),
                nearly.treatment().used() + "");
        assertTrue(!nearly.dueBeforeNextRide(), "it has none");
    }

    /** Two chains take turns on one bike, a week each: what is left lasts twice as long, also for the one on the shelf. */
    @Test
    void aChainInRotationGetsItsShareOfTheRides() {
        TestLedger turns = new TestLedger()
                .bike("Dunlin")
                .add(new Event.RuleSet(new Rule(new Rule.Otherwise(), "Dunlin", null)))
                .chain("Amber")
                .chain("Moss")
                .treated("Amber", "wet-lube", "2025-12-31T00:00:00Z")
                .treated("Moss", "wet-lube", "2025-12-31T00:00:00Z");
        TestRides[] rides = new TestRides[12];
        for (int i = 0; i < 12; i++) {
            Instant day = NOW.minusSeconds(86_400L * (7 * (12 - i) - 3));
            String on = i % 2 == 0 ? "Amber" : "Moss";
            String off = i % 2 == 0 ? "Moss" : "Amber";
            if (i > 0) {
                turns.removed(off, day.minusSeconds(7200).toString());
            }
            turns.installed(on, "Dunlin", day.minusSeconds(3600).toString());
            rides[i] = ride("turn" + i, day.toString(), 20);
        }
        List<Standing> s = standings(turns, rides);
        Standing amber = of(s, "Amber");
        Standing moss = of(s, "Moss");
        assertNull(amber.bike());
        assertNull(amber.treatOn(), "its treatment waits");
        assertNotNull(amber.replaceOn());
        assertNotNull(moss.replaceOn());
        // 20 km a week on the bike, half of it on each chain.
        double weeks = moss.treatment().dueInMetres() / 20_000 * 2;
        assertEquals(
                weeks,
                (Objects.requireNonNull(moss.treatBy()).likely().getEpochSecond() - NOW.getEpochSecond()) / 604_800.0,
                0.05 * weeks + 0.6);
    }

    /** A chain that is worn as well as overdue is to be replaced, on the shelf too. */
    @Test
    void aWornChainIsReplacedAndNotTreated() {
        TestLedger t = three().add(new Event.Measured(
                        "Amber", Instant.parse("2026-03-14T00:00:00Z"), new Reading.Gauge(0.5, true)))
                .add(new Event.Remarked("Amber", Instant.parse("2026-03-20T00:00:00Z"), Remark.NOISY, ""));
        assertEquals(Limit.REPLACEMENT, of(standings(t, rides()), "Amber").nearest());
    }

    @Test
    void aChainNeverRiddenGetsNoDate() {
        Standing ochre = of(standings(three(), rides()), "Ochre");
        assertNull(ochre.bike());
        assertNull(ochre.treatOn());
        assertNull(ochre.replaceOn());
    }

    @Test
    void withoutRecentRidesThereIsNoDate() {
        Standing amber = of(standings(three(), ride("old", "2025-03-30T08:00:00Z", 40)), "Amber");
        assertNull(amber.treatOn());
    }

    @Test
    void aNoisyChainIsDueWhateverItRan() {
        List<Standing> s = standings(
                three().add(new Event.Remarked("Moss", Instant.parse("2026-03-20T00:00:00Z"), Remark.NOISY, "")),
                rides());
        assertEquals("Moss", order(s).get(0));
        assertEquals(1, of(s, "Moss").used());
        assertTrue(of(s, "Moss").due());
        assertEquals(0, of(s, "Moss").treatment().leftMetres().likely());
    }

    @Test
    void aNoiseBeforeTheTreatmentIsOver() {
        List<Standing> s = standings(
                three().add(new Event.Remarked("Moss", Instant.parse("2026-02-20T00:00:00Z"), Remark.NOISY, "")),
                rides());
        assertTrue(of(s, "Moss").used() < 1);
    }

    @Test
    void aDamagedChainComesFirstUntilItIsOffTheBike() {
        TestLedger t =
                three().add(new Event.Remarked("Moss", Instant.parse("2026-03-20T00:00:00Z"), Remark.DAMAGED, ""));
        List<Standing> s = standings(t, rides());
        assertEquals("Moss", order(s).get(0));
        assertEquals(Limit.REPLACEMENT, s.get(0).nearest());
        assertTrue(s.get(0).due());
        t.removed("Moss", "2026-03-25T00:00:00Z");
        assertEquals(List.of("Amber", "Ochre"), order(standings(t, rides())));
    }

    @Test
    void aRetiredChainIsLeftOut() {
        TestLedger t =
                three().add(new Event.Remarked("Ochre", Instant.parse("2026-03-20T00:00:00Z"), Remark.RETIRED, ""));
        assertEquals(List.of("Amber", "Moss"), order(standings(t, rides())));
    }

    /** A chain whose first reading no wear could explain had run before; its reading counts, and is not argued away. */
    @Test
    void aLongReadingOfAHardlyRiddenChainCounts() {
        TestLedger t = three().add(new Event.Measured(
                "Amber",
                Instant.parse("2026-03-14T00:00:00Z"),
                new Reading.Elongation(0.48, Reading.Tool.CALLIPER, 8)));
        Standing amber = of(standings(t, rides()), "Amber");
        assertEquals(0.48, amber.wear().elongationPercent().likely(), 0.05);
        assertTrue(amber.wear().elongation().isNew() < 0.15, "or the reading is a slip");
        assertEquals(Limit.REPLACEMENT, amber.nearest());
        assertTrue(amber.wear().elongationPercent().high() > 0.5);
    }

    @ParameterizedTest(name = "gauge {0} drops {1}: {2} to {3}")
    @CsvSource(textBlock = """
            0.5,  true,  0.45, 3
            0.5,  false, 0,    0.5
            0.75, true,  0.7,  3
            """)
    void aGaugeBoundsTheElongation(double edge, boolean drops, double least, double most) {
        TestLedger t = three().add(new Event.Measured(
                "Amber", Instant.parse("2026-03-28T00:00:00Z"), new Reading.Gauge(edge, drops)));
        Estimate percent = of(standings(t, rides()), "Amber").wear().elongationPercent();
        assertTrue(percent.low() >= least && percent.likely() <= most, percent + " %");
    }

    /** Common practice, no source: 0.5 % from 11 speeds on, 0.75 % up to 10, 1 % for one. */
    @ParameterizedTest(name = "{0} speeds: {1} %")
    @CsvSource({"12, 0.5", "11, 0.5", "10, 0.75", "8, 0.75", "1, 1.0", "0, 0.5"})
    void theLimitGoesByTheSpeeds(int speeds, double percent) {
        TestLedger t = three().add(new Event.ChainDescribed("Amber", 0, speeds, null, null));
        assertEquals(percent, of(standings(t, rides()), "Amber").wear().limitPercent());
        t.add(new Event.ChainDescribed("Amber", 0, speeds, 0.6, null));
        assertEquals(0.6, of(standings(t, rides()), "Amber").wear().limitPercent());
    }

    @Test
    void anUntreatedChainIsToBeTreated() {
        Standing amber = of(standings(three().treated("Amber", "none", "2026-03-02T00:00:00Z"), rides()), "Amber");
        assertTrue(amber.due());
        assertNull(amber.treatment().lifeMetres());
    }
}
