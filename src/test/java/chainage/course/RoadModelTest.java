package chainage.course;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

class RoadModelTest {
    /** The rider of course-time.csv: no spokes, no inertia, no bearings; efficiency 0.977. */
    private static final RoadModel PLAIN = new RoadModel(85, 0.30, 0, 0.004, 0, 0.311, false, 1.225);

    private static final double EFFICIENCY = 0.977;

    /**
     * The worked example of Martin et al. (1998): 213 W. Inputs and the rounded total as an open-source test quotes
     * them; the parts are computed.
     */
    @Test
    void martinsWorkedExample() {
        RoadModel model = RoadModel.withUsualWheels(90, 0.2565, 0.0032, 1.2234);
        double speed = 471.8 / 56.42;
        double headwind = 2.94 * Math.cos(Math.toRadians(340 - 310));
        assertEquals(2.546114687, headwind, 1e-9);
        Powers p = model.powers(speed, 0.003, headwind);
        assertEquals(158.803229, p.air(), 1e-3);
        assertEquals(23.617616, p.rolling(), 1e-3);
        assertEquals(1.369339, p.bearings(), 1e-3);
        assertEquals(22.141515, p.climbing(), 1e-3);
        double kinetic = model.kinetic(8.28, 8.45, 56.42);
        assertEquals(2.304907, kinetic, 1e-3);
        double total = (p.total() + kinetic) / 0.976;
        assertEquals(213.357180, total, 1e-3);
        assertEquals(213, Math.round(total));
    }

    @ParameterizedTest(name = "{0} W less {1} W")
    @CsvFileSource(resources = "course-time.csv", numLinesToSkip = 1)
    void fortyKilometres(double crank, double extra, double speed, double seconds, double delta, double percent) {
        double v = PLAIN.steadySpeed((crank - extra) * EFFICIENCY, 0, 0);
        assertEquals(speed, v, 1e-8);
        assertEquals(seconds, 40_000 / v, 1e-4);
        double base = 40_000 / PLAIN.steadySpeed(crank * EFFICIENCY, 0, 0);
        assertEquals(delta, 40_000 / v - base, 1e-4);
        assertEquals(percent, 100 * (40_000 / v / base - 1), 1e-4);
    }

    /** Computed: what one per cent and three per cent of the time are in watts. */
    @ParameterizedTest
    @CsvSource({"6.6570, 1", "19.2278, 3"})
    void wattsThatCostAShareOfTheTime(double watts, double percent) {
        double base = 1 / PLAIN.steadySpeed(250 * EFFICIENCY, 0, 0);
        double slow = 1 / PLAIN.steadySpeed((250 - watts) * EFFICIENCY, 0, 0);
        assertEquals(percent, 100 * (slow / base - 1), 1e-3);
    }

    /** Computed: how the speed answers to power, on the flat, against a wind, on a climb. */
    @ParameterizedTest(name = "gradient {0}, headwind {1}")
    @CsvSource({"0, 0, 0.368349, 1e-5", "0, 3, 0.43299, 1e-4", "0.05, 0, 0.84645, 1e-4"})
    void elasticity(double gradient, double headwind, double expected, double tolerance) {
        double h = 1e-4;
        double up = PLAIN.steadySpeed(250 * EFFICIENCY * (1 + h), gradient, headwind);
        double down = PLAIN.steadySpeed(250 * EFFICIENCY * (1 - h), gradient, headwind);
        assertEquals(expected, Math.log(up / down) / Math.log((1 + h) / (1 - h)), tolerance);
    }

    @Test
    void onAFivePerCentClimb() {
        assertEquals(4.94024, PLAIN.steadySpeed(250 * EFFICIENCY, 0.05, 0), 1e-5);
    }

    /** Common practice, no source: 40 km at about 250 to 265 W take about 64 minutes. */
    @ParameterizedTest
    @CsvSource({"250", "257", "265"})
    void fortyKilometresTakeAboutSixtyFourMinutes(double watts) {
        double minutes = 40_000 / PLAIN.steadySpeed(watts * EFFICIENCY, 0, 0) / 60;
        assertEquals(64, minutes, 2);
    }

    static LongStream seeds() {
        return LongStream.range(0, 200);
    }

