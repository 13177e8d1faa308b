package chainage.ride;

/**
 * Length of a track by WGS84 geodesics between consecutive positions, without what a standing receiver makes up and
 * without steps that no rider can make.
 *
 * <p>Standing: for 30 s or more no position lay farther than 6 m from where the rider was (0.2 m/s; slower than any
 * climb, on the bicycle or beside it), and the wandering between was slower than 1 m/s. Until the rider is 6 m away again
 * only the straight way from there to here counts. Both are our guess, tried on 74 rides whose device counted its own
 * distance: mean difference 0.54 % before and 0.56 % after, since such devices pause by themselves; on the two mountain
 * rides that did not, +1.4 % became +0.7 % and −0.6 % became −1.0 %. Wider limits (20 s, 10 m) took out twice as much
 * and were farther off.
 */
final class PositionFold {
    private static final double REST_SECONDS = 30;
    private static final double REST_METRES = 6;
    private static final double REST_WANDER_METRES_PER_SECOND = 1;
    /**
     * Shorter steps are never called jumps: a receiver that catches up by a second or two makes some tens of metres at
     * any speed, and they were ridden (our guess).
     */
    private static final double SHORTEST_JUMP_METRES = 100;
    /** Without a time step to judge by, or across a clock that was set, only more than this is called a jump (our guess). */
    private static final double UNTIMED_JUMP_METRES = 1000;
    /** A receiver that lost its signal repeats a position within this, then catches up (our guess). */
    private static final double FROZEN_METRES = 1;

    private static final double METRES_PER_DEGREE = 111_320;

    private boolean placed;
    private double latitude;
    private double longitude;
    private long millis;
    private long stillSince;
    private double anchorLatitude;
    private double anchorLongitude;
    private long anchorMillis;
    private double pending;
    private int pendingSteps;
    private double lastSpeed = Double.NaN;
    private boolean speedWorks;
    private double lastStepSeconds;

    private int points;
    private double metres;
    private int jitterSteps;
    private double jitterMetres;
    private int jumps;
    private double jumpMetres;

    /** Takes a position; returns the metres since the one before, NaN when there is no way between them. */
    double add(double lat, double lon, long at, boolean joined, double speed) {
        points++;
        boolean stands = speed == 0 && lastSpeed == 0 && speedWorks;
        lastSpeed = speed;
        speedWorks |= speed > 0;
        if (!placed || !joined) {
            settle();
            placed = true;
            lastStepSeconds = Double.NaN;
            moveTo(lat, lon, at, true);
            anchor();
            return Double.NaN;
        }
        double step = Geodesics.metres(latitude, longitude, lat, lon);
        lastStepSeconds = seconds(millis, at);
        boolean impossible = impossible(step, at);
        boolean moved = step > FROZEN_METRES;
        if (impossible || stands) {
            settle();
            moveTo(lat, lon, at, moved);
            anchor();
            if (impossible) {
                jumps++;
                jumpMetres += step;
                return Double.NaN;
            }
            jitterSteps++;
            jitterMetres += step;
            return 0;
        }
        moveTo(lat, lon, at, moved);
        pending += step;
        pendingSteps++;
        double rest = seconds(anchorMillis, at);
        boolean away = isAway();
        if (!away && rest < REST_SECONDS) {
            return step;
        }
        if (!away && rest >= REST_SECONDS && pending <= rest * REST_WANDER_METRES_PER_SECOND) {
            return 0;
        }
        settle();
        anchor();
        return step;
    }

    /** Seconds of the step that {@link #add} last measured; NaN when not known. */
    double lastStepSeconds() {
        return lastStepSeconds;
    }

    /** The way from the last position to the next one is not known. */
    void gap() {
        settle();
        placed = false;
    }

    double metres() {
        return metres + pending;
    }

    RideFold.Track result() {
        settle();
        anchor();
        return new RideFold.Track(points, metres, jitterSteps, jitterMetres, jumps, jumpMetres);
    }

    private boolean impossible(double step, long at) {
        if (step < SHORTEST_JUMP_METRES) {
            return false;
        }
        double dt = seconds(millis, at);
        if (!(dt > 0) || dt > RideFold.CLOCK_JUMP_SECONDS) {
            return step > UNTIMED_JUMP_METRES;
        }
        // Credit for the time the receiver stood still without a signal.
        return step / Math.max(dt, seconds(stillSince, at)) > RideFold.FASTEST_METRES_PER_SECOND;
    }

    private void moveTo(double lat, double lon, long at, boolean moved) {
        latitude = lat;
        longitude = lon;
        millis = at;
        if (moved) {
            stillSince = at;
        }
    }

    private void anchor() {
        anchorLatitude = latitude;
        anchorLongitude = longitude;
        anchorMillis = millis;
    }

    /** Decides on the way since the anchor: the straight line after a rest, else all of it. */
    private void settle() {
        if (pendingSteps > 0) {
            double counted = pending;
            double rest = seconds(anchorMillis, millis);
            if (pendingSteps > 1 && rest >= REST_SECONDS && pending <= rest * REST_WANDER_METRES_PER_SECOND) {
                counted = Math.min(pending, Geodesics.metres(anchorLatitude, anchorLongitude, latitude, longitude));
                jitterSteps += pendingSteps - 1;
                jitterMetres += pending - counted;
            }
            metres += counted;
        }
        pending = 0;
        pendingSteps = 0;
    }

    /** True when the rider is farther from the anchor than a rest allows. */
    private boolean isAway() {
        double north = (latitude - anchorLatitude) * METRES_PER_DEGREE;
        double turn = longitude - anchorLongitude;
        double east = (turn > 180 ? turn - 360 : turn < -180 ? turn + 360 : turn)
                * METRES_PER_DEGREE
                * Math.cos(Math.toRadians(latitude));
        return north * north + east * east > REST_METRES * REST_METRES;
    }

    private static double seconds(long from, long to) {
        return from == Sample.NO_TIME || to == Sample.NO_TIME ? Double.NaN : (to - from) / 1000.0;
    }
}
