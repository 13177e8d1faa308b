package chainage.typed;

import chainage.drivetrain.Gear;
import chainage.quantity.Money;
import chainage.render.Formatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** Values with units, as typed after an option. */
public final class QuantityParser {
    private QuantityParser() {}

    /** A volume such as {@code 5ml}, {@code 0.4l}, or bare millilitres. */
    public static double millilitres(String option, String text) {
        String t = text.strip().toLowerCase(Locale.ROOT).replace(" ", "");
        double factor = 1;
        if (t.endsWith("ml")) {
            t = t.substring(0, t.length() - 2);
        } else if (t.endsWith("cl")) {
            t = t.substring(0, t.length() - 2);
            factor = 10;
        } else if (t.endsWith("l")) {
            t = t.substring(0, t.length() - 1);
            factor = 1000;
        }
        return positive(option, text, t, factor, 100_000, "write an amount such as 5ml or 0.4l");
    }

    /** Width and rim diameter as ISO 5775 writes a tyre's size. */
    private static final Pattern TYRE = Pattern.compile("(\\d{2,3})-(\\d{3})");

    /** An amount and the code behind it. */
    public static final String MPH = "mph";

    /** By the definition of the international mile. */
    public static final double KMH_A_MPH = 1.609344;

    private static final Pattern BARE = Pattern.compile("[0-9]+(?:[.,][0-9]+)?");
    private static final Pattern PRICE = Pattern.compile("-?[0-9]+(?:\\.[0-9]+)?\\s*([A-Za-z]{3})");

    private static final Pattern GEAR = Pattern.compile("(\\d{2})\\s*[x/×]\\s*(\\d{1,2})");

    /** No wheel is so many metres round, and every bicycle's so many millimetres. */
    private static final Pattern MILLIMETRES_ROUND = Pattern.compile("1\\d{3}|2[0-4]\\d{2}|2500");

    private static final String WHEEL = "write the circumference such as 2.105m, or the tyre's size such as 28-622";

    /**
     * A wheel circumference such as {@code 2.105m} or {@code 2105mm}, or a tyre's size by ISO 5775 such as
     * {@code 28-622}, in metres. A tyre is taken to be as high as it is wide.
     */
    public static double wheelMetres(String text) {
        String t = text.strip().toLowerCase(Locale.ROOT).replace(" ", "");
        Matcher tyre = TYRE.matcher(t);
        if (tyre.matches()) {
            int width = Integer.parseInt(tyre.group(1));
            int rim = Integer.parseInt(tyre.group(2));
            if (width < 15 || width > 130 || rim < 200 || rim > 700) {
                throw CliError.usage(
                        "--wheel \"" + text + "\" is no tyre of a bicycle",
                        "write width and rim diameter in millimetres such as 28-622");
            }
            return Math.round(Math.PI * (rim + 2 * width)) / 1000.0;
        }
        double factor = 1;
        if (t.endsWith("mm")) {
            t = t.substring(0, t.length() - 2);
            factor = 0.001;
        } else if (t.endsWith("m")) {
            t = t.substring(0, t.length() - 1);
        }
        double metres = positive(
                "--wheel",
                text,
                t,
                factor,
                4,
                MILLIMETRES_ROUND.matcher(t).matches() ? Alike.question(List.of(t + "mm")) : WHEEL);
        if (metres < 0.8) {
            throw CliError.usage("--wheel \"" + text + "\" is " + Formatter.number(metres) + " m round", WHEEL);
        }
        return metres;
    }

    /** An elongation such as {@code 0.31%} or {@code 0.31}, in per cent. */
    public static double percent(String what, String text, double least, double most) {
        String t = text.strip().replace(" ", "").replace("%", "");
        try {
            double v = TypedNumber.of(t);
            if (v >= least && v <= most) {
                return v;
            }
        } catch (NumberFormatException e) {
            // said below
        }
        throw CliError.usage(
                what + " \"" + text + "\" is not between " + Formatter.number(least) + " and " + Formatter.number(most)
                        + " %",
                "write per cent such as 0.31%");
    }

    /**
     * Cog teeth as a list such as {@code 11,13,15}, or as a range such as {@code 11-28/11}, which stands for the usual
     * list from 11 to 30 teeth with 11 cogs.
     */
    public static List<Integer> cogs(String text) {
        return text.contains("-") ? Cassettes.of(text) : teeth("--cogs", text, 9, 60);
    }

    /** Teeth of the two jockey wheels, upper first. */
    public static List<Integer> jockeys(String text) {
        String[] parts = text.strip().split("[,/ ]+", -1);
        List<Integer> teeth = new ArrayList<>();
        for (String part : parts) {
            teeth.addAll(teeth("--jockeys", part, 8, 25));
        }
        if (teeth.size() != 2) {
            throw CliError.usage(
                    "--jockeys \"" + text + "\" are not two", "write both, the upper first, such as 11,11");
        }
        return teeth;
    }

