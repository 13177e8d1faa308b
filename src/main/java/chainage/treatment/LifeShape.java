package chainage.treatment;

import chainage.inference.Normal;
import chainage.quantity.Estimate;

/**
 * From a standard normal level to the log of a typical life, so that the level's 10, 50 and 90 % quantiles are the
 * table's low, likely and high life.
 *
 * <p>log life = middle + a z + b (√(z² + c²) − c). Where the table's interval is even in the log, b is 0 and the life is
 * lognormal; where it is not, the two sides have spreads of their own, and c makes the passage smooth. Rising for every
 * interval, since |b| stays below a.
 */
final class LifeShape {
    private final double middle;
    private final double a;
    private final double b;
    private final double c;

    /**
     * By the table's row.
     *
     * @param life low, likely and high, metres; above 0 and apart
     */
    LifeShape(Estimate life) {
        this(life, 1);
    }

    /**
     * Wider than the table's row.
     *
     * @param wider how many times as far its low and high are taken to be from the likely one, in the log
     */
    LifeShape(Estimate life, double wider) {
        middle = Math.log(life.likely());
        double up = wider * Math.max(1e-3, Math.log(life.high()) - middle);
        double down = wider * Math.max(1e-3, middle - Math.log(life.low()));
        double uneven = Math.abs(up - down) / (up + down);
        // The bend at the 90 % quantile, as a share of that quantile: more than the unevenness, so that |b| < a.
        double bend = (1 + uneven) / 2;
        c = Normal.Z90 * (1 - bend * bend) / (2 * bend);
        a = (up + down) / (2 * Normal.Z90);
        b = (up - down) / (2 * bend * Normal.Z90);
    }

    /** Half the table's interval, in standard deviations of the log. */
    double spread() {
        return a;
    }

    /** Log of the typical life in metres at a level. */
    double logLife(double z) {
        return middle + a * z + b * (Math.hypot(z, c) - c);
    }

    /** The level at which the typical life has this log. */
    double level(double logLife) {
        double y = logLife - middle + b * c;
        double d = a * a - b * b;
        return (a * y - b * Math.sqrt(y * y + c * c * d)) / d;
    }
}
