package chainage.ledger;

import java.util.Locale;

/** How wet the road was, driest first; indoor is as dry as dry. */
public enum Moisture {
    INDOOR,
    DRY,
    DAMP,
    WET;

    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
