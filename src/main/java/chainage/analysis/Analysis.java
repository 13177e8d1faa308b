package chainage.analysis;

import chainage.attribution.AttributedRide;
import chainage.attribution.Attribution;
import chainage.condition.RoadWords;
import chainage.evidence.RiderEvidence;
import chainage.exposure.Exposures;
import chainage.exposure.Factors;
import chainage.ledger.Entry;
import chainage.ledger.Ledger;
import chainage.ledger.Method;
import chainage.standing.Estimates;
import chainage.standing.Standing;
import chainage.standing.Standings;
import chainage.treatment.Life;
import chainage.treatment.LifeModel;
import chainage.treatment.Lives;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/**
 * Everything that follows from the facts at one instant: the one place where the derivations are chained. What not every
 * question asks for is worked out when it is first asked for, and kept. For one thread.
 */
public final class Analysis {
    private final Instant at;
    private final List<Entry> entries;
    private final Ledger ledger;
    private final Lazy<List<AttributedRide>> rides;
    private final Lazy<Exposures> folded;
    private final Factors factors;
    private final Tables tables;
    private final boolean dated;
    private @Nullable LifeModel lifeModel;
    private @Nullable Others others;
    private @Nullable Factors learnt;
    private @Nullable Exposures exposures;
    private @Nullable Estimates estimates;
    private @Nullable List<Standing> standings;
    private @Nullable Pairs pairs;

    private Analysis(
            Instant at,
            List<Entry> entries,
            Ledger ledger,
            Lazy<List<AttributedRide>> rides,
            Lazy<Exposures> folded,
            Factors factors,
            Tables tables,
            boolean dated) {
        this.at = at;
        this.entries = entries;
        this.ledger = ledger;
        this.rides = rides;
        this.folded = folded;
        this.factors = factors;
        this.tables = tables;
        this.dated = dated;
    }

    /** What is worked out when it is first asked for. */
    private static final class Lazy<T> {
        private final Supplier<T> made;
        private @Nullable T value;

        Lazy(Supplier<T> made) {
            this.made = made;
        }

        T get() {
            T known = value;
            if (known == null) {
                known = made.get();
                value = known;
            }
            return known;
        }
    }

    /**
     * What follows from the facts.
     *
     * @param tables what the program brings along
     * @param at what is dated later is left out
     */
    public static Analysis of(Snapshot facts, Tables tables, Instant at) {
        List<Entry> entries = facts.entries();
        Ledger ledger = Ledger.asOf(entries, at);
        Factors factors = tables.factors().with(ledger.factors());
        Lazy<List<AttributedRide>> rides = new Lazy<>(() -> attributed(facts, ledger, at));
        return new Analysis(
                at, entries, ledger, rides, folded(facts, ledger, rides, factors, tables), factors, tables, true);
    }

    /**
     * What follows while many facts are stated one after the other.
     *
     * @param ledger what is stated so far, whatever its dates
     * @param entries the same
     * @param rides as they are by then
     */
    public static Analysis stating(
            Snapshot facts,
            Ledger ledger,
            List<Entry> entries,
            Supplier<List<AttributedRide>> rides,
            Tables tables,
            Instant at) {
        Factors factors = tables.factors().with(ledger.factors());
        Lazy<List<AttributedRide>> once = new Lazy<>(rides);
        return new Analysis(
                at, entries, ledger, once, folded(facts, ledger, once, factors, tables), factors, tables, false);
    }

    /** The rides that have begun, each with its verdict. */
    public static List<AttributedRide> attributed(Snapshot facts, Ledger ledger, Instant at) {
        return Attribution.of(
                ledger,
                facts.rides().stream()
                        .filter(r -> !r.ride().start().isAfter(at))
                        .toList());
    }

    private static Lazy<Exposures> folded(
            Snapshot facts, Ledger ledger, Lazy<List<AttributedRide>> rides, Factors factors, Tables tables) {
        return new Lazy<>(
                () -> Exposures.of(ledger, rides.get(), Roads.of(ledger, facts.weather(), tables, factors), factors));
    }

