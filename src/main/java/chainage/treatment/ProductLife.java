package chainage.treatment;

import chainage.inference.MonotoneInverse;
import chainage.ledger.Event;
import chainage.quantity.Estimate;
import chainage.quantity.Lazy;
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

    /** Among so many lives one does not move what is known of them by much; our choice. */
    private static final int MANY = 20;

    /** A life at least so likely among many, itself among them, is not doubted by the others alone; our choice. */
    private static final double PLAIN = 20 * DOUBT;

    private final Event.ProductDescribed product;
    private final LevelGrid level;
    private final List<Life> lives;
    private final int otherLives;
    private final double logTable;
    private final double variance;
    private final Level before;
    private final LifePrior prior;
    private final Map<Double, Double> quantiles = new HashMap<>();
    private final Lazy<List<Doubt>> doubts = new Lazy<>(this::found);
    private @Nullable Estimate life;

    ProductLife(
            Event.ProductDescribed product,
            LevelGrid level,
            List<Life> lives,
            int otherLives,
            LifeShape shape,
            Level before,
            LifePrior prior) {
        this.product = product;
        this.level = level;
        this.lives = lives;
        this.otherLives = otherLives;
        this.logTable = shape.logLife(0);
        this.before = before;
        double spread = shape.spread() * before.sd();
        this.variance = spread * spread;
        this.prior = prior;
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

    /** The typical life, dry clean road alone: 10, 50 and 90 %. */
    public Estimate typical() {
        return new Estimate(typical(0.1), typical(0.5), typical(0.9));
    }

    private double typical(double p) {
        return Math.exp(MonotoneInverse.reaches(level::isTypicallyBelow, p, level.least() - 2, level.most() + 2));
    }

    /**
     * What the table still weighs in the typical life, 0 to 1: the variance of its log against that before anything of the
     * rider's was seen, times what the table weighed by then. Where all is a bell, so large a part of the answer comes from
     * it.
     */
    public double tableWeight() {
        return notOwn() * before.table();
    }

    /** What other riders' chains weigh in it; 0 where nothing of theirs is known. */
    public double othersWeight() {
        return notOwn() * (1 - before.table());
    }

    private double notOwn() {
        return lives.isEmpty() && otherLives == 0 ? 1 : Math.min(1, level.variance() / variance);
    }

    /**
     * Cautious, likely and hopeful: 10, 50 and 90 % of a single new life, as rides are counted. Where wet and dirty roads
     * are doubtful that doubt is in it, at the rider's usual mix of roads.
     */
    public Estimate life() {
        if (life == null) {
            life = new Estimate(single(0.1), single(0.5), single(0.9));
        }
        return life;
    }

    /** Chance that a single new life is over by then. */
    public double isOver(double metres) {
        if (metres <= 0) {
            return 0;
        }
        return level.isOver(Math.log(metres));
    }

    /**
     * Metres by which so large a share of single new lives is over.
     *
     * @param p above 0 and below 1
     */
    public double single(double p) {
        return quantiles.computeIfAbsent(p, q -> {
            double reach = 5 * level.widest();
            return Math.exp(MonotoneInverse.reaches(level::isOver, q, level.least() - reach, level.most() + reach));
        });
    }

    /** Chance that its typical life is longer than another's. */
    public double isLonger(ProductLife other) {
        return product.equals(other.product) ? 0.5 : level.isLonger(other.level);
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
     * Lives that the model can hardly believe by all the others, worst first: a noise far too soon, or a silence far too
     * long. Once one is doubted the rest are judged without it.
     */
    public List<Doubt> doubts() {
        return doubts.get();
    }

    private List<Doubt> found() {
        List<Doubt> doubts = new ArrayList<>();
        List<Asked> left = new ArrayList<>();
        lives.forEach(life -> left.add(new Asked(life)));
        LevelGrid by = level;
        while (!left.isEmpty()) {
            Plain plain = left.size() >= MANY ? new Plain(by) : null;
            Asked worst = null;
            double least = Double.POSITIVE_INFINITY;
            for (Asked a : left) {
                if (plain != null && plain.is(a)) {
                    continue;
                }
                double chance = a.chance(by.areOverWithout(a.voice()));
                if (worst == null || chance < least) {
                    worst = a;
                    least = chance;
                }
            }
            if (worst == null || least >= DOUBT) {
                break;
            }
            doubts.add(new Doubt(worst.life, least));
            left.remove(worst);
            by = by.without(worst.voice());
        }
        return List.copyOf(doubts);
    }

    /** A life that may be doubted. */
    private final class Asked {
        final Life life;
        /** Logs of how far it went and of how far at least; that of nothing is before any life's end. */
        final double[] ends;

        private LevelGrid.@Nullable Voice voice;

        Asked(Life life) {
            this.life = life;
            this.ends = new double[] {Math.log(life.metres()), Math.log(life.fromMetres())};
        }

        LevelGrid.Voice voice() {
            LevelGrid.Voice known = voice;
            if (known == null) {
                known = level.voice(new SeenLives(List.of(life), logTable, prior), ends);
                voice = known;
            }
            return known;
        }

        /**
         * Chance of a life that goes so far off.
         *
         * @param over chance that a life is over at its ends
         */
        double chance(double[] over) {
            return life.ended() ? 2 * Math.min(over[0], 1 - over[1]) : 1 - over[0];
        }
    }

    /**
     * Which of many lives are plain by all of them. The longer, the more likely over: one that lies between others that are
     * plain need not be weighed to know that it is.
     */
    private static final class Plain {
        /** So that no last digit of a chance can decide. */
        private static final double SURELY = 1e-9;

        private final LevelGrid by;
        /** The least at which enough lives are over, and the greatest at which not too many are, of those weighed; logs. */
        private double soon = Double.POSITIVE_INFINITY;

        private double late = Double.NEGATIVE_INFINITY;
        /** The greatest at which a silence is plain, of those weighed. */
        private double silent = Double.NEGATIVE_INFINITY;

        Plain(LevelGrid by) {
            this.by = by;
        }

        boolean is(Asked a) {
            if (a.life.ended() ? a.ends[0] >= soon && a.ends[1] <= late : a.ends[0] <= silent) {
                return true;
            }
            double[] over = a.voice == null ? by.areOver(a.ends) : by.areOverWith(a.voice);
            for (int m = 0; m < over.length; m++) {
                soon = over[m] >= PLAIN / 2 + SURELY ? Math.min(soon, a.ends[m]) : soon;
                late = over[m] <= 1 - PLAIN / 2 - SURELY ? Math.max(late, a.ends[m]) : late;
                silent = over[m] <= 1 - PLAIN - SURELY ? Math.max(silent, a.ends[m]) : silent;
            }
            return a.chance(over) >= PLAIN;
        }
    }
}
