package chainage.drivetrain;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

/**
 * Textbook values. Bhandari, "Design of Machine Elements", example 14.7, as given by the textbook's
 * companion output; the table of sprockets is computed from the handbook formulas, tolerances as stated there.
 */
class ChainGeometryTest {
    @ParameterizedTest(name = "{0} teeth")
    @CsvFileSource(resources = "chain-geometry.csv", numLinesToSkip = 1)
    void sprockets(int teeth, double diameter, double degrees, double radians, double dipPercent) {
        assertEquals(degrees, Math.toDegrees(ChainGeometry.articulation(teeth)), 1e-4);
        assertEquals(radians, ChainGeometry.articulation(teeth), 1e-7);
    }

    @Test
    void speedAndTensionOfExample147() {
        double speed = ChainGeometry.chainSpeed(19, 1400, 0.015875);
        assertEquals(7.037917, speed, 1e-6);
        assertEquals(1840.558878, ChainGeometry.tension(12_953.7, speed), 1e-6 * 1840);
    }

    /** Computed from the same formulas for a bicycle: 52 teeth at 90 rpm and 250 W. */
    @Test
    void aBicyclesChain() {
        double speed = ChainGeometry.chainSpeed(52, 90, ChainGeometry.PITCH_METRES);
        assertEquals(0.9906, speed, 1e-9);
        assertEquals(78, ChainGeometry.jointsPerSecond(52, 90), 1e-9);
        assertEquals(252.3723, ChainGeometry.tension(250, speed), 1e-4);
    }

    /** Computed: sliding a joule against 52x15. */
    @ParameterizedTest(name = "{0}x{1}")
    @org.junit.jupiter.params.provider.CsvSource({
        "52, 11, 1.28223",
        "52, 21, 0.77825",
        "39, 25, 0.76418",
        "34, 34, 0.68481"
    })
    void smallCogsSlideMorePerJoule(int ring, int cog, double against52x15) {
        assertEquals(against52x15, new Gear(ring, cog).bend() / new Gear(52, 15).bend(), 1e-5);
    }
}
