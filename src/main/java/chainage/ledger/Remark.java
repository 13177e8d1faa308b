package chainage.ledger;

import java.util.Locale;

/** What was heard or seen on a chain. */
public enum Remark {
    /** The treatment's life has ended, whatever the figures say. */
    NOISY,
    /** The chain is to be replaced, whatever the figures say. */
    DAMAGED,
    /** The chain is out of use for good. */
    RETIRED,
    /** Only a note. */
    NOTE;

    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
