package chainage.ledger;

import org.jspecify.annotations.Nullable;

/**
 * The rider's flags on one ride, all of them together.
 *
 * @param moisture null when not flagged
 * @param share of the distance the moisture holds for, 0 to 1
 * @param grit null when not flagged
 */
public record Flags(
        @Nullable Moisture moisture, double share, @Nullable Grit grit) {
    /** Nothing flagged. */
    public static final Flags NONE = new Flags(null, 1, null);

    /** These flags with a later one over them; what it leaves open stays. */
    public Flags with(Event.Tagged tag) {
        return new Flags(
                tag.moisture() == null ? moisture : tag.moisture(),
                tag.moisture() == null ? share : tag.share(),
                tag.grit() == null ? grit : tag.grit());
    }
}
