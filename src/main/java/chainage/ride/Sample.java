package chainage.ride;

/**
 * One moment of an activity, as a reader pushes it. What the file does not say is NaN.
 *
 * @param millis instant in milliseconds since 1970-01-01T00:00Z; {@link #NO_TIME} when the file gives none
 * @param latitude degrees north, WGS84, −90 to 90
 * @param longitude degrees east, WGS84, −180 to 180
 * @param odometerMetres distance since the start by the device's own count, metres
 * @param speed by the device, metres per second
 * @param watts crank power
 * @param cadence crank revolutions per minute
 * @param celsius air temperature
 * @param altitudeMetres above the file's own zero
 * @param joined false when the way from the sample before was not recorded: first of a track segment, or first after a
 *     pause. No distance and no time moving is counted across such a gap.
 */
public record Sample(
        long millis,
        double latitude,
        double longitude,
        double odometerMetres,
        double speed,
        double watts,
        double cadence,
        double celsius,
        double altitudeMetres,
        boolean joined) {
    /** Stands for an instant that the file does not give. */
    public static final long NO_TIME = Long.MIN_VALUE;
}
