package chainage.wear;

import chainage.exposure.ChainExposure;
import chainage.exposure.Exposures;
import chainage.exposure.Factors;
import chainage.inference.Density;
import chainage.inference.Normal;
import chainage.inference.TwoLevel;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Reading;
import chainage.quantity.Estimate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.DoubleUnaryOperator;
import org.jspecify.annotations.Nullable;

/**
 * How fast this rider's chains wear against the table, learnt from all their readings together.
 *
 * <p>Elongation of chain c = start + s_c · X, with log s_c ~ Normal(m, own²) and m ~ Normal(0, shared²) the same for all
 * chains of the rider. Readings are normal about the elongation, gauges a normal edge. A chain is taken to have been new
 * at its first ride, save for a small chance that it had run before and started anywhere up to {@link #LONGEST}; that
 * chance decides only where readings do not fit a new chain at all, and keeps the model from arguing a long reading away.
 *
 * <p>Not for several threads at once: answers are worked out when first asked for.
 */
public final class WearModel {
    /** Most that a chain is believed to be elongated, per cent; our choice, as the most that a reading may say. */
    static final double LONGEST = 3;

    /** Where a worn start cannot have more than this chance against a new one, by a bound that is generous, it is left
     * out; our choice. */
    private static final double NEGLIGIBLE = 0.1;
    /** A reading is doubted when no more than this share of readings would be so far off; our choice. */
    private static final double DOUBT = 0.005;

    /** As many as keep the interval's ends within a twentieth of it; with 17 one end was off by more. */
    private static final int STARTS = 33;

    private static final int COARSE = 41;

    /**
     * The prior.
     *
     * @param own spread of log s of one chain around the rider's, above 0
     * @param shared spread of the rider's around 0, 0 or more
     * @param worn chance that a chain had run before its first ride, 0 to 1
     */
    public record Prior(double own, double shared, double worn) {}

    private final Prior prior;
    private final Map<String, List<Seen>> readings = new LinkedHashMap<>();
    private final Map<String, Integer> places = new HashMap<>();
    private final TwoLevel level;
    private final Map<String, Elongation> known = new HashMap<>();
    private @Nullable Elongation unseen;

    /**
     * Joins the readings of all chains.
     *
     * @param readings by chain, in any order; a chain may have none
     */
    public WearModel(Prior prior, Map<String, List<Seen>> readings) {
        this.prior = prior;
        List<DoubleUnaryOperator> likelihoods = new ArrayList<>();
        readings.forEach((chain, seen) -> {
            if (!seen.isEmpty()) {
                places.put(chain, likelihoods.size());
                this.readings.put(chain, List.copyOf(seen));
                likelihoods.add(likelihood(seen));
            }
        });
        level = new TwoLevel(prior.own(), prior.shared(), likelihoods);
    }

    /** The readings of a ledger's chains, those out of use among them, beside what the table expects of their rides. */
    public static WearModel of(Ledger ledger, Exposures exposures, Factors factors) {
        double own = factors.value("wear.spread.own");
        double total = factors.value("wear.spread");
        Map<String, List<Seen>> readings = new LinkedHashMap<>();
        exposures
                .chains()
                .forEach((name, chain) -> readings.put(
                        name,
                        ledger.readings(name).stream()
                                .map(m -> new Seen(m, chain.elongationPercent(m.at())))
                                .toList()));
        return new WearModel(
                new Prior(
                        Math.min(own, total),
                        Math.sqrt(Math.max(0, total * total - own * own)),
                        Math.min(0.99, factors.value("wear.worn"))),
                readings);
    }

    /** Readings of a chain, in their order; empty without any. */
    public List<Seen> readings(String chain) {
        return readings.getOrDefault(chain, List.of());
    }

    /** Chains that have readings. */
    public int chainsRead() {
        return readings.size();
    }

    /** What is known of a chain's elongation. */
    public Elongation of(String chain) {
        Integer place = places.get(chain);
        if (place == null) {
            return unseen();
        }
        return known.computeIfAbsent(chain, c -> posterior(level.logPrior(place), readings(c), NEGLIGIBLE));
    }

    /** What is known of a chain without readings of its own: what the others teach, else the prior. */
    public Elongation unseen() {
        if (unseen == null) {
            unseen = new Elongation(List.of(new Elongation.Slice(1, 0, 0, level.another())));
        }
        return unseen;
    }

    /**
     * How fast chains wear under a product.
     *
     * @param product in question
     * @param chains all chains; those mostly ridden on it and with readings speak for it
     * @param percentPer1000Km the table's rate of its method
     */
    public ProductWear of(Event.ProductDescribed product, Collection<ChainExposure> chains, double percentPer1000Km) {
        List<DoubleUnaryOperator> likelihoods = new ArrayList<>();
        int count = 0;
        for (ChainExposure chain : ProductWear.speaking(List.copyOf(chains), this, product.product())) {
            List<Seen> seen = readings(chain.chain().chain());
            likelihoods.add(likelihood(seen));
            count += seen.size();
        }
        Density level = new TwoLevel(prior.own(), prior.shared(), likelihoods).shared();
        return new ProductWear(product.product(), percentPer1000Km, level, likelihoods.size(), count);
    }

    /** Log likelihood of log s by a chain's readings, all starts taken together. */
    private DoubleUnaryOperator likelihood(List<Seen> seen) {
        Weighed weighed = new Weighed(seen);
        double total = Math.hypot(prior.own(), prior.shared());
        DoubleUnaryOperator broad = u -> Normal.logDensity(u / total) - Math.log(total);
        double far = 12 * total;
        double fresh = Density.of(u -> weighed.log(0, u) + broad.applyAsDouble(u), -far, far)
                .logIntegral();
        if (!mayBeWorn(seen, fresh, NEGLIGIBLE)) {
            return u -> weighed.log(0, u);
        }
        double[] starts = starts(weighed, broad);
        double each = Math.log(prior.worn() * (starts[1] - starts[0]) / LONGEST);
        return u -> {
            double[] terms = new double[starts.length + 1];
            terms[starts.length] = Math.log1p(-prior.worn()) + weighed.log(0, u);
            for (int i = 0; i < starts.length; i++) {
                terms[i] = each + weighed.log(starts[i], u);
            }
            return TwoLevel.logSum(terms);
        };
    }

