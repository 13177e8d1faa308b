package chainage.ride;

import static java.lang.Double.isNaN;

/**
 * Gathers one activity's figures from its samples in one pass, keeping none of them.
 *
 * <p>Readers push samples in file order and shifts as they come; {@link #totals} may be asked at any time, also after
 * a reader broke off, and then holds what had come until then. One thread only.
 */
public final class RideFold {
    /** A step in time longer than this is a clock being set, not a pause: nobody pauses a recording for a day (our guess). */
    public static final double CLOCK_JUMP_SECONDS = 20 * 3600.0;

    /** Longer steps say nothing about how the time between was pedalled. Devices that thin out keep below 20 s (our choice). */
    static final double LONGEST_PEDALLED_STEP_SECONDS = 30;

    /**
     * But where most steps of a recording are longer than that, it is made so, and steps up to this count: twice the
     * minute that such devices keep (our choice).
     */
    private static final double LONGEST_REGULAR_STEP_SECONDS = 120;

    /** Slower is standing: walking pace is 1.4 m/s, noise of a position 0.1 to 0.5 m/s (our choice). */
    static final double MOVING_METRES_PER_SECOND = 0.8;

    /** 150 km/h; the fastest road descents on record stay below 40 m/s. */
    static final double FASTEST_METRES_PER_SECOND = 41.7;

    /** 2000-01-01T00:00Z. Clocks that were never set count from 1901, 1970, 1980 or 1989. */
    private static final long CLOCK_SET_MILLIS = 946_684_800_000L;

    // Beyond these a sensor is wrong, not a rider strong (our guesses).
    private static final double MOST_WATTS = 3000;
    private static final double MOST_CADENCE = 250;
    private static final double MOST_SPEED = 40;
    /** A first odometer value beyond this is a count that did not begin with the activity (our guess). */
    private static final double FARTHEST_FIRST_METRES = 10_000;
    /** An odometer may catch up this much at once after lost samples (our guess). */
    private static final double ODOMETER_SLACK_METRES = 500;

    private final PositionFold positions = new PositionFold();
    private final PedallingFold pedalling = new PedallingFold();
    /** Of the steps too long to count, unless the recording has mostly such. */
    private final PedallingFold sparse = new PedallingFold();

    private int briefSteps;
    private int longSteps;
    private double sparseSpeedMetres;
    private final TraceFold trace = new TraceFold();
    private final PowerFold power = new PowerFold();
    private final SpeedHistogram speeds = new SpeedHistogram();
    private final ClimbFold climb = new ClimbFold();

    private int samples;
    private int timed;
    private long first = Sample.NO_TIME;
    private long last = Sample.NO_TIME;
    private long firstSet = Sample.NO_TIME;
    private double elapsed;
    private double moving;
    private double undecided;
    private int clockJumps;
    private double clockJumpSeconds;
    private int backwards;

    private final boolean paced;
    private double odometerLast;
    private long odometerAt = Sample.NO_TIME;
    private double odometer;
    private int odometerJumps;
    private double odometerStep;

    private double speedMetres;
    private double wattsSum;
    private double wattsMost;
    private int wattsCount;
    private double celsiusSum;
    private int celsiusCount;

    /** A fold for an activity whose odometer starts at 0 with it. */
    public RideFold() {
        this(0);
    }

    /**
     * A fold for an activity that follows another in the same recording.
     *
     * @param odometerBefore the odometer's value just before the first sample; a first value below it means that the
     *     count began again
     */
    public RideFold(double odometerBefore) {
        this(odometerBefore, false);
    }

    private RideFold(double odometerBefore, boolean paced) {
        this.odometerLast = odometerBefore;
        this.paced = paced;
    }

    /**
     * A fold that asks the positions for the pace before it asks the stated speed: for formats whose writers do not
     * agree on the speed's unit.
     */
    public static RideFold pacedByPositions() {
        return new RideFold(0, true);
    }

    /** The odometer's latest value; the start value while none has come. */
    public double odometerReading() {
        return odometerLast;
    }

