package chainage.wear;

import chainage.exposure.Exposures;
import chainage.exposure.Factors;
import chainage.inference.Gaussian;
import chainage.inference.Normal;
import chainage.inference.SharedUnknowns;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Method;
import chainage.ledger.Reading;
import chainage.quantity.Estimate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/**
 * How fast this rider's chains wear against the table, learnt from all their readings together.
 *
 * <p>Elongation of chain c = start + s_c · X, with log s_c = m + Σ share of product p · d_p + own_c; m ~ Normal(0, shared²)
 * is the rider's, d_p ~ Normal(0, product²) a product's, own_c ~ Normal(0, own²) the chain's. X counts what the table says
 * wet roads add e^w times, and grit e^g times, w and g ~ Normal(0, road²). Readings err by Student's distribution with 4
 * degrees, so that a slip widens the interval rather than move it, and all of one tool by the same bias ~ Normal(0, bias²),
 * which the reading of a new chain pins. A chain is taken to have been new at its first ride, save for a small chance;
 * one that was not, or was added as used, started anywhere, more likely little worn than much: exponential.
 *
 * <p>What chains share is learnt by {@link SharedUnknowns}; each is then weighed by itself against what the others say.
 * Not for several threads at once: answers are worked out when first asked for.
 */
public final class WearModel {
    /** Most that a chain is believed to be elongated at its start, per cent; our choice, as the most that a reading may
     * say. */
    static final double LONGEST = 3;

    /** A reading is doubted when no more than this share of readings would be so far off; our choice. */
    private static final double DOUBT = 0.005;
    /** One that lies no further off than so many errors is none to ask all others about; our choice. */
    private static final double ORDINARY = 1.25;

    /** A worn start with less chance than this against a new one, by a bound that is generous, is left out; our choice. */
    private static final double NEGLIGIBLE = 0.01;

    /** Points of the lattice to learn by, and to answer by. */
    private static final int ROUGH = 32;

    private static final int FINE = 128;
    /** How often each chain is asked; more changes nothing that shows. */
    private static final int ROUNDS = 2;

    /**
     * The prior.
     *
     * @param own spread of log s of one chain around the rider's, above 0
     * @param shared spread of the rider's around 0, 0 or more
     * @param product spread of a product's, 0 or more
     * @param road spread of the log of what wet, and grit, add against the table, 0 or more
     * @param bias spread of what a tool reads too long, per cent, 0 or more
     * @param worn chance that a chain had run before its first ride, 0 to below 1
     * @param start mean of where such a chain started, per cent, 0 or more
     * @param heavy whether errors are Student's; else normal, to hold the integration against
     */
    public record Prior(
            double own,
            double shared,
            double product,
            double road,
            double bias,
            double worn,
            double start,
            boolean heavy) {
        /** Spread of the pace of a product with a rider, all of it that is not one chain's own. */
        double open() {
            return Math.hypot(shared, product);
        }

        /** The same where no product tells of another. */
        Prior apart() {
            return new Prior(own, 0, open(), road, bias, worn, start, heavy);
        }

        static Prior of(Factors factors) {
            double own = factors.value("wear.spread.own");
            double product = factors.value("wear.spread.product");
            double total = factors.value("wear.spread");
            own = Math.min(own, total);
            product = Math.min(product, Math.sqrt(total * total - own * own));
            return new Prior(
                    own,
                    Math.sqrt(Math.max(0, total * total - own * own - product * product)),
                    product,
                    factors.value("wear.spread.road"),
                    factors.value("reading.bias"),
                    Math.min(0.99, factors.value("wear.worn")),
                    factors.value("wear.start"),
                    true);
        }
    }

    private final Prior prior;
    private final Map<String, ChainWear> chains;
    private final List<String> read;
    private final WearUnknowns unknowns;
    private final SharedUnknowns shared;
    private final Gaussian all;
    private final Map<String, Elongation> known = new HashMap<>();

    /**
     * Joins the readings of all chains.
     *
     * @param chains by name, in any order; a chain may have no readings
     */
    public WearModel(Prior prior, Map<String, ChainWear> chains) {
        this(prior, chains, Paces.TABLE, List.of());
    }

