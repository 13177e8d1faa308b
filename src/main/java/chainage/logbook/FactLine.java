package chainage.logbook;

import chainage.ledger.Event;
import chainage.ledger.Flags;
import chainage.ledger.Kinds;
import chainage.ledger.Method;
import chainage.ledger.Moisture;
import chainage.ledger.Reading;
import chainage.ledger.Remark;
import chainage.ledger.Rule;
import chainage.quantity.LocalClock;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** A fact as the line of a logbook that states it, and nothing else. */
public final class FactLine {
    /** The words of one kind. */
    private interface Words<E extends Event> {
        FactLine of(E fact);
    }

    private static final Map<Class<?>, Words<Event>> KINDS = new HashMap<>();

    static {
        put(Event.BikeDescribed.class, b -> new FactLine("bike", "add", b.bike()).bike(b));
        put(Event.ChainDescribed.class, c -> new FactLine("chain", "add", c.chain()).chain(c));
        put(
                Event.ProductDescribed.class,
                p -> new FactLine("product", "add", p.product())
                        .option("--method", p.method().word())
                        .product(p));
        put(Event.Changed.class, FactLine::changed);
        put(Event.Renamed.class, r -> new FactLine(r.what().word(), "rename", r.from(), r.to()));
        put(Event.ChainsMerged.class, m -> new FactLine("chain", "merge", m.chain(), m.into()));
        put(Event.ProductsSame.class, s -> new FactLine("product", "same", s.product(), s.word()));
        put(Event.Bought.class, b -> new FactLine("product", "buy", b.product()).option("--packages", b.packages()));
        put(Event.FactorSet.class, FactLine::factor);
        put(
                Event.SettingSet.class,
                s -> new FactLine("settings", s.values().isEmpty() ? "reset" : "set", s.setting())
                        .add(s.values().toArray(String[]::new)));
        put(
                Event.RoadWordSet.class,
                w -> new FactLine("words", w.meaning() == null ? "reset" : "set", w.word(), w.meaning()));
        put(
                Event.MeterPlaced.class,
                m -> new FactLine("meter", "set", m.meter())
                        .flag(
                                m.place() == null
                                        ? "--withdraw"
                                        : "--" + m.place().word(),
                                true)
                        .option("--reads-high", percent(m.readsHighPercent())));
        put(Event.Tagged.class, t -> new FactLine("tag").ids(t.rides()).flags(Flags.NONE.with(t)));
        put(
                Event.Untagged.class,
                u -> new FactLine("tag").ids(u.rides()).flag("--withdraw", true).flag("--all", true));
        put(Event.RidesAssigned.class, FactLine::assigned);
        put(Event.RidesCounted.class, FactLine::counted);
        put(Event.TwinStated.class, FactLine::twin);
        put(Event.RuleSet.class, r -> rule(r.rule()));
        put(Event.RuleDropped.class, d -> new FactLine("assign").when(d.when()).flag("--withdraw", true));
        put(Event.SpeedBandSet.class, s -> new FactLine("assign").option("--cyclist", s.lowKmh() + ".." + s.highKmh()));
        put(Event.Installed.class, i -> new FactLine("install", i.chain(), i.bike()));
        put(Event.Removed.class, r -> new FactLine("remove", r.chain()));
        put(
                Event.Treated.class,
                t -> new FactLine("treat", t.chain(), t.product())
                        .option("--cleaning", t.cleaning().word())
                        .option("--amount", millilitres(t.millilitres()))
                        .option("--minutes", number(t.minutes()))
                        .option("--heard", t.heard() == null ? null : t.heard().word()));
        put(Event.Remarked.class, FactLine::remark);
        put(Event.Measured.class, m -> new FactLine("measure", m.chain()).reading(m.reading()));
    }

    private final List<String> words = new ArrayList<>();

    private FactLine(@Nullable String... words) {
        add(words);
    }