    /** Elongation by a prior of log s and readings; a worn start of less chance than that is left out. */
    private Elongation posterior(DoubleUnaryOperator logPrior, List<Seen> seen, double negligible) {
        Weighed weighed = new Weighed(seen);
        Density fresh = level.density(u -> weighed.log(0, u) + logPrior.applyAsDouble(u));
        if (!mayBeWorn(seen, fresh.logIntegral(), negligible)) {
            return new Elongation(List.of(new Elongation.Slice(1, 0, 0, fresh)));
        }
        double[] starts = starts(weighed, logPrior);
        double width = starts[1] - starts[0];
        double[] weights = new double[starts.length + 1];
        List<Density> densities = new ArrayList<>();
        for (int i = 0; i < starts.length; i++) {
            double start = starts[i];
            Density d = level.density(u -> weighed.log(start, u) + logPrior.applyAsDouble(u));
            densities.add(d);
            weights[i] = Math.log(prior.worn() * width / LONGEST) + d.logIntegral();
        }
        weights[starts.length] = Math.log1p(-prior.worn()) + fresh.logIntegral();
        double all = TwoLevel.logSum(weights);
        List<Elongation.Slice> slices = new ArrayList<>();
        for (int i = 0; i < starts.length; i++) {
            slices.add(new Elongation.Slice(Math.exp(weights[i] - all), starts[i], width, densities.get(i)));
        }
        slices.add(new Elongation.Slice(Math.exp(weights[starts.length] - all), 0, 0, fresh));
        return new Elongation(slices);
    }

    /**
     * Whether a worn start could explain the readings so much better that it must be reckoned with. It explains them no
     * better than perfectly, and one of them has to say where it started.
     *
     * @param fresh log of how well a new chain explains them
     * @param negligible chance below which it need not be
     */
    private boolean mayBeWorn(List<Seen> seen, double fresh, double negligible) {
        if (prior.worn() == 0) {
            return false;
        }
        double most = 0;
        double sharpest = -Math.log(LONGEST);
        for (Seen s : seen) {
            most += Likelihood.logMost(s.reading());
            if (s.reading() instanceof Reading.Elongation) {
                sharpest = Math.max(sharpest, Likelihood.logMost(s.reading()));
            }
        }
        double worn = Math.log(prior.worn() / LONGEST) + most - sharpest;
        return worn - fresh - Math.log1p(-prior.worn()) > Math.log(negligible);
    }

    /** Even starts over the range that the readings leave open. */
    private double[] starts(Weighed seen, DoubleUnaryOperator logPrior) {
        double reach = 4 * Math.hypot(prior.own(), prior.shared());
        DoubleUnaryOperator byStart = b -> {
            double[] terms = new double[COARSE];
            for (int i = 0; i < COARSE; i++) {
                double u = reach * (2.0 * i / (COARSE - 1) - 1);
                terms[i] = seen.log(b, u) + logPrior.applyAsDouble(u);
            }
            return TwoLevel.logSum(terms);
        };
        Density open = Density.of(byStart, 0, LONGEST);
        double[] starts = new double[STARTS];
        double width = (open.high() - open.low()) / STARTS;
        for (int i = 0; i < STARTS; i++) {
            starts[i] = open.low() + (i + 0.5) * width;
        }
        return starts;
    }

    /**
     * A reading that does not fit.
     *
     * @param seen the reading
     * @param expected the elongation then by everything else that is known, per cent
     * @param chance of a reading so far off, two-sided
     */
    public record Doubt(Seen seen, Estimate expected, double chance) {}

    /**
     * Readings of a chain that do not fit all else that is known, worst first: each is told from the others, and once one
     * is doubted the rest are judged without it.
     */
    public List<Doubt> doubts(String chain) {
        List<Doubt> doubts = new ArrayList<>();
        Integer place = places.get(chain);
        if (place == null) {
            return doubts;
        }
        DoubleUnaryOperator logPrior = level.logPrior(place);
        List<Seen> left = new ArrayList<>(readings(chain));
        while (!left.isEmpty()) {
            Doubt worst = null;
            for (Seen s : left) {
                List<Seen> others = new ArrayList<>(left);
                others.remove(s);
                Doubt d = doubt(s, others, logPrior);
                worst = worst == null || d.chance() < worst.chance() ? d : worst;
            }
            if (worst == null || worst.chance() >= DOUBT) {
                break;
            }
            doubts.add(worst);
            left.remove(worst.seen());
        }
        return List.copyOf(doubts);
    }

    private Doubt doubt(Seen seen, List<Seen> others, DoubleUnaryOperator logPrior) {
        Doubt d = doubt(seen, posterior(logPrior, others, NEGLIGIBLE));
        // What the others hardly asked for may be just what this one says.
        return d.chance() < DOUBT ? doubt(seen, posterior(logPrior, others, 0)) : d;
    }

    private static Doubt doubt(Seen seen, Elongation others) {
        double p = others.mean(seen.expectedPercent(), e -> Likelihood.asLow(seen.reading(), e));
        double chance = seen.reading() instanceof Reading.Elongation ? 2 * Math.min(p, 1 - p) : p;
        return new Doubt(seen, others.percent(seen.expectedPercent()), chance);
    }
}
