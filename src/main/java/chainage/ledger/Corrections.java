package chainage.ledger;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;

/**
 * Applies the rider's corrections (new names, new dates, two chains that were one) to the facts stated before them. The
 * entries stay as they were written; only what is read out of them changes, and changes back when the correction is
 * taken back.
 */
public final class Corrections {
    private Corrections() {}

    /**
     * The facts with all corrections made.
     *
     * @param inForce entries in order of their numbers
     * @return facts under their own numbers, in the same order; without corrections, undoings, and descriptions of chains
     *     that were merged into others
     */
    static List<Entry> applied(List<Entry> inForce) {
        TreeMap<Long, Entry> facts = new TreeMap<>();
        for (Entry e : inForce) {
            if (e.event() instanceof Event.Renamed r) {
                facts.replaceAll((n, f) -> with(f, renamed(f.event(), r)));
            } else if (e.event() instanceof Event.ChainsMerged m) {
                facts.values()
                        .removeIf(f -> f.event() instanceof Event.ChainDescribed c
                                && c.chain().equals(m.chain()));
                Event.Renamed name = new Event.Renamed(Event.Named.CHAIN, m.chain(), m.into());
                facts.replaceAll((n, f) -> with(f, renamed(f.event(), name)));
            } else if (e.event() instanceof Event.Redated r) {
                facts.computeIfPresent(
                        r.target(), (n, f) -> with(f, dated(f.event(), r.to()).orElse(f.event())));
            } else if (!(e.event() instanceof Event.Undone)) {
                facts.put(e.number(), e);
            }
        }
        return List.copyOf(new ArrayList<>(facts.values()));
    }

    private static Entry with(Entry entry, Event event) {
        return event == entry.event() ? entry : new Entry(entry.number(), entry.command(), entry.recorded(), event);
    }

    /** The same fact at another time; empty where it has no date of its own. */
    public static Optional<Event> dated(Event event, Instant at) {
        if (event instanceof Event.Installed e) {
            return Optional.of(new Event.Installed(e.chain(), e.bike(), at));
        } else if (event instanceof Event.Removed e) {
            return Optional.of(new Event.Removed(e.chain(), at));
        } else if (event instanceof Event.Treated e) {
            return Optional.of(
                    new Event.Treated(e.chain(), e.product(), at, e.cleaning(), e.millilitres(), e.minutes()));
        } else if (event instanceof Event.Measured e) {
            return Optional.of(new Event.Measured(e.chain(), at, e.reading()));
        } else if (event instanceof Event.Remarked e) {
            return Optional.of(new Event.Remarked(e.chain(), at, e.remark(), e.words()));
        } else if (event instanceof Event.Bought e) {
            return Optional.of(new Event.Bought(e.product(), at, e.packages()));
        }
        return Optional.empty();
    }

    static Event renamed(Event event, Event.Renamed name) {
        return switch (name.what()) {
            case BIKE -> bike(event, name.from(), name.to());
            case CHAIN -> chain(event, name.from(), name.to());
            case PRODUCT -> product(event, name.from(), name.to());
        };
    }

    private static Event bike(Event event, String from, String to) {
        if (event instanceof Event.BikeDescribed e && e.bike().equals(from)) {
            return new Event.BikeDescribed(
                    to, e.rings(), e.cogs(), e.circumferenceMetres(), e.jockeys(), e.cassettePrice(), e.ringsPrice());
        } else if (event instanceof Event.Installed e && e.bike().equals(from)) {
            return new Event.Installed(e.chain(), to, e.at());
        } else if (event instanceof Event.RidesAssigned e && from.equals(e.bike())) {
            return new Event.RidesAssigned(e.rides(), to);
        } else if (event instanceof Event.RuleSet e && from.equals(e.rule().bike())) {
            return new Event.RuleSet(new Rule(e.rule().when(), to, e.rule().counts()));
        }
        return event;
    }

    private static Event chain(Event event, String from, String to) {
        if (event instanceof Event.ChainDescribed e && e.chain().equals(from)) {
            return new Event.ChainDescribed(to, e.pitches(), e.speeds(), e.limitPercent(), e.price());
        } else if (event instanceof Event.Installed e && e.chain().equals(from)) {
            return new Event.Installed(to, e.bike(), e.at());
        } else if (event instanceof Event.Removed e && e.chain().equals(from)) {
            return new Event.Removed(to, e.at());
        } else if (event instanceof Event.Treated e && e.chain().equals(from)) {
            return new Event.Treated(to, e.product(), e.at(), e.cleaning(), e.millilitres(), e.minutes());
        } else if (event instanceof Event.Measured e && e.chain().equals(from)) {
            return new Event.Measured(to, e.at(), e.reading());
        } else if (event instanceof Event.Remarked e && e.chain().equals(from)) {
            return new Event.Remarked(to, e.at(), e.remark(), e.words());
        }
        return event;
    }

    private static Event product(Event event, String from, String to) {
        if (event instanceof Event.ProductDescribed e && e.product().equals(from)) {
            return new Event.ProductDescribed(
                    to, e.method(), e.price(), e.packageMillilitres(), e.treatmentMillilitres(), e.treatmentMinutes());
        } else if (event instanceof Event.Bought e && e.product().equals(from)) {
            return new Event.Bought(to, e.at(), e.packages());
        } else if (event instanceof Event.Treated e && e.product().equals(from)) {
            return new Event.Treated(e.chain(), to, e.at(), e.cleaning(), e.millilitres(), e.minutes());
        }
        return event;
    }
}