    /**
     * Joins the readings of all chains with what others' have shown.
     *
     * @param taught from where this rider's chains start, in place of the table alone
     * @param described this rider's products
     */
    WearModel(Prior prior, Map<String, ChainWear> chains, Paces taught, Collection<Event.ProductDescribed> described) {
        this.prior = prior;
        this.chains = Collections.unmodifiableMap(new LinkedHashMap<>(chains));
        read = chains.entrySet().stream()
                .filter(e -> !e.getValue().readings().isEmpty())
                .map(Map.Entry::getKey)
                .sorted()
                .toList();
        Set<String> products = new LinkedHashSet<>();
        read.forEach(c -> products.addAll(
                new TreeSet<>(Objects.requireNonNull(chains.get(c)).products().keySet())));
        Map<String, Method> methods = new HashMap<>();
        described.forEach(p -> methods.put(p.product(), p.method()));
        if (!taught.isTable()) {
            // Of these others may tell, though no chain of this rider's does.
            products.addAll(new TreeSet<>(methods.keySet()));
        }
        unknowns = new WearUnknowns(prior, taught, products, methods);
        shared = new SharedUnknowns(unknowns.means(), unknowns.spreads(), read.size());
        for (int round = 0; round < (read.size() == 1 ? 1 : ROUNDS); round++) {
            for (int i = 0; i < read.size(); i++) {
                ChainWear chain = Objects.requireNonNull(chains.get(read.get(i)));
                WearUnknowns.Part part = unknowns.part(chain, shared.byOthers(i));
                int scores = part.of().size() + 1;
                double[] mean = new double[scores];
                double[][] about = new double[scores][scores];
                new Weighed(prior, part, chain.used(), chain.readings(), ROUGH, NEGLIGIBLE).tell(mean, about);
                shared.says(i, part.view(), mean, about);
            }
        }
        all = shared.byAll();
    }

    /** The readings of a ledger's chains, those out of use among them, beside what the table expects of their rides. */
    public static WearModel of(Ledger ledger, Exposures exposures, Factors factors, Paces taught) {
        Map<String, ChainWear> chains = new LinkedHashMap<>();
        Map<String, Event.ProductDescribed> products = new TreeMap<>(ledger.products());
        exposures.chains().forEach((name, chain) -> {
            chains.put(name, ChainWear.of(chain, ledger.readings(name), factors));
            chain.rides().forEach(r -> products.putIfAbsent(r.product().product(), r.product()));
            products.putIfAbsent(chain.product().product(), chain.product());
        });
        return new WearModel(Prior.of(factors), chains, taught, products.values());
    }

    /** Mean of the log of the pace under a product. */
    double mean(String product) {
        return all.mean(unknowns.pace(Map.of(product, 1.0)));
    }

    /** Its variance. */
    double variance(String product) {
        return all.variance(unknowns.pace(Map.of(product, 1.0)));
    }

    /** Mean of one unknown. */
    double mean(int unknown) {
        return all.mean(unknowns.alone(unknown));
    }

    /** Its variance. */
    double variance(int unknown) {
        return all.variance(unknowns.alone(unknown));
    }

    /**
     * What a chain's pace rests on beside this rider's readings, in parts of 1: so much of its variance before them as is
     * left is not the rider's.
     *
     * @param table the built-in table
     * @param others what others have shown
     */
    public record Rest(double table, double others) {}

    /** What a chain's pace rests on. */
    public Rest rest(String name) {
        Map<String, Double> shares = chain(name).products();
        double left = Math.min(1, of(name).logPaceVariance() / unknowns.before(shares));
        double table = unknowns.table(shares);
        return new Rest(left * table, left * (1 - table));
    }

    /** How fast a chain wears against the table before any reading of this rider's: 10, 50 and 90 %. */
    public Estimate before(String name) {
        Map<String, Double> shares = chain(name).products();
        double[] pace = unknowns.pace(shares);
        double[] means = unknowns.means();
        double mean = 0;
        for (int i = 0; i < means.length; i++) {
            mean += pace[i] * means[i];
        }
        double spread = Normal.Z90 * Math.sqrt(unknowns.before(shares));
        return new Estimate(Math.exp(mean - spread), Math.exp(mean), Math.exp(mean + spread));
    }

    private ChainWear chain(String name) {
        ChainWear chain = chains.get(name);
        return chain == null ? new ChainWear(false, Expected.NONE, Map.of(), List.of()) : chain;
    }

    /** Readings of a chain, in their order; empty without any. */
    public List<ReadingSeen> readings(String chain) {
        return chain(chain).readings();
    }

    /** What the table expects of all rides of a chain. */
    public Expected expected(String chain) {
        return chain(chain).total();
    }

