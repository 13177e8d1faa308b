package chainage.exposure;

import chainage.ledger.Method;

/**
 * The wear rate in force as a treatment is used up: the method's own rate up to its life, then blending in a straight
 * line to the untreated rate at twice its life, and staying there. A washed-out chain is an untreated chain.
 */
final class WearRate {
    private final double fresh;
    private final double bare;
    private final double life;

    private WearRate(double fresh, double bare, double life) {
        this.fresh = fresh;
        this.bare = bare;
        this.life = life;
    }

    /**
     * The rates of a method.
     *
     * @param life of the treatment in metres of dry clean road; NaN for a method that has none to lose
     */
    static WearRate of(Factors factors, Method method, double life) {
        double bare = factors.wearRate(Method.NONE);
        return Double.isNaN(life) ? new WearRate(bare, bare, 0) : new WearRate(factors.wearRate(method), bare, life);
    }

    /** Per cent elongation a wear metre at this treatment exposure, metres. */
    double at(double exposure) {
        if (exposure <= life) {
            return fresh;
        }
        return exposure >= 2 * life ? bare : fresh + (bare - fresh) * (exposure - life) / life;
    }

    /** Mean rate while the exposure grows from one value to another, so that a ride cut in two wears the same. */
    double mean(double from, double to) {
        return to > from ? (integral(to) - integral(from)) / (to - from) : at(from);
    }

    private double integral(double e) {
        double sum = fresh * Math.min(e, life);
        if (e > life) {
            double past = Math.min(e, 2 * life) - life;
            sum += past == 0 ? 0 : fresh * past + (bare - fresh) * past * past / (2 * life);
        }
        if (e > 2 * life) {
            sum += bare * (e - 2 * life);
        }
        return sum;
    }
}
