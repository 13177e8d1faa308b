package chainage.ledger;

import chainage.ledger.Shape.Stated;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.SortedMap;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * A kind of fact: the word it is kept under, its fields, what it describes, and what follows from it. From the fields
 * follow the stored form, the bounds, and what a new name, a new date or another id of a ride reaches.
 */
public final class Kind<E extends Event> {
    /** What a fact does to all that is stated. */
    interface Effect<E> {
        void on(State state, E fact);
    }

    /** What a correction does to the facts before it, which are by number. */
    interface Correction<E> {
        void of(SortedMap<Long, Entry> facts, E correction);
    }

    /** Collects what makes up a kind while it is declared. */
    static final class Declaring<E> extends Shape.Fields<E> {
        private Effect<E> effect = (state, fact) -> {};
        private @Nullable Correction<E> correction;
        private boolean leavesRides;
        private @Nullable Field<E, Instant> date;
        private @Nullable Field<E, String> described;
        private @Nullable Field<E, Long> target;

        Field<E, String> bike(Function<E, @Nullable String> part) {
            return field("bike", new Value.Name(Event.Named.BIKE), part);
        }

        Field<E, String> chain(Function<E, @Nullable String> part) {
            return field("chain", new Value.Name(Event.Named.CHAIN), part);
        }

        Field<E, String> product(Function<E, @Nullable String> part) {
            return field("product", new Value.Name(Event.Named.PRODUCT), part);
        }

        /** When it happened. */
        Field<E, Instant> at(Function<E, @Nullable Instant> part) {
            Field<E, Instant> at = field("at", new Value.Time(1970, true), part);
            date = at;
            return at;
        }

        Field<E, List<String>> rides(Function<E, @Nullable List<String>> part) {
            return field("rides", new Value.Items<>(new Value.Ride(), 1, 1_000_000), part);
        }

        /** The number of an entry stated before. */
        Field<E, Long> target(Function<E, @Nullable Long> part) {
            Field<E, Long> entry = field("target", new Value.Whole(1, Long.MAX_VALUE), part);
            target = entry;
            return entry;
        }

        /** It describes what bears the name in this field. */
        Field<E, String> describes(Field<E, String> name) {
            described = name;
            return name;
        }

        /** Facts without a date are taken in as they were stated, then those with one by time. */
        void takes(Effect<E> what) {
            effect = what;
        }

        /** Wherever rides were before it, they are after it. */
        void leavesRides() {
            leavesRides = true;
        }

        /** It is no fact of its own; it changes those before it. */
        void corrects(Correction<E> what) {
            correction = what;
        }
    }

    private final String word;
    private final Class<E> type;
    private final Function<Declaring<E>, Function<Stated, E>> declaration;
    private volatile @Nullable Declared<E> declared;

    private record Declared<E>(Shape<E> shape, Declaring<E> parts) {}

    Kind(String word, Class<E> type, Function<Declaring<E>, Function<Stated, E>> declaration) {
        this.word = word;
        this.type = type;
        this.declaration = declaration;
    }

    /** Of a ledger's few kinds only those are declared that it holds; the program starts the sooner. */
    private Declared<E> declared() {
        Declared<E> known = declared;
        return known == null ? declare() : known;
    }

    private synchronized Declared<E> declare() {
        Declared<E> known = declared;
        if (known == null) {
            Declaring<E> parts = new Declaring<>();
            known = new Declared<>(parts.shape(declaration.apply(parts)), parts);
            declared = known;
        }
        return known;
    }

    /** As it is kept. */
    public String word() {
        return word;
    }

    Class<E> type() {
        return type;
    }

    Shape<E> shape() {
        return declared().shape();
    }

    /** The fields as they are kept: texts, numbers, truths, lists and maps of these. A field without a value is left out. */
    public Map<String, Object> kept(E fact) {
        return shape().kept(fact);
    }

    /** What the fields hold, by their names. A field without a value is left out. */
    public Map<String, Object> values(E fact) {
        return shape().values(fact);
    }

    /**
     * The fact that was kept, whether or not it is within bounds.
     *
     * @throws IllegalArgumentException when a field is missing or is of another type
     */
    public E read(Map<String, ?> kept) {
        return shape().read(kept);
    }

    /**
     * Refuses what cannot be.
     *
     * @throws Misfit when a field is out of bounds
     */
    public void check(E fact) {
        shape().check(fact);
    }

    E with(E fact, Rewrite change) {
        return shape().with(fact, change);
    }

    Optional<Instant> date(E fact) {
        Field<E, Instant> date = declared().parts().date;
        return date == null ? Optional.empty() : Optional.ofNullable(date.part().apply(fact));
    }

    /** The same fact at another time; empty where it has no date of its own. */
    public Optional<E> dated(E fact, Instant at) {
        return date(fact)
                .map(before -> with(fact, new Rewrite() {
                    @Override
                    public Instant date(Instant now) {
                        return at;
                    }
                }));
    }

    /** What a fact of this kind describes: the kind of name; empty when it describes nothing. */
    public Optional<Event.Named> describes() {
        Field<E, String> described = declared().parts().described;
        return described != null && described.value() instanceof Value.Name n
                ? Optional.of(n.what())
                : Optional.empty();
    }

    /** The name of what a fact of this kind describes. */
    public String described(E fact) {
        return Objects.requireNonNull(
                Objects.requireNonNull(declared().parts().described).part().apply(fact));
    }

    /** The number of the entry that it speaks of; empty when it speaks of none. */
    public Optional<Long> target(E fact) {
        Field<E, Long> target = declared().parts().target;
        return target == null
                ? Optional.empty()
                : Optional.ofNullable(target.part().apply(fact));
    }

    /** True where no ride can be on another bike or chain, or be counted otherwise, for a fact of this kind. */
    public boolean leavesRides() {
        return declared().parts().leavesRides;
    }

    /** True where facts of this kind change those before them, or are none themselves. */
    public boolean corrects() {
        return declared().parts().correction != null;
    }

    void take(State state, E fact) {
        declared().parts().effect.on(state, fact);
    }

    /** A correction is made; a fact is put with the others. */
    void put(SortedMap<Long, Entry> facts, Entry entry, E event) {
        Correction<E> correction = declared().parts().correction;
        if (correction == null) {
            facts.put(entry.number(), entry);
        } else {
            correction.of(facts, event);
        }
    }

    /** Facts of this kind, that say anew only some of what this one says. */
    Kind<Event.Changed> changes(String under, Event.Named what, Effect<Event.Changed> effect) {
        return new Kind<>(under, Event.Changed.class, k -> {
            Field<E, String> name = Objects.requireNonNull(declared().parts().described);
            Field<Event.Changed, String> of = new Field<>(name.name(), name.value(), true, Event.Changed::name);
            for (Field<E, ?> f : shape().fields()) {
                if (f.equals(name)) {
                    k.describes(k.add(of));
                } else {
                    k.add(f.said());
                }
            }
            k.takes(effect);
            return v -> {
                Map<String, Object> said = new HashMap<>(v.values());
                said.remove(name.name());
                return new Event.Changed(what, v.get(of), said);
            };
        });
    }

    @Override
    public String toString() {
        return word;
    }
}