    /** Takes one sample; values that no ride can have are left out one by one. */
    public void add(Sample s) {
        samples++;
        double watts = within(s.watts(), 0, MOST_WATTS);
        double cadence = within(s.cadence(), 0, MOST_CADENCE);
        double speed = within(s.speed(), 0, MOST_SPEED);
        double dt = timeStep(s.millis());
        double counted = odometerStep(within(s.odometerMetres(), 0, Double.MAX_VALUE), s.millis());
        double metres = counted;
        double pace = isNaN(counted) ? Double.NaN : counted / odometerStep;
        // Exactly 0, 0 is what a receiver without a fix writes.
        boolean placed = s.latitude() >= -90
                && s.latitude() <= 90
                && s.longitude() >= -180
                && s.longitude() <= 180
                && !(s.latitude() == 0 && s.longitude() == 0);
        if (placed) {
            double step = positions.add(s.latitude(), s.longitude(), s.millis(), s.joined(), speed);
            if (isNaN(metres)) {
                metres = step;
                pace = step / positions.lastStepSeconds();
            }
        } else if (!s.joined()) {
            positions.gap();
        }
        if (!s.joined()) {
            undecided = 0;
        } else if (dt > 0) {
            step(dt, speed, pace, metres, cadence, watts);
            power.step(s.millis(), dt, watts, cadence);
        }
        if (placed && s.millis() != Sample.NO_TIME) {
            trace.add(s.millis(), s.latitude(), s.longitude(), odometer > 0 ? odometer : positions.metres());
        }
        climb.add(within(s.altitudeMetres(), -500, 9000));
        gather(watts, within(s.celsius(), -60, 80));
    }

    /**
     * Notes the gear from here on.
     *
     * @param ring teeth of the chainring, 0 when the message does not say
     * @param cog teeth of the cog, 0 when the message does not say
     */
    public void shift(int ring, int cog) {
        pedalling.shift(ring, cog);
        sparse.shift(ring, cog);
    }

    private double timeStep(long millis) {
        if (millis == Sample.NO_TIME) {
            return Double.NaN;
        }
        timed++;
        if (firstSet == Sample.NO_TIME && millis >= CLOCK_SET_MILLIS) {
            firstSet = millis;
        }
        if (last == Sample.NO_TIME) {
            first = millis;
            last = millis;
            return Double.NaN;
        }
        double step = (millis - last) / 1000.0;
        last = millis;
        if (Math.abs(step) > CLOCK_JUMP_SECONDS) {
            clockJumps++;
            clockJumpSeconds += step;
            return Double.NaN;
        }
        // Signed, so that points out of order do not lengthen the ride.
        elapsed += step;
        if (step < 0) {
            backwards++;
            return Double.NaN;
        }
        return step;
    }

    private double odometerStep(double value, long millis) {
        if (isNaN(value)) {
            return Double.NaN;
        }
        boolean opening = odometerAt == Sample.NO_TIME;
        odometerStep = opening || millis == Sample.NO_TIME ? Double.NaN : (millis - odometerAt) / 1000.0;
        double step = value - odometerLast;
        if (step < 0) {
            // Back to nearly nothing is a new count; a smaller step back is noise.
            step = value < 0.1 * odometerLast || opening ? value : 0;
        }
        odometerLast = value;
        if (millis != Sample.NO_TIME) {
            odometerAt = millis;
        }
        boolean absurd = odometerStep > 0
                ? step > ODOMETER_SLACK_METRES && step / odometerStep > FASTEST_METRES_PER_SECOND
                : step > FARTHEST_FIRST_METRES;
        if (absurd) {
            odometerJumps++;
            return Double.NaN;
        }
        odometer += step;
        return step;
    }

    private void step(double dt, double speed, double pace, double metres, double cadence, double watts) {
        boolean brief = dt <= LONGEST_PEDALLED_STEP_SECONDS;
        boolean ridden = pace >= 0 && !Double.isInfinite(pace);
        double v = brief && !isNaN(speed) && !(paced && ridden) ? speed : pace;
        if (!(v >= 0) || Double.isInfinite(v)) {
            // Known at the next sample that has a distance; the time until then is of the same pace.
            undecided += dt;
        } else {
            if (v >= MOVING_METRES_PER_SECOND) {
                moving += dt + undecided;
                speeds.add(v, dt + undecided);
            }
            undecided = 0;
        }
        briefSteps += brief ? 1 : 0;
        longSteps += brief ? 0 : 1;
        if (dt <= LONGEST_REGULAR_STEP_SECONDS) {
            double bySpeed = isNaN(speed) ? 0 : speed * dt;
            speedMetres += brief ? bySpeed : 0;
            sparseSpeedMetres += brief ? 0 : bySpeed;
            double pedalled = isNaN(v) ? speed : v;
            (brief ? pedalling : sparse).step(dt, cadence, watts, isNaN(metres) ? bySpeed : metres, pedalled);
        }
    }

