package chainage.friction;

import chainage.drivetrain.Drivetrain;
import chainage.exposure.Factors;
import chainage.ledger.Cleaning;
import chainage.ledger.Method;

/**
 * The coefficient of friction of a chain's state, and the loss model of a bike, both by the factor table.
 *
 * <p>Over a treatment's life the coefficient grows in a straight line from the method's fresh value to its worn one;
 * beyond, it goes on to the dry steel value at twice the life and stays there. Poor cleaning keeps only a share of what
 * the treatment gains over a dirty chain. The road counts through the share of the life that it uses up: no figure for
 * its direct effect was found.
 */
public final class Friction {
    private final Factors factors;

    public Friction(Factors factors) {
        this.factors = factors;
    }

    /**
     * The coefficient of friction.
     *
     * @param used share of the treatment's life, 0 when fresh, 1 at its end, 2 and more when washed out
     */
    public double mu(Method method, Cleaning cleaning, double used) {
        double bare = factors.value("friction.mu.bare");
        if (method == Method.NONE || used >= 2) {
            return bare;
        }
        double fresh = kept(method, cleaning, factors.value("friction.mu.fresh." + method.word()));
        double end = kept(method, cleaning, factors.value("friction.mu.end." + method.word()));
        return used <= 1 ? fresh + (end - fresh) * Math.max(0, used) : end + (bare - end) * (used - 1);
    }

    /** The mean of {@link #mu} while the share grows from one value to another. */
    public double meanMu(Method method, Cleaning cleaning, double from, double to) {
        if (!(to > from)) {
            return mu(method, cleaning, from);
        }
        double sum = 0;
        double at = from;
        // Straight between the kinks at 1 and 2, so that the mean of the ends is exact on each piece.
        for (double next : new double[] {Math.min(to, 1), Math.min(to, 2), to}) {
            if (next > at) {
                sum += (next - at) * (mu(method, cleaning, at) + mu(method, cleaning, next)) / 2;
                at = next;
            }
        }
        return sum / (to - from);
    }

    /** Share of the gain over a dirty chain that is kept; 1 for the factory's preservative, which needs no cleaning. */
    public double kept(Method method, Cleaning cleaning) {
        String key = keptKey(method, cleaning);
        return key.isEmpty() ? 1 : Math.min(1, factors.value(key));
    }

    /** The row of the factor table that says so; empty where none does. */
    public static String keptKey(Method method, Cleaning cleaning) {
        if (method == Method.FACTORY || method == Method.NONE) {
            return "";
        }
        return switch (cleaning) {
            case NONE -> "friction.kept.none";
            case ON_BIKE -> "friction.kept.on-bike";
            case QUICK, DEEP -> {
                if (method == Method.HOT_WAX) {
                    yield "friction.kept.immersion." + cleaning.word();
                }
                yield method == Method.COLD_DIP_WAX ? "friction.kept.liquid" : "friction.kept.off-bike";
            }
        };
    }

    private double kept(Method method, Cleaning cleaning, double mu) {
        double dirty = factors.value("friction.mu.dirty");
        return mu < dirty ? dirty - kept(method, cleaning) * (dirty - mu) : mu;
    }

    /** The loss model for a bike of which nothing is entered. */
    public LossModel usual() {
        return model(factors.drivetrain(null));
    }

    /** The loss model for a bike: its jockey wheels; none, and no slack span's pull, where one cog is entered. */
    public LossModel model(Drivetrain bike) {
        LossModel usual = LossModel.USUAL;
        int jockey = (int) Math.round(factors.value("friction.jockey"));
        boolean entered = bike.jockeys().size() == 2;
        return new LossModel(
                usual.kappa(),
                factors.value("friction.pin") / 1000,
                bike.singleCog() ? 0 : factors.value("friction.slack"),
                bike.singleCog() ? 0 : entered ? bike.jockeys().get(0) : jockey,
                bike.singleCog() ? 0 : entered ? bike.jockeys().get(1) : jockey,
                Math.abs(factors.value("friction.offset")),
                usual.toothMetres());
    }
}