    /** Chains that have readings. */
    public int chainsRead() {
        return read.size();
    }

    /** What is known of a chain's elongation: by its readings, else by what the others teach, else the prior. */
    public Elongation of(String chain) {
        return known.computeIfAbsent(chain, c -> posterior(c, readings(c), NEGLIGIBLE));
    }

    private Elongation posterior(String name, List<ReadingSeen> seen, double negligible) {
        ChainWear chain = chain(name);
        int place = read.indexOf(name);
        Gaussian others = place < 0 ? all : shared.byOthers(place);
        return new Weighed(prior, unknowns.part(chain, others), chain.used(), seen, FINE, negligible).elongation();
    }

    /** How much wet adds to wear, against the table: 10, 50 and 90 %. */
    public Estimate wetter() {
        return road(WearUnknowns.WET);
    }

    /** How much grit adds to wear, against the table: 10, 50 and 90 %. */
    public Estimate grittier() {
        return road(WearUnknowns.GRIT);
    }

    private Estimate road(int unknown) {
        double[] alone = unknowns.alone(unknown);
        double mean = all.mean(alone);
        double spread = Normal.Z90 * Math.sqrt(all.variance(alone));
        return new Estimate(Math.exp(mean - spread), Math.exp(mean), Math.exp(mean + spread));
    }

    /**
     * How fast chains wear under a product.
     *
     * @param percentPer1000Km the table's rate of its method
     */
    public ProductWear of(Event.ProductDescribed product, double percentPer1000Km) {
        String name = product.product();
        List<ChainWear> on = read.stream()
                .map(this::chain)
                .filter(c -> c.products().getOrDefault(name, 0.0) >= ProductWear.SPEAKS)
                .toList();
        Map<String, Double> whole = Map.of(name, 1.0);
        return new ProductWear(
                name,
                percentPer1000Km,
                all,
                unknowns.pace(whole),
                unknowns.unseen(whole),
                on.size(),
                on.stream().mapToInt(c -> c.readings().size()).sum());
    }

    /**
     * A reading that does not fit.
     *
     * @param seen the reading
     * @param expected the elongation then by everything else that is known, per cent
     * @param chance of a reading so far off, two-sided
     */
    public record Doubt(ReadingSeen seen, Estimate expected, double chance) {}

    /**
     * Readings of a chain that do not fit all else that is known, worst first: each is told from the others, and once one
     * is doubted the rest are judged without it.
     */
    public List<Doubt> doubts(String chain) {
        List<Doubt> doubts = new ArrayList<>();
        List<ReadingSeen> left = new ArrayList<>(readings(chain));
        while (!left.isEmpty()) {
            Elongation whole = left.size() == readings(chain).size() ? of(chain) : posterior(chain, left, NEGLIGIBLE);
            Doubt worst = null;
            for (ReadingSeen s : left) {
                if (left.size() > 1 && ordinary(s, whole)) {
                    continue;
                }
                List<ReadingSeen> others = new ArrayList<>(left);
                others.remove(s);
                Doubt d = doubt(s, posterior(chain, others, NEGLIGIBLE));
                // What the others hardly asked for may be just what this one says.
                d = d.chance() < DOUBT ? doubt(s, posterior(chain, others, 0)) : d;
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

    /** Whether the middle of what is known lies no further off than that, on the side or sides where it would be off. */
    private static boolean ordinary(ReadingSeen seen, Elongation known) {
        Reading r = seen.reading();
        double near = ORDINARY * r.errorPercent();
        double at = Likelihood.place(r);
        boolean length = r instanceof Reading.Elongation;
        boolean drops = r instanceof Reading.Gauge g && g.drops();
        // So much below the middle, and so much above: two looks in place of a search for it.
        return (!(length || drops) || known.atMost(at - near, seen.expected()) < 0.5)
                && (!(length || !drops) || known.atMost(at + near, seen.expected()) >= 0.5);
    }

    private static Doubt doubt(ReadingSeen seen, Elongation others) {
        Reading r = seen.reading();
        int tool = WearUnknowns.place(Likelihood.tool(r));
        double p = others.mean(seen.expected(), tool, (e, bias) -> Likelihood.asLow(r, e, bias));
        double chance = r instanceof Reading.Elongation ? 2 * Math.min(p, 1 - p) : p;
        return new Doubt(seen, others.percent(seen.expected()), chance);
    }
}
