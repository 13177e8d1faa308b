package chainage.friction;

import static chainage.TestRides.ride;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.TestLedger;
import chainage.TestRides;
import chainage.attribution.Attribution;
import chainage.drivetrain.Gear;
import chainage.exposure.Exposures;
import chainage.exposure.Factors;
import chainage.ledger.Cleaning;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Rule;
import chainage.ride.Pedalling;
import java.time.Instant;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Losses of rides, and their sums. */
class LossSumTest {
    private static final Factors FACTORS = TestLedger.factors();

    /** An hour in 50×17 at 90 turns a minute and so many watts. */
    private static TestRides hour(String name, String start, double watts) {
        return ride(name, start, 30)
                .lasting(3600)
                .pedalled(new Pedalling(
                        List.of(new Pedalling.Row(50, 17, Double.NaN, 3600, 5400, watts * 3600, 30_000)), 0, 0));
    }

    private static List<RideLoss> losses(TestRides... rides) {
        Ledger ledger = new TestLedger()
                .bike("Dunlin")
                .add(new Event.RuleSet(new Rule(new Rule.Otherwise(), "Dunlin", null)))
                .chain("Amber")
                .installed("Amber", "Dunlin", "2026-01-01T00:00:00Z")
                .add(new Event.Treated(
                        "Amber", "hot-wax", Instant.parse("2026-02-01T00:00:00Z"), Cleaning.QUICK, null, null))
                .ledger();
        Exposures e = Exposures.of(
                ledger,
                Attribution.of(ledger, Stream.of(rides).map(TestRides::filed).toList()),
                TestLedger.roads(ledger),
                FACTORS);
        return new RideLosses(ledger, FACTORS)
                .of(Objects.requireNonNull(e.chains().get("Amber")), product -> 300_000);
    }

    @Test
    void aRideIsLostInProportionToItsCoefficient() {
        RideLoss before = losses(hour("a", "2026-01-10T08:00:00Z", 200)).get(0);
        RideLoss after = losses(hour("a", "2026-03-01T08:00:00Z", 200)).get(0);
        assertEquals(Cleaning.DEEP, before.cleaning());
        assertEquals(Cleaning.QUICK, after.cleaning());
        assertTrue(after.freshMu() < after.mu(), after.toString());
        assertEquals(after.freshMu() / after.mu(), after.freshJoules() / after.joules(), 1e-12);
        assertTrue(after.joules() > 0.005 * 720_000 && after.joules() < 0.05 * 720_000, after.joules() + " J");
    }

    @Test
    void theShareUsedRunsOnFromRideToRideAndBeginsAnewWithATreatment() {
        List<RideLoss> losses = losses(
                hour("a", "2026-01-10T08:00:00Z", 200),
                hour("b", "2026-01-11T08:00:00Z", 200),
                hour("c", "2026-03-01T08:00:00Z", 200));
        assertEquals(0, losses.get(0).usedFrom());
        assertEquals(0.1, losses.get(0).usedTo(), 1e-12);
        assertEquals(0.1, losses.get(1).usedFrom(), 1e-12);
        assertEquals(0.2, losses.get(1).usedTo(), 1e-12);
        assertEquals(0, losses.get(2).usedFrom());
    }

    @Test
    void ridesWithoutPowerAreCountedButLoseNothing() {
        List<RideLoss> losses = losses(
                hour("a", "2026-03-01T08:00:00Z", 200),
                ride("b", "2026-03-02T08:00:00Z", 30).speed(8));
        assertTrue(losses.get(0).counted());
        assertFalse(losses.get(1).counted());
        LossSum sum = LossSum.of(losses);
        assertEquals(2, sum.rides());
        assertEquals(1, sum.counted());
        assertEquals(losses.get(0).joules(), sum.lostJoules());
        assertEquals(losses.get(0).freshJoules(), sum.freshJoules());
        assertEquals(losses.get(0).pedalled().usable(), sum.usable(), 1e-12);
        LossSum none = LossSum.of(losses.subList(1, 2));
        assertEquals(1, none.usable());
        assertTrue(Double.isNaN(none.watts()));
    }

    /** An hour as above, of which only a part is in a gear that is known. */
    private static TestRides partly(String name, String start, double watts, double share) {
        double seconds = 3600 * share;
        return ride(name, start, 30)
                .lasting(3600)
                .pedalled(new Pedalling(
                        List.of(
                                new Pedalling.Row(
                                        50, 17, Double.NaN, seconds, 5400 * share, watts * seconds, 30_000 * share),
                                new Pedalling.Row(
                                        0,
                                        0,
                                        Double.NaN,
                                        3600 - seconds,
                                        5400 * (1 - share),
                                        watts * (3600 - seconds),
                                        30_000 * (1 - share))),
                        0,
                        0));
    }

    @Test
    void thePartWhoseGearIsKnownStandsForTheWholeRide() {
        RideLoss whole = losses(hour("a", "2026-03-01T08:00:00Z", 200)).get(0);
        RideLoss part = losses(partly("a", "2026-03-01T08:00:00Z", 200, 0.25)).get(0);
        assertEquals(0.25, part.pedalled().usable(), 1e-12);
        assertEquals(whole.joules(), part.joules(), 1e-9 * whole.joules());
    }

    @Test
    void theShareThatIsKnownIsOfTheEnergyNotOfTheRides() {
        LossSum sum = LossSum.of(
                losses(partly("a", "2026-03-01T08:00:00Z", 300, 0.25), partly("b", "2026-03-02T08:00:00Z", 100, 0.75)));
        assertEquals((3 * 0.25 + 1 * 0.75) / 4, sum.usable(), 1e-12);
    }

    /** 3,600 s at 200 W: 720 kJ in, 18 kJ lost, 14.4 kJ freshly treated; the band is 1 % of what went in. */
    @Test
    void wattsAreJoulesOverSeconds() {
        LossSum sum = new LossSum(1, 1, 3600, 720_000, 1, 18_000, 14_400);
        assertEquals(5, sum.watts(), 1e-12);
        assertEquals(3, sum.wattsLow(), 1e-12);
        assertEquals(7, sum.wattsHigh(), 1e-12);
        assertEquals(1, sum.wattsOverFresh(), 1e-12);
        assertEquals(0.025, sum.share(), 1e-12);
        assertEquals(0, new LossSum(1, 1, 3600, 720_000, 1, 3_600, 3_000).wattsLow());
    }

    @Test
    void aLossIsTheSumOfItsPlaces() {
        Loss loss = new Loss(200, 2, 0.5, 0.25, 1.25);
        assertEquals(4, loss.watts());
        assertEquals(2, loss.low());
        assertEquals(6, loss.high());
        assertEquals(0.98, loss.efficiency(), 1e-12);
        assertEquals(0, new Loss(500, 1, 0, 0, 0).low());
    }

    @ParameterizedTest
    @CsvSource({"0, 90", "-1, 90", "NaN, 90", "Infinity, 90", "200, 0", "200, -1", "200, NaN", "200, Infinity"})
    void anEffortHasPowerAndCadence(double watts, double rpm) {
        assertThrows(IllegalArgumentException.class, () -> new Effort(watts, new Gear(50, 17), rpm));
    }

    @Test
    void anEffortIsToldInWholeFiguresWhereItHasThem() {
        assertEquals("200 W in 50x17 at 90.5 rpm", new Effort(200, new Gear(50, 17), 90.5).toString());
    }
}
