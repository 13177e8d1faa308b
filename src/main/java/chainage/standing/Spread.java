package chainage.standing;

import chainage.inference.Normal;
import chainage.quantity.Estimate;
import java.util.function.DoubleUnaryOperator;

/** The whole distribution behind an estimate of which three quantiles are told. */
final class Spread {
    private Spread() {}

    /**
     * Its quantiles by normal score: half a bell below the likely value, half another above, through all three; in the
     * log where all three are above 0, as lives and paces of wear are. Our choice, which spares asking the posterior
     * hundreds of times.
     */
    static DoubleUnaryOperator quantiles(Estimate e) {
        if (e.low() > 0) {
            DoubleUnaryOperator log = halves(Math.log(e.low()), Math.log(e.likely()), Math.log(e.high()));
            return z -> Math.exp(log.applyAsDouble(z));
        }
        return halves(e.low(), e.likely(), e.high());
    }

    private static DoubleUnaryOperator halves(double low, double likely, double high) {
        return z -> likely + z / Normal.Z90 * (z < 0 ? likely - low : high - likely);
    }
}
