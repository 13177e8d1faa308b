package chainage.drivetrain;

import static chainage.TestRides.ride;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.TestLedger;
import chainage.ride.Pedalling;
import chainage.ride.Ride;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/** Sliding work and load: the reference rider is 1 by definition, the rest is arithmetic worked out by hand. */
class LoadTest {
    private static final Reference REFERENCE = TestLedger.factors().reference();
    private static final Drivetrain UNKNOWN = Drivetrain.of(null, 2.1);
    private static final Drivetrain DUNLIN =
            new Drivetrain(List.of(34, 50), List.of(11, 12, 13, 14, 15, 17, 19, 21, 24, 27, 30), 2.105, List.of());

    private static Pedalling.Row gear(int ring, int cog, double seconds, double watts) {
        return new Pedalling.Row(ring, cog, Double.NaN, seconds, seconds * 1.5, watts * seconds, seconds * 8);
    }

    private static Pedalling.Row band(double development, double seconds, double watts) {
        return new Pedalling.Row(0, 0, development, seconds, seconds * 1.5, watts * seconds, seconds * 8);
    }

    private static Ride ridden(double seconds, double meanWatts, double coasting, Pedalling.Row... rows) {
        return ride("r", "2026-05-01T08:00:00Z", seconds * 8 / 1000)
                .lasting(seconds)
                .power(meanWatts)
                .pedalled(rows.length == 0 ? Pedalling.NONE : new Pedalling(List.of(rows), coasting, coasting * 8))
                .filed()
                .ride();
    }

    private static Load load(Ride ride, Drivetrain bike) {
        return Load.of(Pedalled.of(ride, bike, REFERENCE), ride.distance().metres(), REFERENCE);
    }

