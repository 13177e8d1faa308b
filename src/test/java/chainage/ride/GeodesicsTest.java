package chainage.ride;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import net.sf.geographiclib.Geodesic;
import org.junit.jupiter.api.Test;

/** Against the general solution of GeographicLib, exact to nanometres. */
class GeodesicsTest {
    @Test
    void shortStepsAreWithinTheStatedBound() {
        Random random = new Random(17);
        double worst = 0;
        for (int i = 0; i < 200_000; i++) {
            double length = i % 10 == 0 ? Geodesics.SHORT : Math.pow(10, -7 + 5 * random.nextDouble());
            // The longest steps nearest to the poles are the worst: a tenth are of those.
            boolean corner = i % 10 == 0;
            double lat = corner ? 79.9 + 0.1 * random.nextDouble() : -80 + 160 * random.nextDouble();
            double lon = -180 + 360 * random.nextDouble();
            double lat2 = lat + length * (2 * random.nextDouble() - 1);
            double lon2 = lon + length * (2 * random.nextDouble() - 1);
            double exact = Geodesic.WGS84.Inverse(lat, lon, lat2, lon2).s12;
            double off = Math.abs(Geodesics.metres(lat, lon, lat2, lon2) - exact);
            // Below a tenth of a micrometre the general solution's own rounding shows.
            worst = Math.max(worst, (off - 1e-7) / exact);
        }
        assertTrue(worst <= 1e-8, "worst " + worst);
        assertTrue(worst > 1e-9, "the bound is no more than ten times what is there: " + worst);
    }

    @Test
    void longStepsThoseNearThePolesAndOverTheDateLineAreTheGeneralSolution() {
        double[][] steps = {
            {47, 8, 47.02, 8},
            {47, 8, 47, 8.02},
            {85, 8, 85.001, 8.005},
            {-89.9, 8, -89.9, 8.005},
            {10, 179.999, 10, -179.999},
            {0, 0, 0.5, 179.7}
        };
        for (double[] s : steps) {
            double exact = Geodesic.WGS84.Inverse(s[0], s[1], s[2], s[3]).s12;
            assertEquals(exact, Geodesics.metres(s[0], s[1], s[2], s[3]));
        }
    }

    @Test
    void noStepIsExactlyNothing() {
        assertEquals(0, Geodesics.metres(47.3, 8.2, 47.3, 8.2));
        assertEquals(0, Geodesics.metres(89.3, 8.2, 89.3, 8.2));
    }
}
