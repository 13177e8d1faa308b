package chainage.ledger;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * A checked snapshot of what the rider has stated: the facts in force, sorted out, with every contradiction found.
 *
 * <p>Immutable. A ledger with problems still answers; where two installations overlap the later one counts.
 */
public final class Ledger {
    private static final Comparator<Entry> BY_TIME =
            Comparator.comparing((Entry e) -> e.happened().orElse(Instant.MIN)).thenComparing(Entry::number);

    private static final Comparator<Event.Treated> LATEST_THEN_CHAIN =
            Comparator.comparing(Event.Treated::at).reversed().thenComparing(Event.Treated::chain);

    private final List<Entry> inForce;
    private final List<Entry> facts;
    private final State state = new State();
    private final Installations installations;
    private final Map<String, List<String>> following = new HashMap<>();
    private final List<Problem> problems = new ArrayList<>();

    private Ledger(List<Entry> inForce, List<Entry> facts) {
        this.inForce = inForce;
        this.facts = facts;
        // Those without a date come first.
        facts.stream().sorted(BY_TIME).forEach(e -> Kinds.of(e.event()).take(state, e.event()));
        facts.forEach(this::checkNames);
        checkTargets();
        checkCase();
        chains().keySet().forEach(chain -> checkHeard(chain, 1));
        installations = new Installations(facts);
        state.bikes.values().forEach(this::follow);
    }

    private void follow(Event.BikeDescribed b) {
        if (b.follows() != null) {
            State.add(following, b.follows(), b.bike());
        }
    }

    /**
     * Whether a description is of what nothing was said of before, so that all that is stated so far stays as it is. A
     * product may bear a method's word, and change what that word means.
     */
    boolean isFirstOf(Event described) {
        Kind<Event> kind = Kinds.of(described);
        Event.Named what = kind.describes().orElseThrow();
        String name = kind.described(described).toLowerCase(Locale.ROOT);
        return what != Event.Named.PRODUCT
                && problems.isEmpty()
                && (what == Event.Named.BIKE ? bikes() : chains())
                        .keySet().stream()
                                .noneMatch(n -> n.toLowerCase(Locale.ROOT).equals(name));
    }

    /**
     * Takes in a fact that comes after all others of its sort, in place: for {@link Growing}, to whom this ledger is
     * nobody else's.
     */
    void take(Entry e) {
        inForce.add(e);
        facts.add(e);
        Kinds.of(e.event()).take(state, e.event());
        checkNames(e);
        installations.take(e);
        if (e.event() instanceof Event.BikeDescribed b) {
            follow(b);
        } else if (e.event() instanceof Event.Treated t && t.heard() == Heard.QUIET) {
            checkHeard(t.chain(), spells(t.chain()).size() - 1);
        }
    }

    /** A ledger that can be grown in place. */
    static Ledger growing(List<Entry> entries) {
        List<Entry> inForce = inForce(entries);
        return new Ledger(new ArrayList<>(inForce), new ArrayList<>(corrected(inForce)));
    }

    /** Whether the two state the same, whatever the numbers under which they do. */
    public boolean means(Ledger other) {
        return state.all().equals(other.state.all())
                && installations().stream()
                        .map(Ledger::place)
                        .toList()
                        .equals(other.installations().stream()
                                .map(Ledger::place)
                                .toList());
    }

    private static Installation place(Installation i) {
        return new Installation(i.chain(), i.bike(), i.interval(), 0);
    }

    /**
     * The snapshot of all entries.
     *
     * @param entries in order of their numbers
     */
    public static Ledger of(List<Entry> entries) {
        List<Entry> inForce = inForce(entries);
        return new Ledger(inForce, corrected(inForce));
    }

    /**
     * The snapshot as of an instant: facts dated later are left out; facts without a date of their own stay.
     *
     * @param entries in order of their numbers
     */
    public static Ledger asOf(List<Entry> entries, Instant at) {
        List<Entry> inForce = inForce(entries);
        return new Ledger(
                inForce,
                corrected(inForce).stream()
                        .filter(e -> e.happened().filter(t -> t.isAfter(at)).isEmpty())
                        .toList());
    }

    /**
     * The entries that were not taken back, as they were written.
     *
     * @param entries in order of their numbers
     */
    public static List<Entry> inForce(List<Entry> entries) {
        // From the last one back, so that an undone undo is known before its target is reached.
        Set<Long> undone = new HashSet<>();
        List<Entry> kept = new ArrayList<>();
        for (int i = entries.size() - 1; i >= 0; i--) {
            Entry e = entries.get(i);
            if (undone.contains(e.number())) {
                continue;
            }
            if (e.event() instanceof Event.Undone u) {
                undone.add(u.target());
            }
            kept.add(e);
        }
        Collections.reverse(kept);
        return List.copyOf(kept);
    }

