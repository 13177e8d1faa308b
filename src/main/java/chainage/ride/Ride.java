package chainage.ride;

import chainage.quantity.RideKey;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * One dated activity of one file: what was ridden, how, and every piece of evidence that says on which bike and on what
 * kind of road. Activities of other sports are kept too, since the rider may overrule the file.
 *
 * @param key content and place in it
 * @param format what it was read from
 * @param start first instant
 * @param elapsedSeconds from start to end, pauses included, clock jumps left out; 0 or more
 * @param movingSeconds time in motion; 0 or more
 * @param distance metres and where they came from
 * @param effort climbing, temperature, power
 * @param activity sport as stated
 * @param pedalling how the distance was pedalled; empty where the file has no cadence
 * @param devices every device and sensor seen, in order of appearance, no two alike
 * @param weather weather messages as given, by time; may be empty
 * @param labels the file's own words
 * @param trace coarse track for matching weather in time and place, by time; empty without positions
 * @param remarks what the reader had to decide and says so, one line each
 * @param salvaged what was lost when only part of the file could be read; null for a whole file
 * @param offset of the local time from UTC where it began, as the file states it; null where it does not
 * @param power by the minute; of a ride that a ledger keeps only where another overlaps it, since one trace alone tells
 *     nothing that the other figures do not
 */