    @Test
    void theReferenceRiderIsOne() {
        // 85 % of 8330 m pedalled at 8.33 m/s is 850 s at 170 W.
        Ride reference = ride("ref", "2026-05-01T08:00:00Z", 8.33)
                .lasting(1000)
                .power(144.5)
                .pedalled(new Pedalling(
                        List.of(new Pedalling.Row(50, 17, Double.NaN, 850, 850 * 85 / 60.0, 170 * 850, 7080.5)),
                        150,
                        1249.5))
                .filed()
                .ride();
        Load load = load(reference, DUNLIN);
        assertEquals(1, load.value(), 1e-12);
        assertEquals(1, load.usable(), 1e-12);
        assertEquals(List.of(new LoadReason.ByGear(LoadReason.Gears.STATED)), load.from());
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
            # case                          | ring | cog | watts | load
            # 1000 s at w watts over 8000 m: w/8 J/m × (1/ring + 1/cog), over 170 × 0.85/8.33 × (1/50 + 1/17)
            twice the power, twice the load |   50 |  17 |   340 | 2.450000
            a small cog                     |   50 |  11 |   170 | 1.723643
            a big cog                       |   34 |  34 |   170 | 0.914179
            """)
    void loadIsPowerTimesBend(String title, int ring, int cog, double watts, double expected) {
        Load load = load(ridden(1000, watts, 0, gear(ring, cog, 1000, watts)), DUNLIN);
        double byHand = watts / 8 * (1.0 / ring + 1.0 / cog) / (170 * 0.85 / 8.33 * (1 / 50.0 + 1 / 17.0));
        assertEquals(byHand, load.value(), 1e-12);
        assertEquals(expected, load.value(), 1e-6);
    }

    @Test
    void powerWithoutCadenceCountsInTheReferenceGear() {
        Load load = load(ridden(1000, 200, 0), DUNLIN);
        assertEquals(load(ridden(1000, 200, 0, gear(50, 17, 1000, 200)), DUNLIN).value(), load.value(), 1e-12);
        assertTrue(load.known());
        assertEquals(0, load.usable());
        assertEquals(List.of(new LoadReason.MeanPower(new Gear(50, 17), false)), load.from());
    }

    @Test
    void powerWithoutCadenceOnABikeWithOneGearCountsInThatGear() {
        Drivetrain one = new Drivetrain(List.of(42), List.of(16), 2.1, List.of());
        Load load = load(ridden(1000, 200, 0), one);
        assertEquals(load(ridden(1000, 200, 0, gear(42, 16, 1000, 200)), one).value(), load.value(), 1e-12);
        assertEquals(List.of(new LoadReason.MeanPower(new Gear(42, 16), true)), load.from());
    }

    @Test
    void withoutPowerEveryRideIsTheReferenceRiders() {
        Load cadence = load(ridden(1000, Double.NaN, 0, gear(50, 11, 1000, Double.NaN)), DUNLIN);
        assertEquals(1, cadence.value());
        assertFalse(cadence.known());
        assertEquals(List.of(new LoadReason.NoPower(true)), cadence.from());
        Load neither = load(ridden(1000, Double.NaN, 0), DUNLIN);
        assertEquals(1, neither.value());
        assertEquals(List.of(new LoadReason.NoPower(false)), neither.from());
    }

    @Test
    void gearsThatNoDevelopmentMatchesAreTakenAsTheReferenceGearAndSaidSo() {
        Load load = load(ridden(1000, 200, 0, band(9.625, 500, 200), band(11.625, 500, 200)), DUNLIN);
        assertEquals(0.5, load.usable(), 1e-12);
        assertEquals(
                List.of(
                        new LoadReason.ByGear(LoadReason.Gears.BY_DEVELOPMENT),
                        new LoadReason.Unfitting(0.5, new Gear(50, 17))),
                load.from());
        double half = load(ridden(1000, 200, 0, gear(50, 11, 500, 200), gear(50, 17, 500, 200)), DUNLIN)
                .value();
        assertEquals(half, load.value(), 1e-12);
    }

    @Test
    void aBikeWithoutGearsEnteredSaysSo() {
        Load load = load(ridden(1000, 200, 0, band(9.625, 1000, 200)), UNKNOWN);
        assertEquals(0, load.usable());
        assertEquals(List.of(new LoadReason.ReferenceGear(new Gear(50, 17), false)), load.from());
    }

    @Test
    void severalGearsOfOneDevelopmentAreReported() {
        Load load = load(ridden(1000, 200, 0, band(5.125, 1000, 200)), DUNLIN);
        assertEquals(
                List.of(new LoadReason.ByGear(LoadReason.Gears.BY_DEVELOPMENT), new LoadReason.Several(1)),
                load.from());
    }

    @Test
    void aSpikeIsCutToWhatARiderCanDoAndSaidSo() {
        // 1000 s at 900 W; 500 W and 30 kJ over 1000 s are 530 W.
        Load load = load(ridden(1000, 900, 0, gear(50, 17, 1000, 900)), DUNLIN);
        assertEquals(load(ridden(1000, 530, 0, gear(50, 17, 1000, 530)), DUNLIN).value(), load.value(), 1e-12);
        assertEquals(new LoadReason.Cut(900, 530), load.from().get(load.from().size() - 1));
        // A sprint of ten seconds stands.
        Load sprint = load(ridden(1000, 10, 990, gear(50, 17, 10, 1000)), DUNLIN);
        assertTrue(sprint.from().stream().noneMatch(LoadReason.Cut.class::isInstance), sprint.toString());
    }

    @Test
    void powerWhileTheCadenceReadsNothingIsNotDropped() {
        // 400 s pedalled at 200 W, 600 s "coasting" in which the meter went on: the mean over the ride is still 200 W.
        Load load = load(ridden(1000, 200, 600, gear(50, 17, 400, 200)), DUNLIN);
        assertEquals(load(ridden(1000, 200, 0, gear(50, 17, 1000, 200)), DUNLIN).value(), load.value(), 1e-12);
        assertEquals(0.4, load.usable(), 1e-12);
        assertEquals(
                List.of(new LoadReason.ByGear(LoadReason.Gears.STATED), new LoadReason.WithoutCadence(0.6)),
                load.from());
    }

    @ParameterizedTest
    @CsvSource({"1, 0.25", "5000, 4"})
    void loadsStayWithinWhatIsBelieved(double watts, double expected) {
        Ride crawl = ride("r", "2026-05-01T08:00:00Z", watts > 1000 ? 0.2 : 8)
                .lasting(1000)
                .power(watts)
                .pedalled(new Pedalling(List.of(gear(50, 11, 1000, watts)), 0, 0))
                .filed()
                .ride();
        Load load = load(crawl, DUNLIN);
        assertEquals(expected, load.value());
        LoadReason.Bound bound = (LoadReason.Bound) load.from().get(load.from().size() - 1);
        assertEquals(expected, bound.value());
        assertTrue(expected < 1 ? bound.exact() < expected : bound.exact() > expected, bound.toString());
    }

    static LongStream seeds() {
        return LongStream.range(0, 50);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void slidingWorkAddsUpOverRides(long seed) {
        Random random = new Random(seed);
        List<Pedalling.Row> all = new ArrayList<>();
        double parts = 0;
        double joules = 0;
        double seconds = 0;
        for (int i = 0; i < 5; i++) {
            Pedalling.Row row = gear(
                    random.nextBoolean() ? 50 : 34,
                    11 + random.nextInt(20),
                    600 + random.nextInt(600),
                    50 + random.nextInt(250));
            all.add(row);
            seconds += row.seconds();
            joules += row.joules();
            parts += Pedalled.of(ridden(row.seconds(), row.joules() / row.seconds(), 0, row), DUNLIN, REFERENCE)
                    .slidingWork();
        }
        Ride whole = ridden(seconds, joules / seconds, 0, all.toArray(Pedalling.Row[]::new));
        assertEquals(parts, Pedalled.of(whole, DUNLIN, REFERENCE).slidingWork(), 1e-9 * parts);
    }
}