    /**
     * The facts with all corrections made (new names, new dates, two chains that were one), and with the present words for
     * methods that had other words in earlier versions. The entries stay as they were written; only what is read out of
     * them changes, and changes back when the correction is taken back.
     *
     * @param inForce entries in order of their numbers
     * @return facts under their own numbers, in the same order; without corrections, undoings, and descriptions of chains
     *     that were merged into others
     */
    private static List<Entry> corrected(List<Entry> inForce) {
        SortedMap<Long, Entry> facts = new TreeMap<>();
        inForce.forEach(e -> Kinds.of(e.event()).put(facts, e, e.event()));
        return List.copyOf(plainProductsToday(facts.values()));
    }

    /** A product of the rider's own that bears a method's present word is not taken for the plain one. */
    private static List<Entry> plainProductsToday(Collection<Entry> facts) {
        Set<String> own = new HashSet<>();
        facts.forEach(e -> Kinds.of(e.event())
                .describes()
                .filter(what -> what == Event.Named.PRODUCT)
                .ifPresent(what -> own.add(Kinds.of(e.event()).described(e.event()))));
        Rewrite change = new Rewrite() {
            @Override
            public String name(Event.Named what, String name) {
                String today = Method.today(name);
                return what != Event.Named.PRODUCT || own.contains(name) || own.contains(today) ? name : today;
            }
        };
        return facts.stream().map(e -> e.with(change)).toList();
    }

    /** Every name an entry uses must be described by an entry in force; an undone description leaves its users bare. */
    private void checkNames(Entry entry) {
        entry.with(new Rewrite() {
            @Override
            public String name(Event.Named what, String name) {
                boolean known = switch (what) {
                    case BIKE -> bikes().containsKey(name);
                    case CHAIN -> chains().containsKey(name);
                    case PRODUCT -> product(name).isPresent();
                };
                if (!known) {
                    problems.add(new Problem.Unknown(entry.number(), what, name));
                }
                return name;
            }
        });
    }

    /** What is taken back or redated was stated before. */
    private void checkTargets() {
        for (Entry e : inForce) {
            Kinds.of(e.event())
                    .target(e.event())
                    .filter(target -> target < 1 || target >= e.number())
                    .ifPresent(target -> problems.add(new Problem.NotBefore(e.number(), target)));
        }
    }

    /** Names are compared without case, so two that differ by case alone could not be told apart when typed. */
    private void checkCase() {
        Map<String, Entry> seen = new HashMap<>();
        for (Entry e : facts) {
            Kind<Event> kind = Kinds.of(e.event());
            kind.describes().ifPresent(what -> {
                String name = kind.described(e.event());
                Entry same = seen.putIfAbsent(what.word() + " " + name.toLowerCase(Locale.ROOT), e);
                if (same != null && !same.describes(what, name)) {
                    String first = Kinds.of(same.event()).described(same.event());
                    problems.add(new Problem.Alike(what, first, same.number(), name, e.number()));
                }
            });
        }
    }

    /** A treatment heard at its end cannot have been quiet until the next. */
    /** @param from the first of its spells to be looked at */
    private void checkHeard(String chain, int from) {
        List<TreatmentInterval> spells = spells(chain);
        for (int i = Math.max(1, from); i < spells.size(); i++) {
            Event.Remarked noise = spells.get(i - 1).noise();
            Event.Treated next = spells.get(i).treated();
            if (noise != null && next != null && next.heard() == Heard.QUIET) {
                problems.add(new Problem.NoisyAndQuiet(chain, noise.at(), number(noise), next.at(), number(next)));
            }
        }
    }

    private long number(Event fact) {
        return facts.stream()
                .filter(e -> e.event() == fact)
                .mapToLong(Entry::number)
                .findFirst()
                .orElseThrow();
    }

    /** The entries in force as they were written, corrections among them, in order of their numbers. */
    public List<Entry> inForce() {
        return inForce;
    }

    /** What they state with all corrections made, in order of their numbers. */
    public List<Entry> facts() {
        return facts;
    }

    /** Bikes by name. */
    public SortedMap<String, Event.BikeDescribed> bikes() {
        return Collections.unmodifiableSortedMap(state.bikes);
    }

    /** Chains by name. */
    public SortedMap<String, Event.ChainDescribed> chains() {
        return Collections.unmodifiableSortedMap(state.chains);
    }

    /** Products by name, those that the rider entered. */
    public SortedMap<String, Event.ProductDescribed> products() {
        return Collections.unmodifiableSortedMap(state.products);
    }

