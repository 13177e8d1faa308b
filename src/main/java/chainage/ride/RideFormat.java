package chainage.ride;

import java.util.Locale;

/** The format a ride was read from, richest first: of two recordings of one outing the earlier constant is counted. */
public enum RideFormat {
    FIT,
    TCX,
    GPX;

    /** Lower-case name, as printed. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
