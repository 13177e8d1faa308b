package chainage.demo;

import java.util.Random;

/**
 * A closed way of a given length: where it lies and how high. The places are open ocean near the equator, 30° west, so
 * that no track is anyone's; the heights are invented with them.
 */
final class Course {
    private static final int CORNERS = 720;
    private static final double HOME_LATITUDE = 0.2;
    private static final double HOME_LONGITUDE = -30.1;
    /** Metres a degree on the equator, WGS84, rounded; the tracks need no more. */
    private static final double METRES_PER_DEGREE_NORTH = 110_574;

    private static final double METRES_PER_DEGREE_EAST = 111_319;

    private final double lengthMetres;
    private final double[] east = new double[CORNERS + 1];
    private final double[] north = new double[CORNERS + 1];
    private final double[] along = new double[CORNERS + 1];
    private final double[] waveMetres;
    private final double[] waveSlope;
    private final double[] wavePhase;

    /**
     * @param steepness about the root mean square of the gradient, 0 for flat
     */
    Course(double lengthMetres, double steepness, Random random) {
        this.lengthMetres = lengthMetres;
        double turn = random.nextDouble() * 2 * Math.PI;
        double[] bulge = new double[6];
        double[] phase = new double[bulge.length];
        for (int k = 0; k < bulge.length; k++) {
            bulge[k] = 0.35 * (random.nextDouble() - 0.5) / (1 + 0.4 * k);
            phase[k] = random.nextDouble() * 2 * Math.PI;
        }
        for (int i = 0; i <= CORNERS; i++) {
            double angle = turn + 2 * Math.PI * (i % CORNERS) / CORNERS;
            double radius = 1;
            for (int k = 0; k < bulge.length; k++) {
                radius += bulge[k] * StrictMath.cos((k + 2) * angle + phase[k]);
            }
            east[i] = radius * StrictMath.cos(angle);
            north[i] = radius * StrictMath.sin(angle);
            along[i] = i == 0 ? 0 : along[i - 1] + length(east[i] - east[i - 1], north[i] - north[i - 1]);
        }
        double scale = lengthMetres / along[CORNERS];
        double homeEast = east[0];
        double homeNorth = north[0];
        for (int i = 0; i <= CORNERS; i++) {
            east[i] = (east[i] - homeEast) * scale;
            north[i] = (north[i] - homeNorth) * scale;
            along[i] *= scale;
        }
        int waves = 5;
        waveMetres = new double[waves];
        waveSlope = new double[waves];
        wavePhase = new double[waves];
        for (int k = 0; k < waves; k++) {
            double wanted = 1_200 + 1_700 * k + 900 * random.nextDouble();
            waveMetres[k] = lengthMetres / Math.max(1, Math.round(lengthMetres / wanted));
            waveSlope[k] = steepness * StrictMath.sqrt(2.0 / waves) * (0.6 + 0.8 * random.nextDouble());
            wavePhase[k] = random.nextDouble() * 2 * Math.PI;
        }
    }

    double lengthMetres() {
        return lengthMetres;
    }

    /** Rise over run at a distance from the start. */
    double gradient(double metres) {
        double slope = 0;
        for (int k = 0; k < waveMetres.length; k++) {
            slope += waveSlope[k] * StrictMath.cos(2 * Math.PI * metres / waveMetres[k] + wavePhase[k]);
        }
        return slope;
    }

    double altitudeMetres(double metres) {
        double height = 140;
        for (int k = 0; k < waveMetres.length; k++) {
            height += waveSlope[k]
                    * waveMetres[k]
                    / (2 * Math.PI)
                    * StrictMath.sin(2 * Math.PI * metres / waveMetres[k] + wavePhase[k]);
        }
        return height;
    }

    double latitude(double metres, double driftMetres) {
        return HOME_LATITUDE + (between(north, metres) + driftMetres) / METRES_PER_DEGREE_NORTH;
    }

    double longitude(double metres, double driftMetres) {
        return HOME_LONGITUDE + (between(east, metres) + driftMetres) / METRES_PER_DEGREE_EAST;
    }

    private double between(double[] axis, double metres) {
        double at = Math.min(Math.max(metres, 0), lengthMetres);
        int low = 0;
        int high = CORNERS;
        while (high - low > 1) {
            int middle = (low + high) / 2;
            if (along[middle] <= at) {
                low = middle;
            } else {
                high = middle;
            }
        }
        double share = (at - along[low]) / (along[high] - along[low]);
        return axis[low] + share * (axis[high] - axis[low]);
    }

    private static double length(double dx, double dy) {
        return StrictMath.sqrt(dx * dx + dy * dy);
    }
}
