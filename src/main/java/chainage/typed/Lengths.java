package chainage.typed;

import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** Short lengths as typed: millimetres, centimetres, or inches with a fraction as a ruler is marked. */
public final class Lengths {
    private static final double MM_PER_INCH = 25.4;
    private static final Pattern FORM =
            Pattern.compile("(?:(?:(\\d+)[ -]+)?(\\d+)/(\\d+)|(\\d+(?:[.,]\\d+)?))\\s*(mm|cm|in|inch|inches|\"|″|”)");

    private Lengths() {}

    /** Whether it is a length with its unit. */
    public static boolean isLength(String typed) {
        return FORM.matcher(typed.strip().toLowerCase(Locale.ROOT)).matches();
    }

    /**
     * A length such as {@code 305.9mm}, {@code 30.59 cm}, {@code 12.06in} or {@code 12 1/16in}, in millimetres, above 0.
     *
     * @throws CliError when it is none
     */
    public static double millimetres(String option, String typed) {
        Matcher m = FORM.matcher(typed.strip().toLowerCase(Locale.ROOT));
        if (m.matches()) {
            double number = m.group(4) == null
                    ? whole(m.group(1)) + Double.parseDouble(m.group(2)) / Double.parseDouble(m.group(3))
                    : TypedNumber.of(m.group(4));
            double millimetres = number
                    * switch (m.group(5)) {
                        case "mm" -> 1;
                        case "cm" -> 10;
                        default -> MM_PER_INCH;
                    };
            if (millimetres > 0 && millimetres < 100_000) {
                return millimetres;
            }
        }
        throw CliError.usage(
                option + " \"" + typed + "\" is no length with its unit",
                "write one such as 305.9mm, 30.59cm, 12.06in or \"12 1/16in\"");
    }

    private static double whole(@Nullable String digits) {
        return digits == null ? 0 : Double.parseDouble(digits);
    }
}
