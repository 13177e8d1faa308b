package chainage.friction;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.drivetrain.ChainGeometry;
import chainage.drivetrain.Gear;
import java.util.Map;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.MethodSource;

class LossModelTest {
    private static final Map<String, Double> KAPPA = Map.of("1", 1.0, "4/pi", 4 / Math.PI, "pi/2", Math.PI / 2);
    private static final LossModel USUAL = LossModel.USUAL;

    private static Effort effort(double watts, int ring, int cog, double rpm) {
        return new Effort(watts, new Gear(ring, cog), rpm);
    }

    private static LossModel model(double kappa, double pinMillimetres, double slack, int jockeys, double degrees) {
        return new LossModel(kappa, pinMillimetres / 1000, slack, jockeys, jockeys, degrees, 3.74e-3);
    }

    /** All rows of the table computed from the documented model by an independent program. */
    @ParameterizedTest(name = "{0} W {1}x{2} at {3} rpm, mu {4}, kappa {6}, slack {7} N")
    @CsvFileSource(resources = "friction-model.csv", numLinesToSkip = 1)
    void everyRowOfTheTable(
            double watts,
            int ring,
            int cog,
            double rpm,
            double mu,
            double pin,
            String kappa,
            double slack,
            int jockey1,
            int jockey2,
            double chainSpeed,
            double tension,
            double loss,
            double efficiency) {
        double path = KAPPA.getOrDefault(kappa, Double.NaN);
        Loss l = new LossModel(path, pin / 1000, slack, jockey1, jockey2, 0, 3.74e-3)
                .loss(effort(watts, ring, cog, rpm), mu);
        assertEquals(chainSpeed, ChainGeometry.chainSpeed(ring, rpm, ChainGeometry.PITCH_METRES), 1e-9);
        assertEquals(tension, ChainGeometry.tension(watts, chainSpeed) + slack, 1e-4);
        // Relative 1e-6, and half a unit of the last printed digit.
        assertEquals(loss, l.watts(), 1e-6 * loss + 0.5e-6);
        assertEquals(efficiency, 100 * l.efficiency(), 1e-4);
    }

    /** Computed for the first cell of the paper's table. */
    @Test
    void whereTheLossArises() {
        Loss l = USUAL.loss(effort(250, 52, 15, 90), 0.09);
        assertEquals(2.857499, l.tight(), 1e-6);
        assertEquals(0.108910, l.slack(), 1e-6);
        assertEquals(0.461058, l.jockeys(), 1e-6);
        assertEquals(0, l.offset());
    }

    /**
     * Computed: a chain aslant by one and by four degrees. The figures hold for the net tension of 252.372 N, so the slack
     * span's 10 N are left out here; the documented formula has them, which adds 4 %.
     */
    @Test
    void aSlantingChainCostsLittle() {
        Effort e = effort(250, 52, 15, 90);
        assertEquals(0.0624, model(Math.PI / 2, 1.83, 0, 11, 1).loss(e, 0.09).offset(), 5e-5);
        assertEquals(0.2495, model(Math.PI / 2, 1.83, 0, 11, 4).loss(e, 0.09).offset(), 5e-5);
        assertEquals(
                0.0624 * 262.372 / 252.372,
                model(Math.PI / 2, 1.83, 10, 11, 1).loss(e, 0.09).offset(),
                5e-5);
    }

    /** None of the table's rows is passed over. */
    @Test
    void theTableHasSeventySevenRows() throws java.io.IOException {
        try (var in = java.util.Objects.requireNonNull(getClass().getResourceAsStream("friction-model.csv"))) {
            long rows = new String(in.readAllBytes(), java.nio.charset.StandardCharsets.UTF_8)
                    .lines()
                    .filter(l -> Character.isDigit(l.charAt(0)))
                    .count();
            assertEquals(77, rows);
        }
    }

    /** Computed: one joint bending on a 15-tooth cog under 252.372 N. */
    @Test
    void oneJointBendingOnce() {
        double angle = ChainGeometry.articulation(15);
        assertEquals(0.0174110, model(1, 1.83, 10, 11, 0).articulation(252.372, angle, 0.09), 5e-8);
        assertEquals(0.0273491, USUAL.articulation(252.372, angle, 0.09), 5e-8);
    }

