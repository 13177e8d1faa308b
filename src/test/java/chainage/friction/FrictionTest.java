package chainage.friction;

import static chainage.TestRides.ride;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.TestLedger;
import chainage.TestRides;
import chainage.attribution.Attribution;
import chainage.drivetrain.Drivetrain;
import chainage.drivetrain.Gear;
import chainage.exposure.ChainExposure;
import chainage.exposure.Exposures;
import chainage.exposure.Factors;
import chainage.ledger.Cleaning;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Method;
import chainage.ledger.Rule;
import chainage.ride.Pedalling;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class FrictionTest {
    private static final Factors FACTORS = TestLedger.factors();
    private static final Friction FRICTION = new Friction(FACTORS);

    /** The table's values (our guesses), and what is between them. */
    @ParameterizedTest(name = "{0}, {1}, {2} used")
    @CsvSource({
        "DEEP, HOT_WAX, 0, 0.09",
        "DEEP, HOT_WAX, 0.5, 0.12",
        "DEEP, HOT_WAX, 1, 0.15",
        "DEEP, HOT_WAX, 1.5, 0.285",
        "DEEP, HOT_WAX, 2, 0.42",
        "DEEP, HOT_WAX, 7, 0.42",
        // 0.25 − 0.95 × (0.25 − 0.09)
        "QUICK, HOT_WAX, 0, 0.098",
        "DEEP, COLD_DIP_WAX, 0, 0.106625",
        "QUICK, DRIP_WAX, 0, 0.12675",
        "ON_BIKE, DRIP_WAX, 0, 0.134",
        "DEEP, FACTORY, 0, 0.14",
        "DEEP, NONE, 0, 0.42",
    })
    void coefficients(Cleaning cleaning, Method method, double used, double mu) {
        assertEquals(mu, FRICTION.mu(method, cleaning, used), 1e-12);
    }

    @ParameterizedTest
    @EnumSource(Method.class)
    void frictionNeverFallsAsTheTreatmentIsUsedUpNorWithPoorerCleaning(Method method) {
        for (double used = 0; used < 3; used += 0.01) {
            double poorer = Double.POSITIVE_INFINITY;
            for (Cleaning c : Cleaning.values()) {
                double mu = FRICTION.mu(method, c, used);
                assertTrue(mu <= poorer + 1e-12, c + " at " + used);
                assertTrue(mu <= FRICTION.mu(method, c, used + 0.01) + 1e-12, c + " at " + used);
                assertTrue(mu >= 0.09 && mu <= 0.42, c + " at " + used);
                poorer = mu;
            }
        }
    }

    /** The mean against a plain sum over many small steps. */
    @ParameterizedTest
    @CsvSource({"0, 0.3", "0.9, 1.2", "0.5, 2.5", "1.7, 4", "2.5, 3", "1, 1"})
    void theMeanOverARide(double from, double to) {
        double sum = 0;
        int steps = 100_000;
        for (int i = 0; i < steps; i++) {
            sum += FRICTION.mu(Method.DRIP_WAX, Cleaning.QUICK, from + (to - from) * (i + 0.5) / steps);
        }
        assertEquals(sum / steps, FRICTION.meanMu(Method.DRIP_WAX, Cleaning.QUICK, from, to), 1e-9);
    }

    @Test
    void aBikesOwnJockeyWheelsCountAndASingleCogHasNone() {
        Effort e = new Effort(250, new Gear(52, 15), 90);
        Drivetrain unknown = Drivetrain.of(null, 2.1);
        Drivetrain big = new Drivetrain(List.of(52), List.of(11, 15), 2.1, List.of(14, 19));
        Drivetrain single = new Drivetrain(List.of(52), List.of(15), 2.1, List.of());
        assertEquals(LossModel.USUAL, FRICTION.model(unknown));
        assertTrue(FRICTION.model(big).loss(e, 0.1).jockeys()
                < FRICTION.model(unknown).loss(e, 0.1).jockeys());
        assertEquals(0, FRICTION.model(single).loss(e, 0.1).jockeys());
    }

    private static TestRides powered(String name, String start, double watts) {
        Pedalling.Row row = new Pedalling.Row(50, 17, Double.NaN, 10_000, 15_000, watts * 10_000, 80_000);
        return ride(name, start, 80).power(watts).pedalled(new Pedalling(List.of(row), 0, 0));
    }

    private static List<RideLoss> losses(Ledger ledger, TestRides... rides) {
        Exposures e = Exposures.of(
                ledger,
                Attribution.of(
                        ledger, Arrays.stream(rides).map(TestRides::filed).toList()),
                TestLedger.roads(ledger),
                FACTORS);
        ChainExposure amber = Objects.requireNonNull(e.chains().get("Amber"));
        return new RideLosses(ledger, FACTORS)
                .of(
                        amber,
                        p -> Objects.requireNonNull(FACTORS.lifeMetres(p.method()))
                                .likely());
    }

    private static Ledger waxed() {
        return new TestLedger()
                .bike("Dunlin")
                .add(new Event.RuleSet(new Rule(new Rule.Otherwise(), "Dunlin", null)))
                .chain("Amber")
                .installed("Amber", "Dunlin", "2026-01-01T00:00:00Z")
                .treated("Amber", "hot-wax", "2026-01-01T00:00:00Z")
                .treated("Amber", "hot-wax", "2026-05-03T00:00:00Z")
                .ledger();
    }

    @Test
    void aRidesLossGoesByItsPowerItsGearAndTheShareUsed() {
        List<RideLoss> losses = losses(
                waxed(),
                powered("a", "2026-05-01T08:00:00Z", 250),
                powered("b", "2026-05-02T08:00:00Z", 250),
                powered("c", "2026-05-03T08:00:00Z", 250));
        // 80 of 300 km: 0.09 + 0.06 × the mean share used; the treatment between b and c starts anew.
        assertEquals(0.09 + 0.06 * 40 / 300, losses.get(0).mu(), 1e-12);
        assertEquals(0.09 + 0.06 * 120 / 300, losses.get(1).mu(), 1e-12);
        assertEquals(losses.get(0).mu(), losses.get(2).mu(), 1e-12);
        Loss stated = LossModel.USUAL.loss(
                new Effort(250, new Gear(50, 17), 90), losses.get(1).mu());
        assertEquals(stated.watts() * 10_000, losses.get(1).joules(), 1e-6);
        LossSum sum = LossSum.of(losses);
        assertEquals(3, sum.counted());
        assertEquals(1, sum.usable(), 1e-12);
        assertEquals(losses.stream().mapToDouble(RideLoss::joules).sum() / 30_000, sum.watts(), 1e-12);
        assertEquals(sum.watts() + 2.5, sum.wattsHigh(), 1e-9);
        assertTrue(sum.wattsOverFresh() > 0);
    }

    @Test
    void ridesWithoutPowerAreShownAsNotCounted() {
        LossSum sum = LossSum.of(
                losses(waxed(), powered("a", "2026-05-01T08:00:00Z", 250), ride("b", "2026-05-02T08:00:00Z", 50)));
        assertEquals(2, sum.rides());
        assertEquals(1, sum.counted());
    }
}
