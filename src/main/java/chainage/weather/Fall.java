package chainage.weather;

/**
 * What fell, and how strongly.
 *
 * @param intensity NONE where nothing falls
 */
public record Fall(Phenomenon phenomenon, Intensity intensity) {
    /** The record does not say. */
    public static final Fall UNSTATED = new Fall(Phenomenon.UNSTATED, Intensity.NONE);

    /** The record says: nothing. */
    public static final Fall NOTHING = new Fall(Phenomenon.NONE, Intensity.NONE);

    /** True when water falls in some form. */
    boolean falls() {
        return phenomenon.falls() && intensity != Intensity.NONE;
    }

    /** What the words stand for, mm/h of water. */
    double millimetresPerHour() {
        return phenomenon.millimetresPerHour(intensity);
    }

    /** For example {@code light rain}; empty where the record does not say. */
    String words() {
        if (phenomenon == Phenomenon.UNSTATED) {
            return "";
        }
        return intensity == Intensity.NONE ? phenomenon.words() : intensity.words() + " " + phenomenon.words();
    }
}
