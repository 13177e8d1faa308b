package chainage.cli;

import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Flags;
import chainage.ledger.Kinds;
import chainage.ledger.Ledger;
import chainage.ledger.Moisture;
import chainage.ledger.Reading;
import chainage.ledger.Remark;
import chainage.ledger.Rule;
import chainage.logbook.Line;
import chainage.logbook.LogbookText;
import chainage.quantity.LocalClock;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** All that is stated, as the lines of a logbook which state the same, in order of their dates. */
final class LogbookWriter {
    /**
     * A line.
     *
     * @param facts numbers of the entries that it says
     */
    record Written(Line line, List<Long> facts) {}

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
    LogbookWriter(Ledger facts, LocalClock clock, Map<String, Instant> rides, Instant now) {
        this.facts = facts;
        this.clock = clock;
        this.rides = rides;
        this.first = facts.facts().stream()
                .flatMap(e -> e.event().happened().stream())
                .min(Comparator.naturalOrder())
                .map(clock::day)
                .orElse(clock.day(now));
    }

    /** The lines, by date. */
    List<Written> lines() {
        things();
        rules();
        facts.facts().stream()
                .filter(e -> e.event().happened().isPresent())
                .sorted(Comparator.comparing((Entry e) -> e.event().happened().orElseThrow())
                        .thenComparing(Entry::number))
                .forEach(this::dated);
        ofRides();
        lines.sort(Comparator.comparing((Written w) -> w.line().at(clock)));
        return lines;
    }

    /** The whole text. */
    static String text(List<Written> lines) {
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
        String byDefault = facts.rules(Rule.Otherwise.class)
                .map(r -> String.valueOf(r.bike()))
                .findFirst()
                .orElse("");
        facts.bikes().values().stream()
                .sorted(Comparator.comparing(
                                (Event.BikeDescribed b) -> !b.bike().equals(byDefault))
                        .thenComparing(b -> b.follows() != null))
                .forEach(this::bike);
        facts.chains().values().forEach(this::chain);
        facts.products().values().forEach(this::product);
    }

    private List<Long> describing(Event.Named what, String name, Predicate<Event> also) {
        return numbers(e -> also.test(e)
                || (e instanceof Event.Changed c && c.what() == what && c.name().equals(name))
                || (Kinds.of(e).describes().filter(what::equals).isPresent()
                        && !(e instanceof Event.Changed)
                        && named(e).equals(name)));
    }

    private static String named(Event described) {
        if (described instanceof Event.BikeDescribed b) {
            return b.bike();
        } else if (described instanceof Event.ChainDescribed c) {
            return c.chain();
        }
        return described instanceof Event.ProductDescribed p ? p.product() : "";
    }

    private List<Long> numbers(Predicate<Event> of) {
        return facts.facts().stream()
                .filter(e -> of.test(e.event()))
                .map(Entry::number)
                .toList();
    }

    private void bike(Event.BikeDescribed b) {
        Words words = new Words("bike", "add", b.bike())
                .option("--rings", b.rings())
                .option("--cogs", b.cogs())
                .option("--wheel", b.circumferenceMetres() == null ? null : b.circumferenceMetres() + "m")
                .option("--jockeys", b.jockeys())
                .option("--cassette-price", b.cassettePrice())
                .option("--rings-price", b.ringsPrice())
                .flag("--no-chain", b.chainless())
                .option("--chains-from", b.chainsFrom())
                .option("--follows", b.follows());
        // The first one brings the rule for rides that nothing else speaks for.
        undated(
                words,
                describing(
                        Event.Named.BIKE,
                        b.bike(),
                        e -> e instanceof Event.RuleSet r
                                && r.rule().when() instanceof Rule.Otherwise
                                && b.bike().equals(r.rule().bike())));
    }

    private void chain(Event.ChainDescribed c) {
        undated(
                new Words("chain", "add", c.chain())
                        .option("--speeds", c.speeds() == 0 ? null : c.speeds())
                        .option("--links", c.pitches() == 0 ? null : c.pitches())
                        .option("--limit", percent(c.limitPercent()))
                        .option("--price", c.price())
                        .flag("--used", c.used())
                        .flag("--stripped", c.stripped()),
                describing(Event.Named.CHAIN, c.chain(), e -> false));
    }