    /**
     * The line.
     *
     * @param undated whose date it has where the fact has none
     * @return empty where no command states the fact alone
     */
    public static Optional<Line> of(Event fact, LocalClock clock, Line undated) {
        List<String> words = words(fact);
        if (words.isEmpty()) {
            return Optional.empty();
        }
        // A noise of a bare date is taken to be of that day's ride.
        boolean exact = fact instanceof Event.Remarked r && r.remark() == Remark.NOISY;
        return Optional.of(Kinds.happened(fact)
                .map(at -> line(at, clock, words, exact))
                .orElse(new Line(1, undated.day(), undated.time(), undated.offset(), words)));
    }

    private static Line line(Instant at, LocalClock clock, List<String> words, boolean exact) {
        LocalDateTime time = clock.time(at);
        return !exact && clock.start(time.toLocalDate()).equals(at)
                ? new Line(1, time.toLocalDate(), null, null, words)
                : Line.of(at, clock, words);
    }

    /** The words of the command that states it; none where there is no such command. */
    static List<String> words(Event fact) {
        return List.copyOf(line(fact).words);
    }

    @SuppressWarnings("unchecked") // the words of a class are asked for by that class
    private static <E extends Event> void put(Class<E> kind, Words<E> words) {
        KINDS.put(kind, (Words<Event>) words);
    }

    private static FactLine line(Event e) {
        Words<Event> words = KINDS.get(e.getClass());
        return words == null ? new FactLine() : words.of(e);
    }

    private static FactLine factor(Event.FactorSet f) {
        Double value = f.value();
        return value == null
                ? new FactLine("factors", "reset", f.key())
                : new FactLine("factors", "set", f.key(), number(value))
                        .option("--low", number(f.low()))
                        .option("--high", number(f.high()));
    }

    /** What was said of bike, verdict and outing is withdrawn together, so that no line withdraws one of them. */
    private static FactLine assigned(Event.RidesAssigned a) {
        return a.bike() == null
                ? new FactLine()
                : new FactLine("assign").ids(a.rides()).option("--bike", a.bike());
    }

    private static FactLine counted(Event.RidesCounted c) {
        Boolean counts = c.counts();
        return counts == null
                ? new FactLine()
                : new FactLine("assign").ids(c.rides()).flag(counts ? "--a-ride" : "--not-a-ride", true);
    }

    private static FactLine twin(Event.TwinStated t) {
        String of = t.of();
        if (of == null) {
            return new FactLine();
        }
        FactLine line = new FactLine("assign", t.ride());
        return t.ride().equals(of) ? line.flag("--not-a-duplicate", true) : line.option("--duplicate-of", of);
    }

    private static FactLine remark(Event.Remarked r) {
        FactLine line = new FactLine("remark", r.chain(), r.remark().word());
        return r.words().isEmpty() ? line : line.add(r.words().startsWith("-") ? "--" : "", r.words());
    }

    private static FactLine changed(Event.Changed c) {
        FactLine line = new FactLine(c.what().word(), "set", c.name());
        return switch (c.what()) {
            case BIKE -> line.bike(Kinds.over(new Event.BikeDescribed(c.name(), List.of(), List.of(), null), c));
            case CHAIN ->
                line.chain(Kinds.over(new Event.ChainDescribed(c.name(), 0, 0, null, null, false, false), c))
                        .flag("--new", Boolean.FALSE.equals(c.said().get("used")));
            case PRODUCT -> {
                Event.ProductDescribed p = Kinds.over(new Event.ProductDescribed(c.name(), Method.NONE, null, null), c);
                yield line.option(
                                "--method",
                                c.said().containsKey("method") ? p.method().word() : null)
                        .product(p);
            }
        };
    }

