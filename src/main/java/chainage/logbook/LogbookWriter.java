package chainage.logbook;

import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Kinds;
import chainage.ledger.Ledger;
import chainage.ledger.Rule;
import chainage.quantity.LocalClock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;

/** All that is stated, as the lines of a logbook which state the same, in order of their dates. */
public final class LogbookWriter {
    /**
     * A line.
     *
     * @param facts numbers of the entries that it says
     */
    public record Written(Line line, List<Long> facts) {}

    private final Ledger facts;
    private final LocalClock clock;
    private final Map<String, Instant> rides;
    private final List<Written> lines = new ArrayList<>();
    private final LocalDate first;

    /**
     * For one ledger.
     *
     * @param rides starts by id
     * @param now for what has no date of its own, where nothing has
     */
    public LogbookWriter(Ledger facts, LocalClock clock, Map<String, Instant> rides, Instant now) {
        this.facts = facts;
        this.clock = clock;
        this.rides = rides;
        this.first = facts.facts().stream()
                .flatMap(e -> e.happened().stream())
                .min(Comparator.naturalOrder())
                .map(clock::day)
                .orElse(clock.day(now));
    }

    /** The lines, by date. */
    public List<Written> lines() {
        things();
        rules();
        facts.facts().stream()
                .filter(e -> e.happened().isPresent())
                .sorted(Comparator.comparing((Entry e) -> e.happened().orElseThrow())
                        .thenComparing(Entry::number))
                .forEach(e -> write(e.event(), first, List.of(e.number())));
        ofRides();
        lines.sort(Comparator.comparing((Written w) -> w.line().at(clock)));
        return lines;
    }

    /** The whole text. */
    public static String text(List<Written> lines) {
        StringBuilder text = new StringBuilder(LogbookText.FIRST)
                .append("\n# written by chainage; edit it as you like (chainage explain logbook)\n");
        String month = "";
        for (Written w : lines) {
            String of = w.line().day().toString().substring(0, 7);
            if (!of.equals(month)) {
                text.append("\n# ").append(of).append('\n');
                month = of;
            }
            text.append(w.line().text()).append('\n');
        }
        return text.toString();
    }

    private void things() {
        String byDefault = facts.defaultBike().orElse("");
        facts.bikes().values().stream()
                .sorted(Comparator.comparing(
                                (Event.BikeDescribed b) -> !b.bike().equals(byDefault))
                        .thenComparing(b -> b.follows() != null))
                .forEach(this::bike);
        facts.chains().values().forEach(c -> undated(c, describing(Event.Named.CHAIN, c.chain(), e -> false)));
        facts.products().values().forEach(p -> undated(p, describing(Event.Named.PRODUCT, p.product(), e -> false)));
    }

    private List<Long> describing(Event.Named what, String name, Predicate<Event> also) {
        return numbers(e -> also.test(e)
                || (Kinds.of(e).describes().filter(what::equals).isPresent()
                        && Kinds.of(e).described(e).equals(name)));
    }

    private List<Long> numbers(Predicate<Event> of) {
        return facts.facts().stream()
                .filter(e -> of.test(e.event()))
                .map(Entry::number)
                .toList();
    }

    private void bike(Event.BikeDescribed b) {
        // The first one brings the rule for rides that nothing else speaks for.
        undated(
                b,
                describing(
                        Event.Named.BIKE,
                        b.bike(),
                        e -> e instanceof Event.RuleSet r
                                && r.rule().when() instanceof Rule.Otherwise
                                && b.bike().equals(r.rule().bike())));
    }

    private void rules() {
        for (Rule r : facts.rules()) {
            if (!(r.when() instanceof Rule.Otherwise)) {
                undated(
                        new Event.RuleSet(r),
                        numbers(e -> e instanceof Event.RuleSet set
                                && set.rule().when().equals(r.when())));
            }
        }
        if (!facts.speeds().equals(Event.SpeedBandSet.USUAL)) {
            undated(facts.speeds(), numbers(e -> e instanceof Event.SpeedBandSet));
        }
        facts.factors()
                .values()
                .forEach(f -> undated(
                        f,
                        numbers(e ->
                                e instanceof Event.FactorSet set && set.key().equals(f.key()))));
        facts.settings()
                .forEach((setting, values) -> undated(
                        new Event.SettingSet(setting, values),
                        numbers(e -> e instanceof Event.SettingSet set
                                && set.setting().equals(setting))));
        facts.sameProducts().forEach(same -> undated(same, numbers(same::equals)));
        facts.roadWords()
                .forEach(w -> undated(
                        w,
                        numbers(e ->
                                e instanceof Event.RoadWordSet set && set.word().equalsIgnoreCase(w.word()))));
        facts.meters()
                .values()
                .forEach(m -> undated(
                        m,
                        numbers(e -> e instanceof Event.MeterPlaced placed
                                && placed.meter().equals(m.meter()))));
    }

    /** What holds of single rides, at their days. */
    private void ofRides() {
        Set<String> tagged = new TreeSet<>();
        Set<String> assigned = new TreeSet<>();
        Set<String> counted = new TreeSet<>();
        for (Entry entry : facts.facts()) {
            if (entry.event() instanceof Event.Tagged t) {
                tagged.addAll(t.rides());
            } else if (entry.event() instanceof Event.RidesAssigned a) {
                assigned.addAll(a.rides());
            } else if (entry.event() instanceof Event.RidesCounted c) {
                counted.addAll(c.rides());
            }
        }
        for (String id : tagged) {
            facts.flags(id)
                    .ifPresent(f -> ofRide(
                            id,
                            new Event.Tagged(List.of(id), f.moisture(), f.share(), f.grit()),
                            numbers(e ->
                                    e instanceof Event.Tagged t && t.rides().contains(id))));
        }
        for (String id : assigned) {
            facts.bikeOf(id)
                    .ifPresent(b -> ofRide(
                            id,
                            new Event.RidesAssigned(List.of(id), b),
                            numbers(e -> e instanceof Event.RidesAssigned a
                                    && a.rides().contains(id))));
        }
        for (String id : counted) {
            facts.counts(id)
                    .ifPresent(c -> ofRide(
                            id,
                            new Event.RidesCounted(List.of(id), c),
                            numbers(e -> e instanceof Event.RidesCounted r
                                    && r.rides().contains(id))));
        }
        facts.twins()
                .forEach((id, of) -> ofRide(
                        id,
                        new Event.TwinStated(id, of),
                        numbers(e -> e instanceof Event.TwinStated t && t.ride().equals(id))));
    }

    private void ofRide(String id, Event fact, List<Long> numbers) {
        Instant start = rides.get(id);
        write(fact, start == null ? first : clock.day(start), numbers);
    }

    private void undated(Event fact, List<Long> numbers) {
        write(fact, first, numbers);
    }

    private void write(Event fact, LocalDate undated, List<Long> numbers) {
        Line line = FactLine.of(fact, clock, new Line(1, undated, null, null, List.of()))
                .orElseThrow(() -> new AssertionError(fact));
        lines.add(new Written(line, numbers));
    }
}
