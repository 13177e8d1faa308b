package chainage.page;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.Locale;

/**
 * Lines, areas and words on a plane, origin at the top left, in pixels. Looks are classes of the style sheet, which knows
 * the colours, so that a drawing follows the theme and prints in ink.
 *
 * @param width of the plane
 * @param height of the plane
 * @param shapes from the bottom to the top
 */
public record Drawing(int width, int height, List<Shape> shapes) {
    public Drawing {
        shapes = List.copyOf(shapes);
    }

    /** What is drawn. */
    public sealed interface Shape {}

    /**
     * A line or an area.
     *
     * @param look its class
     * @param d SVG path data
     * @param tip shown when pointed at; may be empty
     */
    public record Path(String look, String d, String tip) implements Shape {}

    /**
     * Words.
     *
     * @param look its class
     * @param x of the anchor
     * @param y of the base line
     * @param anchor {@code start}, {@code middle} or {@code end}
     * @param text at most a few words
     */
    public record Label(String look, String x, String y, String anchor, String text) implements Shape {}

    static Path path(String look, String d) {
        return new Path(look, d, "");
    }

    static Label label(String look, double x, double y, String anchor, String text) {
        return new Label(look, px(x), px(y), anchor, text);
    }

    /** A straight line. */
    static Path line(String look, double x1, double y1, double x2, double y2) {
        return path(look, "M" + px(x1) + " " + px(y1) + "L" + px(x2) + " " + px(y2));
    }

    /** An upright rectangle. */
    static Path box(String look, double x, double y, double width, double height, String tip) {
        return new Path(
                look, "M" + px(x) + " " + px(y) + "h" + px(width) + "v" + px(height) + "h" + px(-width) + "z", tip);
    }

    /** A circle. */
    static Path dot(String look, double x, double y, double radius, String tip) {
        String r = px(radius);
        return new Path(
                look,
                "M" + px(x - radius) + " " + px(y) + "a" + r + " " + r + " 0 1 0 " + px(2 * radius) + " 0a" + r + " "
                        + r + " 0 1 0 " + px(-2 * radius) + " 0z",
                tip);
    }

    /** A square on its point. */
    static Path diamond(String look, double x, double y, double radius, String tip) {
        String r = px(radius);
        String back = px(-radius);
        return new Path(
                look,
                "M" + px(x) + " " + px(y - radius) + "l" + r + " " + r + "l" + back + " " + r + "l" + back + " " + back
                        + "z",
                tip);
    }

    /** A length to a tenth of a pixel, without a needless zero. */
    static String px(double value) {
        if (!(Math.abs(value) < 1e6)) {
            throw new IllegalArgumentException(String.format(Locale.ROOT, "%f is off the drawing", value));
        }
        BigDecimal tenth = BigDecimal.valueOf(value).setScale(1, RoundingMode.HALF_UP);
        return tenth.signum() == 0 ? "0" : tenth.stripTrailingZeros().toPlainString();
    }
}