    /** A product that the rider entered, or the plain product of a method under the method's own word. */
    public Optional<Event.ProductDescribed> product(String name) {
        Event.ProductDescribed entered = state.products.get(name);
        return entered != null
                ? Optional.of(entered)
                : Method.of(name)
                        .map(m -> new Event.ProductDescribed(
                                state.products.containsKey(m.word()) ? name : m.word(), m, null, null));
    }

    /** All installations, by start. */
    public List<Installation> installations() {
        return installations.intervals();
    }

    /** The chain on this bike at that instant. */
    public Optional<Installation> installedOn(String bike, Instant at) {
        return installations.onBike(bike, at);
    }

    /** The chains then on the bikes that follow this one: each runs whenever this one is ridden. */
    public List<Installation> followers(String bike, Instant at) {
        return following.getOrDefault(bike, List.of()).stream()
                .flatMap(b -> installedOn(b, at).stream())
                .toList();
    }

    /** The bike whose rides this one runs in: the one that it follows, else itself. */
    public String ridden(String bike) {
        Event.BikeDescribed described = state.bikes.get(bike);
        return described == null || described.follows() == null ? bike : described.follows();
    }

    /** False where a ride on this bike is to count for no chain: it has none, or its chains are noted only later. */
    public boolean wantsChain(String bike, Instant ride) {
        Event.BikeDescribed described = state.bikes.get(bike);
        return described == null || described.wantsChain(ride);
    }

    /** Where this chain is at that instant. */
    public Optional<Installation> installationOf(String chain, Instant at) {
        return installations.ofChain(chain, at);
    }

    /**
     * How clean a chain was when it was treated. A waxed chain that is waxed again without cleaning is as clean as it was
     * for the wax before: nothing that needs degreasing came between. Common practice.
     */
    public Cleaning cleaning(Event.Treated treated) {
        if (treated.cleaning() != Cleaning.NONE || !waxes(treated)) {
            return treated.cleaning();
        }
        return treatments(treated.chain()).stream()
                .filter(t -> t.at().isBefore(treated.at()))
                .reduce((a, b) -> b)
                .filter(this::waxes)
                .map(this::cleaning)
                .orElse(Cleaning.NONE);
    }

    private boolean waxes(Event.Treated treated) {
        return product(treated.product()).filter(p -> p.method().waxes()).isPresent();
    }

    /** Treatments of a chain, by time. */
    public List<Event.Treated> treatments(String chain) {
        return Collections.unmodifiableList(state.treatments.getOrDefault(chain, List.of()));
    }

    /** Treatments with a product, whatever the chain, by time; those of one instant by chain. */
    public List<Event.Treated> treatmentsWith(String product) {
        return state.treatments.values().stream()
                .flatMap(List::stream)
                .filter(t -> t.product().equals(product))
                .sorted(Comparator.comparing(Event.Treated::at).thenComparing(Event.Treated::chain))
                .toList();
    }

    /** The last treatment with a product by an instant, whatever the chain; of those of one instant the first chain's. */
    public Optional<Event.Treated> lastTreatmentWith(String product, Instant at) {
        Event.Treated last = null;
        for (List<Event.Treated> byTime : state.treatments.values()) {
            Event.Treated own = null;
            for (int i = byTime.size() - 1; i >= 0; i--) {
                Event.Treated t = byTime.get(i);
                if (own != null && !t.at().equals(own.at())) {
                    break;
                }
                if (!t.at().isAfter(at) && t.product().equals(product)) {
                    own = t; // of those of one instant the first
                }
            }
            if (own != null && (last == null || LATEST_THEN_CHAIN.compare(own, last) < 0)) {
                last = own;
            }
        }
        return Optional.ofNullable(last);
    }

    /** Packages of a product bought, by time. */
    public List<Event.Bought> purchases(String product) {
        return Collections.unmodifiableList(state.purchases.getOrDefault(product, List.of()));
    }

    /** Readings of a chain, by time. */
    public List<Event.Measured> readings(String chain) {
        return Collections.unmodifiableList(state.readings.getOrDefault(chain, List.of()));
    }

    /** Remarks on a chain, by time. */
    public List<Event.Remarked> remarks(String chain) {
        return Collections.unmodifiableList(state.remarks.getOrDefault(chain, List.of()));
    }

    /** The first remark that takes a chain out of use, damaged or retired. */
    public Optional<Event.Remarked> outOfService(String chain) {
        return remarks(chain).stream()
                .filter(r -> r.remark() == Remark.DAMAGED || r.remark() == Remark.RETIRED)
                .findFirst();
    }

