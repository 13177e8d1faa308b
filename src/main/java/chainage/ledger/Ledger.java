package chainage.ledger;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
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
    /** Median moving speeds of a cyclist, km/h; our guess, for activities of unstated sport. */
    public static final Event.SpeedBandSet USUAL_SPEEDS = new Event.SpeedBandSet(8, 55);

    private static final Comparator<Entry> BY_TIME = Comparator.comparing(
                    (Entry e) -> e.event().happened().orElse(Instant.MIN))
            .thenComparing(Entry::number);

    private final List<Entry> inForce;
    private final List<Entry> facts;
    private final Map<String, List<Event>> stories = new HashMap<>();
    private final SortedMap<String, Event.BikeDescribed> bikes = new TreeMap<>();
    private final SortedMap<String, Event.ChainDescribed> chains = new TreeMap<>();
    private final SortedMap<String, Event.ProductDescribed> products = new TreeMap<>();
    private final Map<String, List<Event.Treated>> treatments = new HashMap<>();
    private final Map<String, List<Event.Bought>> purchases = new HashMap<>();
    private final Map<String, List<Event.Measured>> readings = new HashMap<>();
    private final Map<String, List<Event.Remarked>> remarks = new HashMap<>();
    private final Map<String, Flags> flags = new HashMap<>();
    private final Map<String, String> bikeOfRide = new HashMap<>();
    private final Map<String, Boolean> counts = new HashMap<>();
    private final Map<String, String> twins = new HashMap<>();
    private final Map<Rule.When, Rule> rules = new LinkedHashMap<>();
    private final SortedMap<String, Event.FactorSet> factors = new TreeMap<>();
    private final Map<String, Event.RoadWordSet> roadWords = new LinkedHashMap<>();
    private Event.SpeedBandSet speeds = USUAL_SPEEDS;
    private final List<Installation> installations;
    private final Map<String, List<Installation>> installationsByBike = new HashMap<>();
    private final Map<String, List<Installation>> installationsByChain = new HashMap<>();
    private final List<Problem> problems = new ArrayList<>();

    private Ledger(List<Entry> inForce, List<Entry> facts) {
        this.inForce = inForce;
        this.facts = facts;
        facts.forEach(e -> take(e.event()));
        facts.stream().sorted(BY_TIME).forEach(e -> date(e.event()));
        for (Entry e : facts) {
            checkNames(e);
        }
        checkTargets();
        checkCase();
        Installations built = new Installations(facts);
        installations = built.intervals();
        for (Installation i : installations) {
            installationsByBike
                    .computeIfAbsent(i.bike(), b -> new ArrayList<>())
                    .add(i);
            installationsByChain
                    .computeIfAbsent(i.chain(), c -> new ArrayList<>())
                    .add(i);
        }
        problems.addAll(built.problems());
    }

    /**
     * The snapshot of all entries.
     *
     * @param entries in order of their numbers
     */
    public static Ledger of(List<Entry> entries) {
        List<Entry> inForce = inForce(entries);
        return new Ledger(inForce, Corrections.applied(inForce));
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
                Corrections.applied(inForce).stream()
                        .filter(e ->
                                e.event().happened().filter(t -> t.isAfter(at)).isEmpty())
                        .toList());
    }

    private static List<Entry> inForce(List<Entry> entries) {
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

    private void take(Event event) {
        if (event instanceof Event.BikeDescribed e) {
            bikes.put(e.bike(), e);
        } else if (event instanceof Event.ChainDescribed e) {
            chains.put(e.chain(), e);
        } else if (event instanceof Event.ProductDescribed e) {
            products.put(e.product(), e);
        } else if (event instanceof Event.Tagged e) {
            e.rides().forEach(r -> flags.merge(r, Flags.NONE.with(e), (old, now) -> old.with(e)));
        } else if (event instanceof Event.Untagged e) {
            e.rides().forEach(flags::remove);
        } else if (event instanceof Event.RidesAssigned e) {
            e.rides().forEach(r -> set(bikeOfRide, r, e.bike()));
        } else if (event instanceof Event.RidesCounted e) {
            e.rides().forEach(r -> set(counts, r, e.counts()));
        } else if (event instanceof Event.TwinStated e) {
            set(twins, e.ride(), e.of());
        } else if (event instanceof Event.RuleSet e) {
            rules.remove(e.rule().when());
            rules.put(e.rule().when(), e.rule());
        } else if (event instanceof Event.RuleDropped e) {
            rules.remove(e.when());
        } else if (event instanceof Event.SpeedBandSet e) {
            speeds = e;
        } else if (event instanceof Event.RoadWordSet e) {
            String key = e.word().toLowerCase(Locale.ROOT);
            roadWords.remove(key);
            set(roadWords, key, e.meaning() == null ? null : e);
        } else if (event instanceof Event.FactorSet e) {
            set(factors, e.key(), e.value() == null ? null : e);
        } else if (event.happened().isEmpty() && !(event instanceof Event.WeatherAdded)) {
            throw new AssertionError(event);
        }
    }

    /** Dated facts, which come by time. Installations are built apart, since they span time. */
    private void date(Event event) {
        if (event instanceof Event.Treated e) {
            treatments.computeIfAbsent(e.chain(), c -> new ArrayList<>()).add(e);
            stories.computeIfAbsent(e.chain(), c -> new ArrayList<>()).add(e);
        } else if (event instanceof Event.Bought e) {
            purchases.computeIfAbsent(e.product(), p -> new ArrayList<>()).add(e);
        } else if (event instanceof Event.Measured e) {
            readings.computeIfAbsent(e.chain(), c -> new ArrayList<>()).add(e);
        } else if (event instanceof Event.Remarked e) {
            remarks.computeIfAbsent(e.chain(), c -> new ArrayList<>()).add(e);
            stories.computeIfAbsent(e.chain(), c -> new ArrayList<>()).add(e);
        } else if (event.happened().isPresent()
                && !(event instanceof Event.Installed || event instanceof Event.Removed)) {
            throw new AssertionError(event);
        }
    }

    private static <V> void set(Map<String, V> map, String key, @Nullable V value) {
        if (value == null) {
            map.remove(key);
        } else {
            map.put(key, value);
        }
    }

    /** Every name an entry uses must be described by an entry in force; an undone description leaves its users bare. */
    private void checkNames(Entry entry) {
        Event event = entry.event();
        if (event instanceof Event.Installed e) {
            need(entry, "chain", e.chain(), chains);
            need(entry, "bike", e.bike(), bikes);
        } else if (event instanceof Event.Removed e) {
            need(entry, "chain", e.chain(), chains);
        } else if (event instanceof Event.Treated e) {
            need(entry, "chain", e.chain(), chains);
            if (product(e.product()).isEmpty()) {
                need(entry, "product", e.product(), products);
            }
        } else if (event instanceof Event.Bought e) {
            need(entry, "product", e.product(), products);
        } else if (event instanceof Event.Measured e) {
            need(entry, "chain", e.chain(), chains);
        } else if (event instanceof Event.Remarked e) {
            need(entry, "chain", e.chain(), chains);
        } else if (event instanceof Event.RidesAssigned e && e.bike() != null) {
            need(entry, "bike", e.bike(), bikes);
        } else if (event instanceof Event.RuleSet e && e.rule().bike() != null) {
            need(entry, "bike", e.rule().bike(), bikes);
        }
    }

    /** What is taken back or redated was stated before. */
    private void checkTargets() {
        for (Entry e : inForce) {
            long target = e.event() instanceof Event.Undone u
                    ? u.target()
                    : e.event() instanceof Event.Redated r ? r.target() : 0;
            boolean points = e.event() instanceof Event.Undone || e.event() instanceof Event.Redated;
            if (points && (target < 1 || target >= e.number())) {
                problems.add(new Problem(
                        "entry " + e.number() + " speaks of entry " + target + ", which was not stated before it",
                        "take it back: chainage undo " + e.number(),
                        List.of(e.number())));
            }
        }
    }

    /** Names are compared without case, so two that differ by case alone could not be told apart when typed. */
    private void checkCase() {
        Map<Named, Entry> seen = new HashMap<>();
        for (Entry e : facts) {
            Named named = Named.of(e.event());
            Entry same = named == null ? null : seen.putIfAbsent(named.folded(), e);
            Named before = same == null ? null : Named.of(same.event());
            if (same != null && named != null && before != null && !before.equals(named)) {
                problems.add(new Problem(
                        named.kind() + "s \"" + before.name() + "\" and \"" + named.name() + "\" differ by case alone",
                        "take one of them back: chainage undo " + e.number(),
                        List.of(same.number(), e.number())));
            }
        }
    }

    /** What an entry gives a name to. */
    private record Named(String kind, String name) {
        static @Nullable Named of(Event event) {
            if (event instanceof Event.BikeDescribed b) {
                return new Named("bike", b.bike());
            }
            if (event instanceof Event.ChainDescribed c) {
                return new Named("chain", c.chain());
            }
            return event instanceof Event.ProductDescribed p ? new Named("product", p.product()) : null;
        }

        Named folded() {
            return new Named(kind, name.toLowerCase(Locale.ROOT));
        }
    }

    private void need(Entry entry, String kind, String name, Map<String, ?> known) {
        if (!known.containsKey(name)) {
            problems.add(new Problem(
                    "entry " + entry.number() + " speaks of " + kind + " \"" + name + "\", which is not in the ledger",
                    "add it again: chainage " + kind + " add \"" + name + "\", or take the entry back: chainage undo "
                            + entry.number(),
                    List.of(entry.number())));
        }
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
        return Collections.unmodifiableSortedMap(bikes);
    }

    /** Chains by name. */
    public SortedMap<String, Event.ChainDescribed> chains() {
        return Collections.unmodifiableSortedMap(chains);
    }

    /** Products by name, those that the rider entered. */
    public SortedMap<String, Event.ProductDescribed> products() {
        return Collections.unmodifiableSortedMap(products);
    }

    /** A product that the rider entered, or the plain product of a method under the method's own word. */
    public Optional<Event.ProductDescribed> product(String name) {
        Event.ProductDescribed entered = products.get(name);
        return entered != null
                ? Optional.of(entered)
                : Method.of(name).map(m -> new Event.ProductDescribed(name, m, null, null));
    }

    /** All installations, by start. */
    public List<Installation> installations() {
        return installations;
    }

    /** The chain on this bike at that instant. */
    public Optional<Installation> installedOn(String bike, Instant at) {
        Installation found = null;
        for (Installation i : installationsByBike.getOrDefault(bike, List.of())) {
            if (i.interval().contains(at)) {
                found = i; // the later of two that overlap
            }
        }
        return Optional.ofNullable(found);
    }

    /** Where this chain is at that instant. */
    public Optional<Installation> installationOf(String chain, Instant at) {
        return installationsByChain.getOrDefault(chain, List.of()).stream()
                .filter(i -> i.interval().contains(at))
                .reduce((a, b) -> b);
    }

    /** Treatments of a chain, by time. */
    public List<Event.Treated> treatments(String chain) {
        return Collections.unmodifiableList(treatments.getOrDefault(chain, List.of()));
    }

    /** Treatments with a product, whatever the chain, by time; those of one instant by chain. */
    public List<Event.Treated> treatmentsWith(String product) {
        return treatments.values().stream()
                .flatMap(List::stream)
                .filter(t -> t.product().equals(product))
                .sorted(Comparator.comparing(Event.Treated::at).thenComparing(Event.Treated::chain))
                .toList();
    }

    /** Packages of a product bought, by time. */
    public List<Event.Bought> purchases(String product) {
        return Collections.unmodifiableList(purchases.getOrDefault(product, List.of()));
    }

    /** Readings of a chain, by time. */
    public List<Event.Measured> readings(String chain) {
        return Collections.unmodifiableList(readings.getOrDefault(chain, List.of()));
    }

    /** Remarks on a chain, by time. */
    public List<Event.Remarked> remarks(String chain) {
        return Collections.unmodifiableList(remarks.getOrDefault(chain, List.of()));
    }

    /** The first remark that takes a chain out of use, damaged or retired. */
    public Optional<Event.Remarked> condemned(String chain) {
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
    public record Spell(Event.@Nullable Treated treated, Event.@Nullable Remarked noise) {
        /** True when it starts at the instant of that treatment. */
        public boolean startsWith(Event.@Nullable Treated other) {
            return treated != null && other != null && treated.at().equals(other.at());
        }
    }

    /**
     * The spells of a chain, by time; at least one, since each chain has a time before its first treatment. Of a noise
     * and a treatment at one instant, such as two bare dates, the one told later came later.
     */
    public List<Spell> spells(String chain) {
        List<Spell> spells = new ArrayList<>();
        Spell now = new Spell(null, null);
        for (Event event : stories.getOrDefault(chain, List.of())) {
            if (event instanceof Event.Treated t) {
                spells.add(now);
                now = new Spell(t, null);
            } else if (event instanceof Event.Remarked r && r.remark() == Remark.NOISY && now.noise() == null) {
                now = new Spell(now.treated(), r);
            }
        }
        spells.add(now);
        return spells;
    }

    /** The first noise heard on a chain since its last treatment. */
    public Optional<Event.Remarked> noiseSinceTreatment(String chain) {
        List<Spell> spells = spells(chain);
        return Optional.ofNullable(spells.get(spells.size() - 1).noise());
    }

    /** The rider's flags on a ride. */
    public Optional<Flags> flags(String ride) {
        return Optional.ofNullable(flags.get(ride));
    }

    /** The bike the rider said a ride was on. */
    public Optional<String> bikeOf(String ride) {
        return Optional.ofNullable(bikeOfRide.get(ride));
    }

    /** Whether the rider said that an activity is a bike ride. */
    public Optional<Boolean> counts(String ride) {
        return Optional.ofNullable(counts.get(ride));
    }

    /** What the rider said a ride repeats; its own id when the rider said that it repeats none. */
    public Optional<String> twinOf(String ride) {
        return Optional.ofNullable(twins.get(ride));
    }

    /** All that the rider said of this kind, by the ride that repeats. */
    public Map<String, String> twins() {
        return Collections.unmodifiableMap(twins);
    }

    /** The matching rules of one kind, oldest first. */
    public <W extends Rule.When> Stream<Rule> rules(Class<W> kind) {
        return rules.values().stream().filter(r -> kind.isInstance(r.when()));
    }

    /** All matching rules, oldest first. */
    public List<Rule> rules() {
        return List.copyOf(rules.values());
    }

    /** The rider's own words for a road, oldest first. */
    public List<Event.RoadWordSet> roadWords() {
        return List.copyOf(roadWords.values());
    }

    /** The rider's own values for rows of the factor table, by key. */
    public SortedMap<String, Event.FactorSet> factors() {
        return Collections.unmodifiableSortedMap(factors);
    }

    /** The moving speeds between which an activity of unstated sport counts as a ride. */
    public Event.SpeedBandSet speeds() {
        return speeds;
    }

    /** Every contradiction, in order of the entries. */
    public List<Problem> problems() {
        return List.copyOf(problems);
    }
}