    /** At the speed found the forces take exactly the power given, on any road and in any wind. */
    @ParameterizedTest
    @MethodSource("seeds")
    void theSteadySpeedClosesTheBalance(long seed) {
        Random r = new Random(seed);
        RoadModel model = RoadModel.withUsualWheels(
                50 + r.nextInt(60), 0.2 + r.nextDouble() / 3, 0.002 + r.nextDouble() / 100, 0.9 + r.nextDouble() / 3);
        double watts = 20 + r.nextInt(500);
        double gradient = (r.nextDouble() - 0.5) / 2.5;
        double wind = (r.nextDouble() - 0.5) * 30;
        double v = model.steadySpeed(watts, gradient, wind);
        Powers p = model.powers(v, gradient, wind);
        double size = Math.abs(p.air()) + p.rolling() + p.bearings() + Math.abs(p.climbing());
        assertEquals(watts, p.total(), 1e-9 * Math.max(watts, size));
        assertTrue(model.steadySpeed(watts + 1, gradient, wind) > v);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void theCourseClosesItsEnergyAndTimeFallsWithPowerAndGrowsWithMassUphill(long seed) {
        Random r = new Random(seed);
        double kilograms = 60 + r.nextInt(40);
        RoadModel model = RoadModel.withUsualWheels(kilograms, 0.3, 0.004, 1.2);
        RoadModel heavier = RoadModel.withUsualWheels(kilograms + 5, 0.3, 0.004, 1.2);
        double watts = 80 + r.nextInt(300);
        List<Leg> hilly = java.util.stream.IntStream.range(0, 300)
                .mapToObj(i -> new Leg(10, 0.12 * Math.sin(i / 20.0 + seed), r.nextInt(5) - 2))
                .toList();
        CourseTime t = CourseTime.ridden(model, hilly, watts, 16);
        assertEquals(0, t.energy().residual() / t.energy().pedalled(), 1e-9);
        assertEquals(3000, t.metres(), 1e-6);
        assertTrue(t.fastest() <= 16);
        assertTrue(t.energy().pedalled() <= watts * t.seconds() * (1 + 1e-12));
        assertTrue(CourseTime.ridden(model, hilly, watts + 10, 16).seconds() < t.seconds());
        List<Leg> up = List.of(new Leg(500, 0.02 + r.nextDouble() / 10, 0), new Leg(500, 0.02, 0));
        assertTrue(CourseTime.ridden(heavier, up, watts, 16).seconds()
                > CourseTime.ridden(model, up, watts, 16).seconds());
        assertTrue(CourseTime.steady(heavier, up, watts).seconds()
                > CourseTime.steady(model, up, watts).seconds());
    }

    /** A long flat course is ridden at the steady speed but for the start; the start costs what its energy takes. */
    @Test
    void farFromTheStartTheRiderIsAtTheSteadySpeed() {
        RoadModel model = RoadModel.withUsualWheels(85, 0.3, 0.004, 1.2);
        List<Leg> flat = java.util.Collections.nCopies(2000, new Leg(10, 0, 0));
        CourseTime t = CourseTime.ridden(model, flat, 250, 20);
        double v = model.steadySpeed(250, 0, 0);
        assertEquals(v, t.fastest(), 1e-6);
        double steady = CourseTime.steady(model, flat, 250).seconds();
        assertTrue(t.seconds() > steady && t.seconds() < steady + 15, t.seconds() + " against " + steady);
        assertEquals(0.5 * model.movingKilograms() * v * v, t.energy().kinetic(), 1e-3);
    }

    /** Half the step changes the time by less than a tenth of a second in ten minutes. */
    @Test
    void theStepIsFineEnough() {
        RoadModel model = RoadModel.withUsualWheels(85, 0.3, 0.004, 1.2);
        List<Leg> coarse = new java.util.ArrayList<>();
        List<Leg> fine = new java.util.ArrayList<>();
        for (int i = 0; i < 600; i++) {
            double gradient = 0.06 * Math.sin(i / 15.0);
            coarse.add(new Leg(10, gradient, 0));
            fine.add(new Leg(5, gradient, 0));
            fine.add(new Leg(5, gradient, 0));
        }
        assertEquals(
                CourseTime.ridden(model, fine, 250, 18).seconds(),
                CourseTime.ridden(model, coarse, 250, 18).seconds(),
                0.1);
    }

    @Test
    void aWallIsClimbedSlowlyAndSaidToBeSlow() {
        RoadModel model = RoadModel.withUsualWheels(85, 0.3, 0.004, 1.2);
        CourseTime t = CourseTime.ridden(model, java.util.Collections.nCopies(20, new Leg(10, 0.3, 0)), 150, 18);
        assertTrue(t.slowMetres() > 150, t.toString());
        assertEquals(0, t.energy().residual() / t.energy().pedalled(), 1e-9);
        // A cyclist at speed meets it.
        List<Leg> ramp = List.of(new Leg(1000, -0.05, 0), new Leg(10, 0.3, 0), new Leg(100, 0.3, 0));
        assertEquals(1110, CourseTime.ridden(model, ramp, 150, 18).metres(), 1e-9);
    }
}
