package chainage.page;

import java.math.BigDecimal;
import java.math.RoundingMode;
import org.jspecify.annotations.Nullable;

/**
 * A cell of a table.
 *
 * @param kind how it is marked up
 * @param text as read
 * @param value the same for machines, a decimal or an ISO 8601 date; null where the text is all there is
 */
public record Cell(Kind kind, String text, @Nullable String value) {
    /** Nothing to say. */
    public static final Cell NONE = new Cell(Kind.PLAIN, "–", null);

    /** How a cell is marked up. */
    public enum Kind {
        PLAIN,
        /** Words from a file or the rider, kept apart from the direction of the text around them. */
        FOREIGN,
        /** A figure with its value for machines. */
        FIGURE,
        /** A date. */
        DATE
    }

    public static Cell of(String text) {
        return new Cell(Kind.PLAIN, text, null);
    }

    public static Cell foreign(String text) {
        return new Cell(Kind.FOREIGN, text, null);
    }

    /** A date as text, ISO 8601, or the same cut to its month. */
    public static Cell date(String text, String iso) {
        return new Cell(Kind.DATE, text, iso);
    }

    /** A figure: its value rounded to so many decimals, and how it is read. */
    public static Cell figure(String text, double value, int decimals) {
        return new Cell(
                Kind.FIGURE,
                text,
                BigDecimal.valueOf(value)
                        .setScale(decimals, RoundingMode.HALF_EVEN)
                        .toPlainString());
    }
}