    /** Tooth counts such as {@code 50,34}. */
    public static List<Integer> teeth(String option, String text, int least, int most) {
        List<Integer> teeth = new ArrayList<>();
        for (String part : text.strip().split("[,/ ]+", -1)) {
            try {
                int n = Integer.parseInt(part);
                if (n < least || n > most) {
                    throw CliError.usage(
                            option + " \"" + text + "\": " + n + " teeth",
                            "counts lie between " + least + " and " + most);
                }
                teeth.add(n);
            } catch (NumberFormatException e) {
                throw CliError.usage(option + " \"" + text + "\" is no list of teeth", "write counts such as 50,34");
            }
        }
        return teeth.stream().sorted().distinct().toList();
    }

    /**
     * What an hour is worth; bare, in the currency of the prices.
     *
     * @param currencies of the prices
     * @param own the rider's; null where none is settled
     */
    public static Money hour(String typed, List<String> currencies, @Nullable String own) {
        if (!typed.strip().matches("[0-9]+([.][0-9]+)?")) {
            return price("--hour", typed, null);
        }
        if (currencies.size() != 1 && own == null) {
            throw CliError.usage("--hour " + typed + " says no currency", "add it, such as --hour \"20 EUR\"");
        }
        return price("--hour", typed, currencies.size() == 1 ? currencies.get(0) : own);
    }

    /**
     * A price such as {@code "19.90 EUR"}.
     *
     * @param currency of a bare amount; null where it needs one
     */
    public static Money price(String option, String amount, @Nullable String currency) {
        String text =
                currency != null && BARE.matcher(amount.strip()).matches() ? amount.strip() + " " + currency : amount;
        String hint = "write an amount and a currency such as \"19.90 EUR\"";
        String typed = option + " \"" + text + "\"";
        try {
            Money m = Money.parse(TypedNumber.withPoint(text.strip()).toUpperCase(Locale.ROOT));
            if (m.minor() >= 0) {
                return m;
            }
        } catch (IllegalArgumentException | ArithmeticException e) {
            Matcher shape = PRICE.matcher(text.strip());
            if (shape.matches() && !currency(shape.group(1))) {
                throw CliError.usage(
                        typed + ": " + shape.group(1) + " is no currency we know",
                        "use a code of three letters by ISO 4217, such as EUR");
            }
            throw CliError.usage(
                    typed + " is no price",
                    hint
                            + (BARE.matcher(text.strip()).matches()
                                    ? ", or settle the currency: chainage settings set currency EUR"
                                    : ""));
        }
        throw CliError.usage(typed + " is less than nothing", hint);
    }

    private static boolean currency(String code) {
        try {
            Money.zero(code.toUpperCase(Locale.ROOT));
            return true;
        } catch (IllegalArgumentException e) {
            return false;
        }
    }

    /** Working time in minutes, 0 to a day. */
    public static double minutes(String option, double minutes) {
        if (!(minutes >= 0 && minutes <= 1440)) {
            throw CliError.usage(option + " " + Formatter.number(minutes) + " is no working time", "give 0 to 1440");
        }
        return minutes;
    }

    /** A number with or without its unit, within bounds. */
    public static double number(String option, String text, String unit, double least, double most) {
        String t = text.strip();
        t = t.endsWith(unit) ? t.substring(0, t.length() - unit.length()).strip() : t;
        try {
            double v = TypedNumber.of(t);
            if (v >= least && v <= most) {
                return v;
            }
        } catch (NumberFormatException e) {
            // said below
        }
        throw CliError.usage(
                option + " \"" + text + "\" cannot be",
                "write a number from " + Formatter.number(least) + " to " + Formatter.number(most)
                        + (unit.isEmpty() ? "" : " in " + unit));
    }

    /** A gear such as {@code 52x15}. */
    public static Gear gear(String text) {
        Matcher m = GEAR.matcher(text.strip().toLowerCase(Locale.ROOT));
        if (m.matches()) {
            int ring = Integer.parseInt(m.group(1));
            int cog = Integer.parseInt(m.group(2));
            if (ring >= 20 && ring <= 70 && cog >= 9 && cog <= 60) {
                return new Gear(ring, cog);
            }
        }
        throw CliError.usage("--gear \"" + text + "\" is no gear", "write the teeth of ring and cog such as 52x15");
    }

    /** A speed of the wind such as {@code 3m/s}, {@code 10km/h} or {@code 6mph}, metres a second; bare is metres a second. */
    public static double wind(String text) {
        String t = text.strip().toLowerCase(Locale.ROOT);
        if (t.endsWith(MPH)) {
            return number("--wind", t, MPH, -90, 90) * KMH_A_MPH / 3.6;
        }
        return t.endsWith("km/h") ? number("--wind", t, "km/h", -150, 150) / 3.6 : number("--wind", t, "m/s", -40, 40);
    }

    private static double positive(
            String option, String typed, String number, double factor, double most, String hint) {
        try {
            double v = TypedNumber.of(number) * factor;
            if (v > 0 && v <= most) {
                return v;
            }
        } catch (NumberFormatException e) {
            // said below
        }
        throw CliError.usage(option + " \"" + typed + "\" cannot be", hint);
    }

    /** A number of treatments. */
    public static int treatments(String typed) {
        try {
            int n = Integer.parseInt(typed);
            if (n >= 1 && n <= 1000) {
                return n;
            }
        } catch (NumberFormatException e) {
            // said below
        }
        throw CliError.usage("\"" + typed + "\" is no number of treatments", "give a number from 1 to 1000");
    }
}
