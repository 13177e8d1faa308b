package chainage.treatment;

import chainage.inference.Density;
import chainage.inference.MonotoneInverse;
import chainage.inference.Normal;
import chainage.ledger.Event;
import chainage.quantity.Estimate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * What is known of a product's life, metres of dry clean road.
 *
 * <p>The typical life is the median of its single lives. It is known the better the more lives were seen; a single new
 * life stays as spread as single lives are.
 */
public final class ProductLife {
    /** A life is doubted when no more than this share of lives would go so far off; our choice. */
    private static final double DOUBT = 0.005;

    private final Event.ProductDescribed product;
    private final LifeShape shape;
    private final Density level;
    private final double single;
    private final List<Life> lives;
    private final int otherLives;
    private final Map<Double, Double> quantiles = new HashMap<>();
    private @Nullable Estimate life;

    ProductLife(
            Event.ProductDescribed product,
            LifeShape shape,
            Density level,
            double single,
            List<Life> lives,
            int otherLives) {
        this.product = product;
        this.shape = shape;
        this.level = level;
        this.single = single;
        this.lives = lives;
        this.otherLives = otherLives;
    }

    public Event.ProductDescribed product() {
        return product;
    }

    /** The lives seen of it, by chain and time; empty when the answer is the prior. */
    public List<Life> lives() {
        return lives;
    }

    /** How many of them were seen to their end. */
    public int ended() {
        return (int) lives.stream().filter(Life::ended).count();
    }

    /** How many were silent as far as they went. */
    public int silent() {
        return lives.size() - ended();
    }

    /** How many lives were seen of other products of the same method. */
    public int otherLives() {
        return otherLives;
    }

    /** The typical life: 10, 50 and 90 %. */
    public Estimate typical() {
        return new Estimate(typical(0.1), typical(0.5), typical(0.9));
    }

    private double typical(double p) {
        return Math.exp(shape.logLife(level.quantile(p)));
    }

    /** Cautious, likely and hopeful: 10 % of a single new life, the typical life, 90 % of a single new life. */
    public Estimate life() {
        if (life == null) {
            double likely = typical(0.5);
            life = new Estimate(Math.min(likely, single(0.1)), likely, Math.max(likely, single(0.9)));
        }
        return life;
    }

    /** Chance that a single new life is over by then. */
    public double isOver(double metres) {
        if (metres <= 0) {
            return 0;
        }
        double x = Math.log(metres);
        return level.mean(z -> Normal.probability((x - shape.logLife(z)) / single));
    }

    /**
     * Metres by which so large a share of single new lives is over.
     *
     * @param p above 0 and below 1
     */
    public double single(double p) {
        return quantiles.computeIfAbsent(p, q -> {
            double reach = 8 * single;
            return Math.exp(MonotoneInverse.reaches(
                    x -> isOver(Math.exp(x)),
                    q,
                    shape.logLife(level.low()) - reach,
                    shape.logLife(level.high()) + reach));
        });
    }

    /** Chance that its typical life is longer than another's, the two judged apart. */
    public double isLonger(ProductLife other) {
        return 1 - level.isBelow(other.level, z -> other.shape.level(shape.logLife(z)));
    }

    @Override
    public String toString() {
        return product + " " + life() + " by " + lives + " and " + otherLives;
    }

    /**
     * A life that does not fit.
     *
     * @param life the life
     * @param chance that one goes so far off
     */
    public record Doubt(Life life, double chance) {}

    /**
     * Lives that the model can hardly believe by all the others: a noise far too soon, or a silence far too long. Told
     * from the residual and the weight that the life itself has in the answer, which is exact for normal spreads and ends.
     */
    public List<Doubt> doubts() {
        double mean = level.mean(shape::logLife);
        double variance = level.mean(z -> Math.pow(shape.logLife(z) - mean, 2));
        double weight = Math.min(0.99, variance / (single * single));
        List<Doubt> doubts = new ArrayList<>();
        for (Life life : lives) {
            double z = (Math.log(life.metres()) - mean) / (single * Math.sqrt(1 - weight));
            double chance = life.ended() ? 2 * Normal.probability(-Math.abs(z)) : Normal.probability(-z);
            if (chance < DOUBT) {
                doubts.add(new Doubt(life, chance));
            }
        }
        return List.copyOf(doubts);
    }
}
