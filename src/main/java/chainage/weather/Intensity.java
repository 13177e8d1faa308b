package chainage.weather;

/** How strongly water falls. For rain in mm/h the bounds are those of the WMO scheme; for a report, its sign. */
public enum Intensity {
    /** Nothing falls. */
    NONE("none"),
    /** Below 2.5 mm/h of rain, or {@code -}. */
    LIGHT("light"),
    /** From 2.5 up to 10 mm/h of rain, or no sign. */
    MODERATE("moderate"),
    /** From 10 up to 50 mm/h of rain, or {@code +}. */
    HEAVY("heavy"),
    /** From 50 mm/h of rain on; no report has a sign for it. */
    VIOLENT("violent");

    /** The scheme that {@link #ofRain} follows: others put the same word up to 2.5 times apart. */
    public static final String SCHEME = "WMO";

    private final String words;

    Intensity(String words) {
        this.words = words;
    }

    public String words() {
        return words;
    }

    /**
     * The class of a rate of rain by the WMO scheme.
     *
     * @param millimetresPerHour 0 or more; NaN counts as none
     */
    public static Intensity ofRain(double millimetresPerHour) {
        if (!(millimetresPerHour > 0)) {
            return NONE;
        }
        if (millimetresPerHour < 2.5) {
            return LIGHT;
        }
        if (millimetresPerHour < 10) {
            return MODERATE;
        }
        return millimetresPerHour < 50 ? HEAVY : VIOLENT;
    }
}