    private FactLine bike(Event.BikeDescribed b) {
        return option("--rings", b.rings())
                .option("--cogs", b.cogs())
                .option("--wheel", b.circumferenceMetres() == null ? null : b.circumferenceMetres() + "m")
                .option("--jockeys", b.jockeys())
                .option("--cassette-price", b.cassettePrice())
                .option("--rings-price", b.ringsPrice())
                .flag("--no-chain", b.chainless())
                .option("--chains-from", b.chainsFrom())
                .option("--follows", b.follows());
    }

    private FactLine chain(Event.ChainDescribed c) {
        return option("--speeds", c.speeds() == 0 ? null : c.speeds())
                .option("--links", c.pitches() == 0 ? null : c.pitches())
                .option("--limit", percent(c.limitPercent()))
                .option("--price", c.price())
                .flag("--used", c.used())
                .flag("--stripped", c.stripped());
    }

    private FactLine product(Event.ProductDescribed p) {
        return option("--price", p.price())
                .option("--amount", millilitres(p.packageMillilitres()))
                .option("--per-treatment", millilitres(p.treatmentMillilitres()))
                .option("--minutes", number(p.treatmentMinutes()));
    }

    private static FactLine rule(Rule rule) {
        String bike = rule.bike();
        Boolean counts = rule.counts();
        if (rule.when() instanceof Rule.Otherwise) {
            return new FactLine("bike", "set", bike, "--default");
        }
        FactLine line = new FactLine("assign").when(rule.when()).option("--bike", bike);
        return bike != null || counts == null ? line : line.flag(counts ? "--a-ride" : "--not-a-ride", true);
    }

    private FactLine when(Rule.When when) {
        if (when instanceof Rule.Sensor s) {
            return option("--sensor", s.type() + ":" + s.serial());
        } else if (when instanceof Rule.Path p) {
            return option("--path", p.pattern());
        } else if (when instanceof Rule.SubSport s) {
            return option("--sub-sport", s.word());
        }
        return this;
    }

    private FactLine reading(Reading reading) {
        if (reading instanceof Reading.Gauge g) {
            return add(g.drops() ? "drops-in" : "stays-out")
                    .option("--gauge", percent(g.stated()))
                    .option("--pitches", g.pitches())
                    .option("--error", percent(g.statedError()))
                    .option("--roller-play", g.playMillimetres() == null ? null : g.playMillimetres() + "mm");
        }
        Reading.Elongation e = (Reading.Elongation) reading;
        for (double v : e.stated()) {
            if (e.unit() == Reading.Unit.PERCENT) {
                add(percent(v));
            } else {
                option("--length", v + "mm");
            }
        }
        return option("--tool", e.tool().word())
                .option("--pitches", e.pitches())
                .option("--error", percent(e.statedError()))
                .option("--roller-play", e.playMillimetres() == null ? null : e.playMillimetres() + "mm");
    }

    private FactLine flags(Flags f) {
        if (f.moisture() != null) {
            add(f.moisture().word());
            if (f.share() < 1 && (f.moisture() == Moisture.WET || f.moisture() == Moisture.DAMP)) {
                add(BigDecimal.valueOf(f.share())
                                .movePointRight(2)
                                .stripTrailingZeros()
                                .toPlainString()
                        + "%");
            }
        }
        return f.grit() == null ? this : add(f.grit().word());
    }

    private FactLine ids(List<String> rides) {
        return add(rides.toArray(String[]::new));
    }

    private FactLine add(@Nullable String... more) {
        for (String w : more) {
            if (w != null && !w.isEmpty()) {
                words.add(w);
            }
        }
        return this;
    }

    /** An option with its value; nothing where there is none. */
    private FactLine option(String name, @Nullable Object value) {
        String typed = value instanceof Collection<?> c
                ? c.stream().map(String::valueOf).collect(Collectors.joining(","))
                : value == null ? "" : String.format(Locale.ROOT, "%s", value);
        return typed.isEmpty() ? this : add(name, typed);
    }

    private FactLine flag(String name, boolean given) {
        return given ? add(name) : this;
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
}