    /** The documented example of Spicer's source 1, as quoted by González Oneto: 300 N, 48x24 at 80 rpm, pin 1.75968 mm. */
    @Test
    void thePublishedSourceOneExample() {
        double watts = 300 * ChainGeometry.chainSpeed(48, 80, ChainGeometry.PITCH_METRES);
        Loss l = model(Math.PI / 2, 1.75968, 0, 0, 0).loss(effort(watts, 48, 24, 80), 0.09);
        assertEquals(1.8756733110309638, l.watts(), 1e-6 * 1.9);
    }

    /**
     * 52x21 at 100 W, efficiencies of Spicer et al. (2001) as quoted second-hand by González Oneto. Where the chain
     * pulls with 225 N or more the model, ordinarily lubricated, agrees within half a point.
     */
    @ParameterizedTest(name = "{2} rpm, {4} N")
    @CsvFileSource(resources = "spicer-efficiency.csv", numLinesToSkip = 1)
    void publishedEfficienciesAtHighTension(
            int ring, int cog, double rpm, double watts, double tension, double percent, String mark, String assertOk) {
        assertEquals("verified-secondary", mark);
        assertEquals("yes", assertOk);
        double model = 100 * USUAL.loss(effort(watts, ring, cog, rpm), 0.15).efficiency();
        if (tension >= 225) {
            assertEquals(97.8, percent);
            assertEquals(percent, model, 0.5);
        } else {
            assertTrue(model >= percent, model + " below the measured " + percent);
        }
    }

    /**
     * The known disagreement, written down so that nobody takes it for a mistake: in the laboratory the efficiency fell
     * with the tension, to 89.9 % at 101 N, which no coefficient of friction gives. The model stays above by 2.9 to 8.6
     * points with a fresh treatment, and even at dry steel's 0.42 it cannot follow the slope.
     */
    @ParameterizedTest(name = "{2} rpm, {4} N")
    @CsvFileSource(resources = "spicer-efficiency.csv", numLinesToSkip = 1)
    void belowThatTheLaboratoryShowsLossesThatFrictionCannotGive(
            int ring, int cog, double rpm, double watts, double tension, double percent) {
        double[] above = {1.1, 2.9, 4.3, 5.9, 7.3, 8.6};
        double model = 100 * USUAL.loss(effort(watts, ring, cog, rpm), 0.09).efficiency();
        assertEquals(above[(int) (rpm - 40) / 10], model - percent, 0.06);
        if (tension < 130) {
            double dry = 100 * USUAL.loss(effort(watts, ring, cog, rpm), 0.42).efficiency();
            assertTrue(dry > percent, dry + " at dry steel against the measured " + percent);
        }
    }

    /** Lanaspeze et al. give about 99 % for single-speed drives. */
    @Test
    void aSingleSpeedIsAboutNinetyNinePerCent() {
        Loss l = model(Math.PI / 2, 1.83, 0, 0, 0).loss(effort(250, 52, 15, 90), 0.09);
        assertEquals(98.90, 100 * l.efficiency(), 0.005);
    }

    static LongStream seeds() {
        return LongStream.range(0, 100);
    }

    private static Effort random(Random r) {
        return effort(50 + r.nextInt(400), 30 + r.nextInt(30), 10 + r.nextInt(30), 50 + r.nextInt(60));
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void lossIsProportionalToFriction(long seed) {
        Random r = new Random(seed);
        Effort e = random(r);
        double mu = 0.05 + r.nextDouble() / 2;
        LossModel m = model(Math.PI / 2, 1.83, 10, 11, r.nextInt(4));
        assertEquals(2 * m.loss(e, mu).watts(), m.loss(e, 2 * mu).watts(), 1e-12 * e.watts());
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void biggerSprocketsOfTheSameRatioLoseLess(long seed) {
        Random r = new Random(seed);
        Effort small = random(r);
        Effort big =
                effort(small.watts(), 2 * small.gear().ring(), 2 * small.gear().cog(), small.rpm());
        // Twice the chain speed bends twice the joints under the slack span at the jockey wheels: a drive without them.
        LossModel m = model(Math.PI / 2, 1.83, 5, 0, 0);
        assertTrue(m.loss(big, 0.1).watts() < m.loss(small, 0.1).watts());
    }

    @Test
    void theBandIsOnePointEitherWayAndNeverBelowNothing() {
        Loss l = USUAL.loss(effort(250, 52, 15, 90), 0.09);
        assertEquals(0.927467, l.low(), 1e-6);
        assertEquals(5.927467, l.high(), 1e-6);
        assertEquals(0, new Loss(250, 1, 0, 0, 0).low());
    }
}
