package chainage.ledger;

import java.util.Locale;

/** What the road threw at the chain, cleanest first. */
public enum Grit {
    CLEAN,
    DUSTY,
    GRITTY;

    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