    /**
     * The part of it that concerns some bikes: the rides on them, the chains that are or were last on them. What all
     * chains together have taught stays.
     *
     * @param bikes names; empty for all
     */
    public Analysis about(Set<String> bikes) {
        if (bikes.isEmpty()) {
            return this;
        }
        Map<String, String> lastOn = new HashMap<>();
        ledger.installations().forEach(i -> lastOn.put(i.chain(), i.bike()));
        Predicate<String> ours = chain -> bikes.contains(lastOn.getOrDefault(chain, ""));
        Predicate<AttributedRide> there = r -> bikes.contains(String.valueOf(r.bike()));
        Analysis part = new Analysis(
                at,
                entries,
                ledger,
                new Lazy<>(() -> rides().stream().filter(there).toList()),
                new Lazy<>(() -> folded.get().only(ours, there)),
                factors,
                tables,
                dated);
        part.lifeModel = lifeModel();
        part.others = others();
        part.exposures = exposures().only(ours, there);
        part.estimates = estimates();
        part.pairs = pairs();
        part.standings = standings().stream().filter(s -> ours.test(s.chain())).toList();
        return part;
    }

    /** The instant. */
    public Instant at() {
        return at;
    }

    /** All entries, in order of their numbers. */
    public List<Entry> entries() {
        return entries;
    }

    /** The snapshot of the facts dated up to then. */
    public Ledger ledger() {
        return ledger;
    }

    /** Every activity that had begun, with its verdict, by start. */
    public List<AttributedRide> rides() {
        return rides.get();
    }

    /** What the rides did to the chains, with treatments that last as long as is learnt of them. */
    public Exposures exposures() {
        if (exposures == null) {
            exposures = folded.get().lasting(ledger, factors(), lives()::likelyMetres);
        }
        return exposures;
    }

    private LifeModel lifeModel() {
        if (lifeModel == null) {
            lifeModel = new LifeModel(Life.of(ledger, folded.get(), factors), factors, others().weighed());
        }
        return lifeModel;
    }

    /** What this ledger's own treatments have shown, all of it. */
    public RiderEvidence ownEvidence() {
        return RiderEvidence.of(ledger, folded.get(), true, 1);
    }

    /** What other riders' chains have shown, as it was brought in. */
    public Others others() {
        if (others == null) {
            others = ledger.evidence().isEmpty() ? Others.NONE : Others.of(ledger, ownEvidence(), factors);
        }
        return others;
    }

    /** The words for roads, the rider's own among them. */
    public RoadWords words() {
        return tables.words(ledger);
    }

    /** The table used, with the rider's own values in it and what the rider's treatments have taught of roads. */
    public Factors factors() {
        if (learnt == null) {
            learnt = factors.with(lifeModel().leaning());
        }
        return learnt;
    }

    /** What all chains together have taught. */
    public Estimates estimates() {
        if (estimates == null) {
            estimates = Estimates.of(lifeModel(), ledger, exposures(), factors());
        }
        return estimates;
    }

    /** The rides that two power meters recorded, and what they tell. */
    public Pairs pairs() {
        if (pairs == null) {
            pairs = Pairs.of(this);
        }
        return pairs;
    }

    /** Where the chains stand, nearest its limit first. */
    public List<Standing> standings() {
        if (standings == null) {
            standings = Standings.of(ledger, exposures(), estimates(), factors(), at);
        }
        return standings;
    }

    /** How long a product's treatment lasts, by what the treatments' standings go by. */
    public Lives lives() {
        return product ->
                product.method() == Method.NONE ? null : lifeModel().of(product).life();
    }

    /** All facts, those dated after the instant too: what a change must fit in with. */
    public Ledger facts() {
        return dated ? Ledger.of(entries) : ledger;
    }

    public Optional<Standing> standing(String chain) {
        return standings().stream().filter(s -> s.chain().equals(chain)).findFirst();
    }
}
