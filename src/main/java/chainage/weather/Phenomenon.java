package chainage.weather;

/** What was seen to fall or to hang in the air at the station, in as few kinds as the road can tell apart. */
public enum Phenomenon {
    /** The record does not say. */
    UNSTATED("not stated", 0, 0, 0, 0),
    /** The record says: nothing. */
    NONE("nothing", 0, 0, 0, 0),
    /** Drizzle. */
    DRIZZLE("drizzle", 0.1, 0.3, 0.7, 0.7),
    /** Rain, and precipitation that an automatic station could not name. */
    RAIN("rain", 0.5, 5, 22, 70),
    /** Snow and snow grains, in mm of water. */
    SNOW("snow", 0.3, 1.5, 4, 4),
    /** Hail, small hail, ice pellets and crystals, in mm of water. */
    ICE("hail or ice", 0.5, 5, 22, 70),
    /** Mist and fog: nothing falls, but little dries. */
    MIST("mist", 0, 0, 0, 0),
    /** Dust, smoke, haze, blowing snow: nothing falls. */
    HAZE("haze", 0, 0, 0, 0);

    private final String words;
    private final double light;
    private final double moderate;
    private final double heavy;
    private final double violent;

    Phenomenon(String words, double light, double moderate, double heavy, double violent) {
        this.words = words;
        this.light = light;
        this.moderate = moderate;
        this.heavy = heavy;
        this.violent = violent;
    }

    public String words() {
        return words;
    }

    /** True for what lies on a road until it melts. */
    public boolean frozen() {
        return this == SNOW || this == ICE;
    }

    /** True when water falls in some form. */
    public boolean falls() {
        return light > 0;
    }

    /**
     * Water in mm/h where a report has only words. For rain it is the geometric middle of the class's bounds in the WMO
     * scheme (0.1, 2.5, 10, 50, 100 mm/h): our guess. The others are our guess too: snow and drizzle are graded by
     * visibility, not by rate.
     */
    public double millimetresPerHour(Intensity intensity) {
        return switch (intensity) {
            case NONE -> 0;
            case LIGHT -> light;
            case MODERATE -> moderate;
            case HEAVY -> heavy;
            case VIOLENT -> violent;
        };
    }
}
