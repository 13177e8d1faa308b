package chainage.ride;

import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicMask;

/**
 * Lengths of geodesics on the WGS84 ellipsoid.
 *
 * <p>Steps between fixes a second apart are metres long, and the general solution is far more than they need. Up to 0.01°
 * either way the mean latitude's radii of curvature do: north by that of the meridian, east by that across it, and
 * Pythagoras. What that leaves out grows with the square of the step; it stays below 1e-8 of the length (0.01 mm in a
 * kilometre), which a test compares with the general solution. Longer steps, and those near the poles, take the latter.
 */
final class Geodesics {
    private static final double AXIS_METRES = 6_378_137;
    private static final double FLATTENING = 1 / 298.257223563;
    private static final double ECCENTRICITY_SQUARED = FLATTENING * (2 - FLATTENING);

    /** Degrees of latitude or longitude. */
    static final double SHORT = 0.01;

    private static final double POLAR = 80;

    private Geodesics() {}

    /** Metres between two positions in degrees. */
    static double metres(double lat1, double lon1, double lat2, double lon2) {
        double north = Math.abs(lat2 - lat1);
        double east = Math.abs(lon2 - lon1);
        if (north <= SHORT && east <= SHORT && Math.abs(lat1) <= POLAR) {
            return ofShort(Math.toRadians(north), Math.toRadians(east), Math.toRadians((lat1 + lat2) / 2));
        }
        return Geodesic.WGS84.Inverse(lat1, lon1, lat2, lon2, GeodesicMask.DISTANCE).s12;
    }

    private static double ofShort(double north, double east, double latitude) {
        double cos = Math.cos(latitude);
        double w2 = 1 - ECCENTRICITY_SQUARED * (1 - cos * cos);
        double across = AXIS_METRES / Math.sqrt(w2);
        double along = across * (1 - ECCENTRICITY_SQUARED) / w2;
        double y = along * north;
        double x = across * cos * east;
        return Math.sqrt(x * x + y * y);
    }
}
