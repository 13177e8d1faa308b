package chainage.analysis;

import chainage.attribution.AttributedRide;
import chainage.attribution.Attribution;
import chainage.attribution.Overlap;
import chainage.condition.RoadWords;
import chainage.evidence.RiderEvidence;
import chainage.exposure.Exposures;
import chainage.exposure.Factors;
import chainage.exposure.Leaning;
import chainage.ledger.Entry;
import chainage.ledger.Ledger;
import chainage.ledger.Method;
import chainage.quantity.Lazy;
import chainage.quantity.LocalClock;
import chainage.standing.Estimates;
import chainage.standing.Habits;
import chainage.standing.Reached;
import chainage.standing.Standing;
import chainage.standing.Standings;
import chainage.treatment.Life;
import chainage.treatment.LifeModel;
import chainage.treatment.Lives;
import chainage.wear.WearModel;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/**
 * Everything that follows from the facts at one instant: the one place where the derivations are chained. What not every
 * question asks for is worked out when it is first asked for, and kept. For one thread.
 */
public final class Analysis {
    /**
     * What was worked out before.
     *
     * @param gist of these very facts
     * @param whole all of it, worked out when it is asked for
     */
    private record Recalled(Gist gist, Lazy<Analysis> whole) {}

    private final Instant at;
    private final List<Entry> entries;
    private final Ledger ledger;
    private final Lazy<List<AttributedRide>> rides;
    private final Lazy<Exposures> folded;
    private final Factors factors;
    private final Tables tables;
    private final boolean dated;
    private final @Nullable Recalled recalled;
    private final Map<String, List<WearModel.Doubt>> doubts = new HashMap<>();
    private @Nullable LifeModel lifeModel;
    private @Nullable Others others;
    private @Nullable Factors learnt;
    private @Nullable Exposures exposures;
    private @Nullable Estimates estimates;
    private @Nullable List<Reached> reached;
    private @Nullable List<Standing> standings;
    private @Nullable List<Overlap> overlaps;
    private @Nullable List<Bare> bare;
    private @Nullable Pairs pairs;