    /**
     * The time from one treatment of a chain to the next.
     *
     * @param treated what it starts with; null before the first treatment
     * @param noise the first noise heard in it; null for none
     */
    public record TreatmentInterval(Event.@Nullable Treated treated, Event.@Nullable Remarked noise) {
        /** True when it starts at the instant of that treatment. */
        public boolean startsWith(Event.@Nullable Treated other) {
            return treated != null && other != null && treated.at().equals(other.at());
        }
    }

    /**
     * The spells of a chain, by time; at least one, since each chain has a time before its first treatment. Of a noise
     * and a treatment at one instant, such as two bare dates, the one told later came later.
     */
    public List<TreatmentInterval> spells(String chain) {
        List<TreatmentInterval> spells = new ArrayList<>();
        TreatmentInterval now = new TreatmentInterval(null, null);
        for (Event event : state.stories.getOrDefault(chain, List.of())) {
            if (event instanceof Event.Treated t) {
                spells.add(now);
                now = new TreatmentInterval(t, null);
            } else if (event instanceof Event.Remarked r && r.remark() == Remark.NOISY && now.noise() == null) {
                now = new TreatmentInterval(now.treated(), r);
            }
        }
        spells.add(now);
        return spells;
    }

    /** The first noise heard on a chain since its last treatment. */
    public Optional<Event.Remarked> noiseSinceTreatment(String chain) {
        List<TreatmentInterval> spells = spells(chain);
        return Optional.ofNullable(spells.get(spells.size() - 1).noise());
    }

    /** The rider's flags on a ride. */
    public Optional<Flags> flags(String ride) {
        return Optional.ofNullable(state.flags.get(ride));
    }

    /** The bike the rider said a ride was on. */
    public Optional<String> bikeOf(String ride) {
        return Optional.ofNullable(state.bikeOfRide.get(ride));
    }

    /** What a table says of a ride. */
    public Optional<Event.Told> told(String ride) {
        return Optional.ofNullable(state.told.get(ride));
    }

    /** The bike that a table's word for one stands for, whatever it is called since. */
    public Optional<String> toldBike(String written) {
        return state.told.values().stream()
                .filter(t -> t.bike() != null && written.equals(t.written()))
                .map(t -> String.valueOf(t.bike()))
                .min(Comparator.naturalOrder());
    }

    /** Whether the rider said that an activity is a bike ride. */
    public Optional<Boolean> counts(String ride) {
        return Optional.ofNullable(state.counts.get(ride));
    }

    /** What the rider said a ride repeats; its own id when the rider said that it repeats none. */
    public Optional<String> twinOf(String ride) {
        return Optional.ofNullable(state.twins.get(ride));
    }

    /** All that the rider said of this kind, by the ride that repeats. */
    public Map<String, String> twins() {
        return Collections.unmodifiableMap(state.twins);
    }

    /** The matching rules of one kind, oldest first. */
    public <W extends Rule.When> Stream<Rule> rules(Class<W> kind) {
        return state.rules.values().stream().filter(r -> kind.isInstance(r.when()));
    }

    /** The bike that rides are on where nothing else is said; empty where there is none. */
    public Optional<String> defaultBike() {
        return rules(Rule.Otherwise.class)
                .map(Rule::bike)
                .filter(Objects::nonNull)
                .findFirst();
    }

    /** All matching rules, oldest first. */
    public List<Rule> rules() {
        return List.copyOf(state.rules.values());
    }

    /** The rider's own words for a road, oldest first. */
    public List<Event.RoadWordSet> roadWords() {
        return List.copyOf(state.roadWords.values());
    }

    /** What other riders' chains have shown, a text a rider, by the word under which it was brought in. */
    public SortedMap<String, List<String>> evidence() {
        return Collections.unmodifiableSortedMap(state.evidence);
    }

    /** Other riders' words for this rider's products, oldest first. */
    public List<Event.ProductsSame> sameProducts() {
        return List.copyOf(state.same);
    }

    /** Power meters whose place the rider stated, by type and serial as {@code bike_power:31000417}. */
    public SortedMap<String, Event.MeterPlaced> meters() {
        return Collections.unmodifiableSortedMap(state.meters);
    }

    /** The rider's own values for rows of the factor table, by key. */
    public SortedMap<String, Event.FactorSet> factors() {
        return Collections.unmodifiableSortedMap(state.factors);
    }

    /** What the rider settled for all questions, by the setting's name; none is empty. */
    public SortedMap<String, List<String>> settings() {
        return Collections.unmodifiableSortedMap(state.settings);
    }

    /** The moving speeds between which an activity of unstated sport counts as a ride. */
    public Event.SpeedBandSet speeds() {
        return state.speeds;
    }

    /** Every contradiction, in order of the entries. */
    public List<Problem> problems() {
        List<Problem> all = new ArrayList<>(problems);
        all.addAll(installations.problems());
        return List.copyOf(all);
    }
}
