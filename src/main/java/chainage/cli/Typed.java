package chainage.cli;

import chainage.quantity.Money;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** Values with units, as typed after an option. */
final class Typed {
    private Typed() {}

    /** A volume such as {@code 5ml}, {@code 0.4l}, or bare millilitres. */
    static double millilitres(String option, String text) {
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

    /** A wheel circumference such as {@code 2.105m} or {@code 2105mm}, in metres. */
    static double wheelMetres(String text) {
        String t = text.strip().toLowerCase(Locale.ROOT).replace(" ", "");
        double factor = 1;
        if (t.endsWith("mm")) {
            t = t.substring(0, t.length() - 2);
            factor = 0.001;
        } else if (t.endsWith("m")) {
            t = t.substring(0, t.length() - 1);
        }
        double metres = positive("--wheel", text, t, factor, 4, "write the circumference such as 2.105m or 2105mm");
        if (metres < 0.8) {
            throw CliError.usage(
                    "--wheel \"" + text + "\" is " + Words.number(metres) + " m round",
                    "write the circumference such as 2.105m or 2105mm");
        }
        return metres;
    }

    /** An elongation such as {@code 0.31%} or {@code 0.31}, in per cent. */
    static double percent(String what, String text, double least, double most) {
        String t = text.strip().replace(" ", "").replace("%", "");
        try {
            double v = Double.parseDouble(t);
            if (v >= least && v <= most) {
                return v;
            }
        } catch (NumberFormatException e) {
            // said below
        }
        throw CliError.usage(
                what + " \"" + text + "\" is not between " + Words.number(least) + " and " + Words.number(most) + " %",
                "write per cent such as 0.31%");
    }

    /** Tooth counts such as {@code 50,34} or {@code 11-30} (a range stands for every cog that the rider lists). */
    static List<Integer> teeth(String option, String text, int least, int most) {
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

    /** A price such as {@code "19.90 EUR"}. */
    static Money price(String text) {
        try {
            Money m = Money.parse(text.toUpperCase(Locale.ROOT));
            if (m.minor() >= 0) {
                return m;
            }
        } catch (IllegalArgumentException | ArithmeticException e) {
            // said below
        }
        throw CliError.usage(
                "--price \"" + text + "\" is no price", "write an amount and a currency such as \"19.90 EUR\"");
    }

    private static double positive(
            String option, String typed, String number, double factor, double most, String mend) {
        try {
            double v = Double.parseDouble(number) * factor;
            if (v > 0 && v <= most) {
                return v;
            }
        } catch (NumberFormatException e) {
            // said below
        }
        throw CliError.usage(option + " \"" + typed + "\" cannot be", mend);
    }
}