    private Analysis(
            Instant at,
            List<Entry> entries,
            Ledger ledger,
            Lazy<List<AttributedRide>> rides,
            Lazy<Exposures> folded,
            Factors factors,
            Tables tables,
            boolean dated,
            @Nullable Recalled recalled) {
        this.at = at;
        this.recalled = recalled;
        this.entries = entries;
        this.ledger = ledger;
        this.rides = rides;
        this.folded = folded;
        this.factors = factors;
        this.tables = tables;
        this.dated = dated;
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
                at, entries, ledger, rides, folded(facts, ledger, rides, factors, tables), factors, tables, true, null);
    }

    /**
     * The same from what was worked out before: where the chains stand at once, all else from the rides when it is asked
     * for.
     *
     * @param entries all of them
     * @param gist of these very facts, which holds at that instant
     * @param whole works out all of it
     */
    public static Analysis recalled(
            List<Entry> entries, Gist gist, Tables tables, Instant at, Supplier<Analysis> whole) {
        Ledger ledger = Ledger.asOf(entries, at);
        Factors factors = tables.factors().with(ledger.factors());
        Lazy<Analysis> once = new Lazy<>(whole);
        Analysis brief = new Analysis(
                at,
                entries,
                ledger,
                new Lazy<>(() -> once.get().rides()),
                new Lazy<>(() -> once.get().folded.get()),
                factors,
                tables,
                true,
                new Recalled(gist, once));
        brief.learnt = factors.with(gist.leaning());
        brief.overlaps = List.of();
        brief.bare = gist.bare();
        brief.doubts.putAll(gist.doubts(ledger));
        return brief;
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
                at, entries, ledger, once, folded(facts, ledger, once, factors, tables), factors, tables, false, null);
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
        return new Lazy<>(() ->
                Exposures.of(ledger, rides.get(), RoadEvidence.of(ledger, facts.weather(), tables, factors), factors));
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
                dated,
                null);
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
        if (exposures == null && recalled != null) {
            exposures = recalled.whole().get().exposures();
        }
        if (exposures == null) {
            exposures = folded.get().lasting(ledger, factors(), lives()::likelyMetres);
        }
        return exposures;
    }

    /** How long treatments last, as all of them have taught. */
    LifeModel lifeModel() {
        if (lifeModel == null && recalled != null) {
            lifeModel = recalled.whole().get().lifeModel();
        }
        if (lifeModel == null) {
            lifeModel = new LifeModel(Life.of(ledger, folded.get(), factors), factors, others().weighed());
        }
        return lifeModel;
    }

    /** What this ledger's own chains have shown, all but the rides with two power meters: what tells it from others. */
    public RiderEvidence ownEvidence() {
        return RiderEvidence.of(ledger, folded.get(), List.of(), factors, true, 1);
    }

    /** What other riders' chains have shown, as it was brought in. */
    public Others others() {
        if (others == null) {
            others = ledger.evidence().isEmpty()
                    ? Others.NONE
                    : Others.of(ledger, ownEvidence(), factors, tables.gleaned());
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
            learnt = factors.with(leaning());
        }
        return learnt;
    }

    /** What all chains together have taught. */
    public Estimates estimates() {
        if (estimates == null && recalled != null) {
            estimates = recalled.whole().get().estimates();
        }
        if (estimates == null) {
            estimates = Estimates.of(
                    lifeModel(), ledger, exposures(), factors(), others().wear().taught());
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
            standings = Standings.of(
                    ledger,
                    reached(),
                    recalled == null
                            ? Habits.of(exposures(), factors(), at)
                            : recalled.gist().habits(),
                    factors(),
                    at);
        }
        return standings;
    }

    /** How far the chains in use have come. */
    List<Reached> reached() {
        if (reached == null) {
            reached = recalled == null
                    ? Reached.of(ledger, exposures(), estimates(), factors(), at)
                    : recalled.gist()
                            .reached(
                                    ledger,
                                    factors(),
                                    at,
                                    new Gist.Whole(
                                            new Lazy<>(this::exposures),
                                            new Lazy<>(
                                                    () -> recalled.whole().get().reached())));
        }
        return reached;
    }

    /** How wet and dirty roads count with this rider, as learnt. */
    Leaning leaning() {
        return recalled == null ? lifeModel().leaning() : recalled.gist().leaning();
    }

    /** Readings of a chain that do not fit all else, worst first. */
    List<WearModel.Doubt> doubts(String chain) {
        List<WearModel.Doubt> known = doubts.get(chain);
        if (known == null) {
            known = estimates().wear().doubts(chain);
            doubts.put(chain, known);
        }
        return known;
    }

    /** Rides of one bike at one time, where the rider does not say that they were two. */
    public List<Overlap> overlaps() {
        if (overlaps == null) {
            overlaps = Overlap.of(ledger, rides()).stream()
                    .filter(o -> !o.stated())
                    .toList();
        }
        return overlaps;
    }

    /** Counted rides that lack a chain, by bike. */
    public List<Bare> bare() {
        if (bare == null) {
            bare = Bare.of(exposures());
        }
        return bare;
    }

    /** Metres of all of these. */
    public double bareMetres() {
        return recalled == null
                ? exposures().unattributedMetres()
                : recalled.gist().bareMetres();
    }

    /** When the last ride of a bike began. */
    public Optional<Instant> lastRide(String bike) {
        return recalled != null
                ? Optional.ofNullable(recalled.gist().last().get(bike))
                : rides().stream()
                        .filter(r -> r.counted() && bike.equals(r.bike()))
                        .reduce((a, b) -> b)
                        .map(r -> r.filed().ride().start());
    }

    /** How long a product's treatment lasts, by what the treatments' standings go by. */
    public Lives lives() {
        return product ->
                product.method() == Method.NONE ? null : lifeModel().of(product).life();
    }

    /**
     * The gist of it.
     *
     * @param all facts that it follows from
     * @param clock with what their rides say
     * @return empty where not even a short answer can do without rides: of two outings at one time, or of rides that are
     *     told apart by more digits than usual
     */
    public Optional<Gist> gist(Snapshot all, LocalClock clock) {
        boolean plain =
                all.rides().stream().allMatch(r -> r.id().equals(r.ride().key().shortestId()));
        if (!plain || !overlaps().isEmpty()) {
            return Optional.empty();
        }
        List<Instant> dates = Gist.dates(all);
        Instant from = dates.stream()
                .filter(t -> !t.isAfter(at))
                .max(Instant::compareTo)
                .orElse(Instant.EPOCH);
        Map<String, Instant> last = new TreeMap<>();
        for (AttributedRide r : rides()) {
            if (r.counted() && r.bike() != null) {
                last.put(r.bike(), r.filed().ride().start());
            }
        }
        return Optional.of(new Gist(
                from,
                dates.stream()
                        .filter(t -> t.isAfter(at))
                        .min(Instant::compareTo)
                        .orElse(null),
                leaning(),
                reached().stream()
                        .map(r -> Gist.Chain.of(r, doubts(r.exposure().chain().chain())))
                        .toList(),
                Habits.of(exposures(), factors(), from),
                bare(),
                bareMetres(),
                last,
                clock.abroad()));
    }

    /** All facts, those dated after the instant too: what a change must fit in with. */
    public Ledger facts() {
        return dated ? Ledger.of(entries) : ledger;
    }

    public Optional<Standing> standing(String chain) {
        return standings().stream().filter(s -> s.chain().equals(chain)).findFirst();
    }
}