    private void gather(double watts, double celsius) {
        if (!isNaN(watts)) {
            wattsSum += watts;
            wattsMost = Math.max(wattsMost, watts);
            wattsCount++;
        }
        if (!isNaN(celsius)) {
            celsiusSum += celsius;
            celsiusCount++;
        }
    }

    static double within(double value, double least, double most) {
        return value >= least && value <= most ? value : Double.NaN;
    }

    /** What the samples up to now amount to. */
    public Totals totals() {
        boolean regular = longSteps > briefSteps;
        return new Totals(
                samples,
                timed,
                first,
                firstSet,
                last,
                Math.max(0, elapsed),
                moving,
                odometer,
                odometerJumps,
                positions.result(),
                speedMetres + (regular ? sparseSpeedMetres : 0),
                clockJumps,
                clockJumpSeconds,
                backwards,
                climb.metres(),
                celsiusCount == 0 ? Double.NaN : celsiusSum / celsiusCount,
                // A meter that never shows a watt is not there.
                wattsMost == 0 ? Double.NaN : wattsSum / wattsCount,
                speeds.median(),
                (regular ? pedalling.and(sparse) : pedalling).result(wattsMost > 0));
    }

    /** The coarse track up to now, by time. */
    public java.util.List<Ride.Waypoint> trace() {
        return trace.result();
    }

    /** Power by the minute up to now; empty without a meter that ever shows a watt. */
    public PowerTrace power() {
        return power.result();
    }

    /**
     * What one activity's samples amount to, each source of distance by itself.
     *
     * @param samples how many came
     * @param timed how many of them had an instant
     * @param firstMillis instant of the first timed sample in file order; {@link Sample#NO_TIME} when there is none
     * @param firstSetMillis the same, but not before the year 2000: of a clock that was set; {@link Sample#NO_TIME} when
     *     there is none
     * @param lastMillis instant of the last timed sample in file order
     * @param elapsedSeconds from first to last, clock jumps left out
     * @param movingSeconds of the steps at 0.8 m/s or more
     * @param odometerMetres by the device's count; 0 without one
     * @param odometerJumps impossible steps of the count, left out
     * @param positions by positions
     * @param speedMetres by the device's speed over time; 0 without one
     * @param clockJumps steps in time of more than 20 hours, either way
     * @param clockJumpSeconds what they add up to
     * @param backwards steps back in time
     * @param ascentMetres NaN without altitudes
     * @param celsius mean; NaN without a thermometer
     * @param watts mean of the samples that have power; NaN without a meter
     * @param medianSpeed metres per second, time-weighted over the moving steps; NaN when nothing moved
     * @param pedalling by gear
     */
    public record Totals(
            int samples,
            int timed,
            long firstMillis,
            long firstSetMillis,
            long lastMillis,
            double elapsedSeconds,
            double movingSeconds,
            double odometerMetres,
            int odometerJumps,
            Track positions,
            double speedMetres,
            int clockJumps,
            double clockJumpSeconds,
            int backwards,
            double ascentMetres,
            double celsius,
            double watts,
            double medianSpeed,
            Pedalling pedalling) {}

    /**
     * Length by positions, and what was taken out of it.
     *
     * @param points samples with a position
     * @param metres geodesic length, jitter and jumps taken out
     * @param jitterSteps steps while standing
     * @param jitterMetres what they would have added
     * @param jumps steps no rider can make
     * @param jumpMetres what they would have added
     */
    public record Track(
            int points, double metres, int jitterSteps, double jitterMetres, int jumps, double jumpMetres) {}
}
