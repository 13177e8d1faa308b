package chainage.typed;

import chainage.quantity.Decimals;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;

/** Numbers as people type them: with a point, or with a comma where that cannot be mistaken. */
public final class TypedNumber {
    /** The sign itself, which nobody takes for that of an option. */
    private static final String MINUS = "\u2212";

    private static final Pattern BELOW = Pattern.compile("-\\d+([.,]\\d+)?%?");

    private TypedNumber() {}

    /**
     * The number.
     *
     * @throws NumberFormatException when it is none
     * @throws CliError when its comma may stand for a point or part thousands
     */
    public static double of(String typed) {
        String t = withPoint(typed.strip());
        t = t.startsWith(MINUS) ? "-" + t.substring(1) : t;
        double v = Decimals.of(t.startsWith("+") ? t.substring(1) : t);
        if (Double.isNaN(v)) {
            throw new NumberFormatException(typed);
        }
        return v;
    }

    /**
     * The words with a sign of per cent that stands by itself put to its number, as people and our own screens write; and
     * with a figure below nothing told from an option.
     */
    public static String[] joined(Iterable<String> words) {
        List<String> joined = new ArrayList<>();
        for (String word : words) {
            int last = joined.size() - 1;
            if (word.equals("%") && last >= 0 && joined.get(last).matches("[+\u2212-]?\\d+([.,]\\d+)?")) {
                joined.set(last, joined.get(last) + word);
            } else if (BELOW.matcher(word).matches()
                    && last >= 0
                    && !joined.get(last).startsWith("-")) {
                joined.add(MINUS + word.substring(1));
            } else {
                joined.add(word);
            }
        }
        return joined.toArray(String[]::new);
    }

    /** The text with a point for a comma that stands for one. */
    static String withPoint(String typed) {
        int comma = typed.indexOf(',');
        if (comma < 0 || comma != typed.lastIndexOf(',') || typed.indexOf('.') >= 0) {
            return typed;
        }
        String point = typed.replace(',', '.');
        if (typed.matches("[+-]?[1-9]\\d{0,2},\\d{3}(\\D.*)?")) {
            throw CliError.usage(
                    "\"" + typed + "\" may be " + point + " or " + typed.replace(",", ""), "write it without a comma");
        }
        return point;
    }
}
