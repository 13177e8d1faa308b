package chainage.quantity;

/**
 * Plain decimal numbers, read quickly. Up to 15 digits the digits as one whole number are exact in a double, and
 * so is the power of ten behind the point; their quotient is then rounded once, as the nearest double is.
 */
public final class Decimals {
    private static final int MOST_DIGITS = 15;
    private static final double[] POWERS = {
        1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15
    };

    private Decimals() {}

    /**
     * The number that a text is.
     *
     * @return NaN when it is not just a minus sign, digits and one point, or too long for this way
     */
    public static double of(String text) {
        return of(text.toCharArray(), 0, text.length());
    }

    /** The same of a part of a text, from one place up to before another. */
    public static double of(char[] text, int from, int to) {
        boolean negative = from < to && text[from] == '-';
        long whole = 0;
        int digits = 0;
        int point = -1;
        for (int i = negative ? from + 1 : from; i < to; i++) {
            char c = text[i];
            if (c >= '0' && c <= '9') {
                whole = 10 * whole + (c - '0');
                digits++;
            } else if (c == '.' && point < 0) {
                point = digits;
            } else {
                return Double.NaN;
            }
        }
        if (digits == 0 || digits > MOST_DIGITS) {
            return Double.NaN;
        }
        double value = point < 0 ? whole : whole / POWERS[digits - point];
        return negative ? -value : value;
    }
}
