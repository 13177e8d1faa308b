package chainage.ride;

import java.util.List;

/**
 * Mean power minute by minute, so that two recordings of one ride can be laid over each other.
 *
 * @param first first minute, counted from 1970-01-01T00:00Z in whole minutes of the recording device's clock
 * @param minutes one after the other without a gap; a minute without power has 0 seconds. Empty without a meter.
 */
public record PowerTrace(long first, List<Minute> minutes) {
    /** Without a meter, or not looked up. */
    public static final PowerTrace NONE = new PowerTrace(0, List.of());

    /** Three days; nobody rides on for longer, and a clock that is wrong must not make a trace of years (our choice). */
    public static final int MOST = 3 * 24 * 60;

    public PowerTrace {
        minutes = List.copyOf(minutes);
        if (minutes.size() > MOST) {
            throw new IllegalArgumentException("a trace of " + minutes.size() + " minutes");
        }
    }

    public boolean isEmpty() {
        return minutes.isEmpty();
    }

    /**
     * One minute, by the clock of its device.
     *
     * @param seconds with a reading of power, 0 to 60
     * @param turning of these with the cranks turning, or with power where the file has no cadence
     * @param watts mean over the seconds, to 1 W; 0 without any
     * @param rpm mean cadence over the turning seconds, to 1; 0 where unknown, or where the cranks stood for more than a
     *     few seconds
     */
    public record Minute(int seconds, int turning, int watts, int rpm) {
        /** Nothing recorded. */
        public static final Minute EMPTY = new Minute(0, 0, 0, 0);

        /** Of a minute whose cranks turned for less, no cadence is kept: it serves to find the place, not to compare. */
        public static final int STEADY_SECONDS = 57;

        public Minute {
            boolean sound = seconds >= 0
                    && seconds <= 60
                    && turning >= 0
                    && turning <= seconds
                    && watts >= 0
                    && watts <= 3000
                    && rpm >= 0
                    && rpm <= 250;
            if (!sound) {
                throw new IllegalArgumentException(
                        "a minute of " + seconds + " s, " + turning + " s, " + watts + " W, " + rpm + " rpm");
            }
        }

        /** Recorded to its end with the cranks turning all the time but for a few seconds. */
        public boolean steady() {
            return turning >= STEADY_SECONDS;
        }
    }
}
