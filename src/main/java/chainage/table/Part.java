package chainage.table;

import java.util.Locale;

/** What a column of a table of things done can hold. */
public enum Part {
    DATE,
    TIME,
    WHAT,
    CHAIN,
    BIKE,
    PRODUCT,
    VALUE,
    NOTE;

    /** As it is typed and told. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