    private void product(Event.ProductDescribed p) {
        undated(
                new Words("product", "add", p.product())
                        .option("--method", p.method().word())
                        .option("--price", p.price())
                        .option("--amount", millilitres(p.packageMillilitres()))
                        .option("--per-treatment", millilitres(p.treatmentMillilitres()))
                        .option("--minutes", number(p.treatmentMinutes())),
                describing(Event.Named.PRODUCT, p.product(), e -> false));
    }

    private void rules() {
        for (Rule r : facts.rules()) {
            if (r.when() instanceof Rule.Otherwise) {
                continue;
            }
            Words words = new Words("assign");
            if (r.when() instanceof Rule.Sensor s) {
                words.option("--sensor", s.type() + ":" + s.serial());
            } else if (r.when() instanceof Rule.Path p) {
                words.option("--path", p.pattern());
            } else if (r.when() instanceof Rule.SubSport s) {
                words.option("--sub-sport", s.word());
            }
            verdict(words, r.bike(), r.counts());
            undated(
                    words,
                    numbers(e ->
                            e instanceof Event.RuleSet set && set.rule().when().equals(r.when())));
        }
        Event.SpeedBandSet speeds = facts.speeds();
        if (!speeds.equals(Event.SpeedBandSet.USUAL)) {
            undated(
                    new Words("assign").option("--cyclist", speeds.lowKmh() + ".." + speeds.highKmh()),
                    numbers(e -> e instanceof Event.SpeedBandSet));
        }
        facts.factors()
                .values()
                .forEach(f -> undated(
                        new Words("factors", "set", f.key(), String.valueOf(number(f.value())))
                                .option("--low", number(f.low()))
                                .option("--high", number(f.high())),
                        numbers(e ->
                                e instanceof Event.FactorSet set && set.key().equals(f.key()))));
        facts.settings().forEach((setting, values) -> {
            Words words = new Words("settings", "set", setting);
            values.forEach(words::add);
            undated(
                    words,
                    numbers(e ->
                            e instanceof Event.SettingSet set && set.setting().equals(setting)));
        });
        facts.sameProducts()
                .forEach(same ->
                        undated(new Words("product", "same", same.product(), same.word()), numbers(same::equals)));
        facts.roadWords()
                .forEach(w -> undated(
                        new Words("words", "set", w.word(), String.valueOf(w.meaning())),
                        numbers(e ->
                                e instanceof Event.RoadWordSet set && set.word().equalsIgnoreCase(w.word()))));
    }

    private static void verdict(Words words, @Nullable String bike, @Nullable Boolean counts) {
        words.option("--bike", bike);
        if (bike == null && counts != null) {
            words.flag(counts ? "--a-ride" : "--not-a-ride", true);
        }
    }

    private void dated(Entry entry) {
        Event e = entry.event();
        Words words;
        boolean exact = false;
        if (e instanceof Event.Installed i) {
            words = new Words("install", i.chain(), i.bike());
        } else if (e instanceof Event.Removed r) {
            words = new Words("remove", r.chain());
        } else if (e instanceof Event.Treated t) {
            words = new Words("treat", t.chain(), t.product())
                    .option("--cleaning", t.cleaning().word())
                    .option("--amount", millilitres(t.millilitres()))
                    .option("--minutes", number(t.minutes()))
                    .option("--heard", t.heard() == null ? null : t.heard().word());
        } else if (e instanceof Event.Remarked r) {
            words = new Words("remark", r.chain(), r.remark().word());
            if (!r.words().isEmpty()) {
                words.add(r.words().startsWith("-") ? "--" : "", r.words());
            }
            // A noise of a bare date is taken to be of that day's ride.
            exact = r.remark() == Remark.NOISY;
        } else if (e instanceof Event.Measured m) {
            words = reading(new Words("measure", m.chain()), m.reading());
        } else if (e instanceof Event.Bought b) {
            words = new Words("product", "buy", b.product()).option("--packages", b.packages());
        } else {
            throw new AssertionError(e);
        }
        lines.add(new Written(line(e.happened().orElseThrow(), words, exact), List.of(entry.number())));
    }

