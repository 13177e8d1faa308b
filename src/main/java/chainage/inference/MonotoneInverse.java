package chainage.inference;

import java.util.function.DoubleUnaryOperator;

/** MonotoneInverse functions undone. */
public final class MonotoneInverse {
    /** Halvings: more than a double can tell apart of any range that is asked for here. */
    private static final int HALVINGS = 50;

    private MonotoneInverse() {}

    /**
     * Where a function reaches a value, by halving; an end of the range where it does not.
     *
     * @param rising never falls between {@code low} and {@code high}
     */
    public static double reaches(DoubleUnaryOperator rising, double value, double low, double high) {
        double a = low;
        double b = high;
        for (int i = 0; i < HALVINGS; i++) {
            double middle = (a + b) / 2;
            if (rising.applyAsDouble(middle) < value) {
                a = middle;
            } else {
                b = middle;
            }
        }
        return (a + b) / 2;
    }
}