public record Ride(
        RideKey key,
        RideFormat format,
        Instant start,
        double elapsedSeconds,
        double movingSeconds,
        Distance distance,
        Effort effort,
        Activity activity,
        Pedalling pedalling,
        List<Device> devices,
        List<WeatherReport> weather,
        Labels labels,
        List<Waypoint> trace,
        List<String> remarks,
        @Nullable String salvaged,
        @Nullable ZoneOffset offset,
        PowerTrace power) {
    public Ride {
        if (!(elapsedSeconds >= 0) || !(movingSeconds >= 0)) {
            throw new IllegalArgumentException("negative time: " + elapsedSeconds + " s, " + movingSeconds + " s");
        }
        devices = List.copyOf(devices);
        weather = List.copyOf(weather);
        trace = LateList.keep(trace);
        remarks = List.copyOf(remarks);
    }

    /** One without a trace of its power. */
    public Ride(
            RideKey key,
            RideFormat format,
            Instant start,
            double elapsedSeconds,
            double movingSeconds,
            Distance distance,
            Effort effort,
            Activity activity,
            Pedalling pedalling,
            List<Device> devices,
            List<WeatherReport> weather,
            Labels labels,
            List<Waypoint> trace,
            List<String> remarks,
            @Nullable String salvaged,
            @Nullable ZoneOffset offset) {
        this(
                key,
                format,
                start,
                elapsedSeconds,
                movingSeconds,
                distance,
                effort,
                activity,
                pedalling,
                devices,
                weather,
                labels,
                trace,
                remarks,
                salvaged,
                offset,
                PowerTrace.NONE);
    }

    /** The same ride under another key. */
    public Ride withKey(RideKey other) {
        return with(other, offset, power);
    }

    /** The same ride at another local time. */
    public Ride withOffset(@Nullable ZoneOffset other) {
        return with(key, other, power);
    }

    /** The same ride with its power by the minute. */
    public Ride withPower(PowerTrace other) {
        return with(key, offset, other);
    }

    private Ride with(RideKey otherKey, @Nullable ZoneOffset otherOffset, PowerTrace otherPower) {
        return new Ride(
                otherKey,
                format,
                start,
                elapsedSeconds,
                movingSeconds,
                distance,
                effort,
                activity,
                pedalling,
                devices,
                weather,
                labels,
                trace,
                remarks,
                salvaged,
                otherOffset,
                otherPower);
    }

    /** First instant after the ride. Start plus elapsed, since some devices state the start as the end. */
    public Instant end() {
        return start.plus(Duration.ofMillis(Math.round(elapsedSeconds * 1000)));
    }

    /**
     * How far, and by whose count.
     *
     * @param metres 0 or more
     * @param from where they came from
     */
    public record Distance(double metres, MetresFrom from) {
        public Distance {
            if (!(metres >= 0) || Double.isInfinite(metres)) {
                throw new IllegalArgumentException("distance " + metres + " m");
            }
        }
    }

    /** Where a ride's metres came from, best first. */
    public enum MetresFrom {
        /** The device's own total for the session or its laps. */
        DEVICE_TOTAL("device total"),
        /** The device's cumulative distance in the samples. */
        DEVICE_ODOMETER("device odometer"),
        /** Geodesics between positions, stationary jitter and impossible jumps removed. */
        POSITIONS("positions"),
        /** The device's speed, summed over time. */
        SPEED("speed"),
        /** The file says nothing about distance. */
        NONE("none");

        private final String words;

        MetresFrom(String words) {
            this.words = words;
        }

        public String words() {
            return words;
        }
    }

    /**
     * What the ride asked of the rider.
     *
     * @param ascentMetres climbed; NaN when unknown
     * @param celsius mean air temperature; NaN when unknown
     * @param watts mean power over the ride; NaN without a meter
     * @param medianSpeed median speed while moving, metres per second, time-weighted; NaN when unknown
     * @param samples how many samples the file held
     */
    public record Effort(double ascentMetres, double celsius, double watts, double medianSpeed, int samples) {}

    /**
     * What kind of activity it was.
     *
     * @param sport as the file states it, lower case, its words apart; empty when it does not
     * @param subSport as the file states it, lower case; empty when it does not
     * @param kind what the stated sport amounts to
     * @param indoor on a trainer or rollers, or in a simulated world
     */
    public record Activity(String sport, String subSport, Kind kind, boolean indoor) {
        /** Whether the file says that this was cycling. */
        public enum Kind {
            CYCLING,
            OTHER,
            UNSTATED
        }

        /** Whether the file's words are of loose ground, such as gravel. */
        public boolean offRoad() {
            return SportWords.offRoad(sport, subSport);
        }

        /** Whether the file's words are of a bicycle that a motor helps. */
        public boolean assisted() {
            return SportWords.assisted(sport, subSport);
        }

        /** For example {@code sub-sport gravel_cycling}, or {@code type mountain bike}; hostile text, neutralise it. */
        public String named() {
            return subSport.isEmpty() ? "type " + sport : "sub-sport " + subSport;
        }
    }

    /**
     * A device or sensor that took part.
     *
     * @param type lower-case word such as {@code bike_power}, {@code shifting}, {@code head_unit}
     * @param serial serial number, or {@code ant-N} where only the radio number N is given; never empty, never "0"
     */
    public record Device(String type, String serial) {
        /** A watch, a head unit or a heart-rate belt goes with the rider. */
        private static final Set<String> WITH_THE_BIKE = Set.of(
                "bike_power", "bike_speed", "bike_cadence", "bike_speed_cadence", "shifting", "fitness_equipment");

        /** True for a kind of sensor that stays with a bike, and so tells which one it was. */
        public boolean staysWithBike() {
            return WITH_THE_BIKE.contains(type);
        }

        /** For example {@code bike_power:31000417}; the type counts, since one serial can stand under two. */
        public String name() {
            return type + ":" + serial;
        }
    }

    /**
     * A weather message that the device stored.
     *
     * @param at when it holds
     * @param current true for the weather at the time, false for a forecast
     * @param condition lower-case word of the FIT profile, such as {@code light_rain}; empty when not given
     * @param celsius NaN when not given
     * @param humidityPercent 0 to 100, NaN when not given
     */
    public record WeatherReport(
            Instant at, boolean current, String condition, double celsius, double humidityPercent) {}

    /** The file's own words; each empty where it has none. Hostile text: neutralise before showing. */
    public record Labels(String title, String notes, String keywords) {}

    /**
     * A point of the coarse track.
     *
     * @param at instant
     * @param latitude degrees, rounded to 0.01 (about a kilometre), enough for weather and too coarse to show a home
     * @param longitude degrees, rounded to 0.01
     * @param metres ridden up to here
     */
    public record Waypoint(Instant at, double latitude, double longitude, double metres) {}
}