    private static Words reading(Words words, Reading reading) {
        if (reading instanceof Reading.Gauge g) {
            return words.add(g.drops() ? "drops-in" : "stays-out")
                    .option("--gauge", percent(g.stated()))
                    .option("--pitches", g.pitches())
                    .option("--error", percent(g.statedError()))
                    .option("--roller-play", g.playMillimetres() == null ? null : g.playMillimetres() + "mm");
        }
        Reading.Elongation e = (Reading.Elongation) reading;
        for (double v : e.stated()) {
            if (e.unit() == Reading.Unit.PERCENT) {
                words.add(percent(v));
            } else {
                words.option("--length", v + "mm");
            }
        }
        return words.option("--tool", e.tool().word())
                .option("--pitches", e.pitches())
                .option("--error", percent(e.statedError()))
                .option("--roller-play", e.playMillimetres() == null ? null : e.playMillimetres() + "mm");
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
                            flags(new Words("tag", id), f),
                            numbers(e ->
                                    e instanceof Event.Tagged t && t.rides().contains(id))));
        }
        for (String id : assigned) {
            facts.bikeOf(id)
                    .ifPresent(b -> ofRide(
                            id,
                            new Words("assign", id).option("--bike", b),
                            numbers(e -> e instanceof Event.RidesAssigned a
                                    && a.rides().contains(id))));
        }
        for (String id : counted) {
            facts.counts(id)
                    .ifPresent(c -> ofRide(
                            id,
                            new Words("assign", id).flag(c ? "--a-ride" : "--not-a-ride", true),
                            numbers(e -> e instanceof Event.RidesCounted r
                                    && r.rides().contains(id))));
        }
        facts.twins()
                .forEach((id, of) -> ofRide(
                        id,
                        id.equals(of)
                                ? new Words("assign", id).flag("--not-a-duplicate", true)
                                : new Words("assign", id).option("--duplicate-of", of),
                        numbers(e -> e instanceof Event.TwinStated t && t.ride().equals(id))));
    }

    private static Words flags(Words words, Flags f) {
        if (f.moisture() != null) {
            words.add(f.moisture().word());
            if (f.share() < 1 && (f.moisture() == Moisture.WET || f.moisture() == Moisture.DAMP)) {
                words.add(BigDecimal.valueOf(f.share())
                                .movePointRight(2)
                                .stripTrailingZeros()
                                .toPlainString()
                        + "%");
            }
        }
        return f.grit() == null ? words : words.add(f.grit().word());
    }

    private void ofRide(String id, Words words, List<Long> numbers) {
        Instant start = rides.get(id);
        LocalDate day = start == null ? first : clock.day(start);
        lines.add(new Written(new Line(1, day, null, null, words.all), numbers));
    }

    private void undated(Words words, List<Long> numbers) {
        lines.add(new Written(new Line(1, first, null, null, words.all), numbers));
    }

    private Line line(Instant at, Words words, boolean exact) {
        LocalDateTime time = clock.time(at);
        if (!exact && clock.start(time.toLocalDate()).equals(at)) {
            return new Line(1, time.toLocalDate(), null, null, words.all);
        }
        return Line.of(at, clock, words.all);
    }

    private static @Nullable String percent(@Nullable Double value) {
        return value == null ? null : number(value) + "%";
    }

    private static @Nullable String millilitres(@Nullable Double value) {
        return value == null ? null : number(value) + "ml";
    }

    /** All digits, without an exponent. */
    private static @Nullable String number(@Nullable Double value) {
        return value == null ? null : plain(value);
    }

    private static String plain(double value) {
        BigDecimal exact = BigDecimal.valueOf(value);
        return (exact.signum() == 0 ? BigDecimal.ZERO : exact.stripTrailingZeros()).toPlainString();
    }

    /** Words of a command. */
    private static final class Words {
        private final List<String> all = new ArrayList<>();

        Words(String... words) {
            add(words);
        }

        Words add(@Nullable String... words) {
            for (String w : words) {
                if (w != null && !w.isEmpty()) {
                    all.add(w);
                }
            }
            return this;
        }

        /** An option with its value; nothing where there is none. */
        Words option(String name, @Nullable Object value) {
            String typed = value instanceof Collection<?> c
                    ? c.stream().map(String::valueOf).collect(Collectors.joining(","))
                    : value == null ? "" : String.format(Locale.ROOT, "%s", value);
            return typed.isEmpty() ? this : add(name, typed);
        }

        Words flag(String name, boolean given) {
            return given ? add(name) : this;
        }
    }
}
