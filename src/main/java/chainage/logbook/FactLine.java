package chainage.logbook;

import chainage.ledger.Event;
import chainage.ledger.Flags;
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
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** A fact as the line of a logbook that states it, and nothing else. */
public final class FactLine {
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
        return Optional.of(fact.happened()
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

    private static FactLine line(Event e) {
        if (e instanceof Event.BikeDescribed b) {
            return new FactLine("bike", "add", b.bike()).bike(b);
        } else if (e instanceof Event.ChainDescribed c) {
            return new FactLine("chain", "add", c.chain()).chain(c);
        } else if (e instanceof Event.ProductDescribed p) {
            return new FactLine("product", "add", p.product())
                    .option("--method", p.method().word())
                    .product(p);
        } else if (e instanceof Event.Changed c) {
            return changed(c);
        } else if (e instanceof Event.Renamed r) {
            return new FactLine(r.what().word(), "rename", r.from(), r.to());
        } else if (e instanceof Event.ChainsMerged m) {
            return new FactLine("chain", "merge", m.chain(), m.into());
        } else if (e instanceof Event.ProductsSame s) {
            return new FactLine("product", "same", s.product(), s.word());
        } else if (e instanceof Event.Bought b) {
            return new FactLine("product", "buy", b.product()).option("--packages", b.packages());
        } else if (e instanceof Event.FactorSet f) {
            Double value = f.value();
            return value == null
                    ? new FactLine("factors", "reset", f.key())
                    : new FactLine("factors", "set", f.key(), number(value))
                            .option("--low", number(f.low()))
                            .option("--high", number(f.high()));
        } else if (e instanceof Event.SettingSet s) {
            return new FactLine("settings", s.values().isEmpty() ? "reset" : "set", s.setting())
                    .add(s.values().toArray(String[]::new));
        } else if (e instanceof Event.RoadWordSet w) {
            return new FactLine("words", w.meaning() == null ? "reset" : "set", w.word(), w.meaning());
        } else if (e instanceof Event.MeterPlaced m) {
            return new FactLine("meter", "set", m.meter())
                    .flag(m.place() == null ? "--withdraw" : "--" + m.place().word(), true)
                    .option("--reads-high", percent(m.readsHighPercent()));
        }
        FactLine ofRides = ofRides(e);
        return ofRides.words.isEmpty() ? ofChain(e) : ofRides;
    }

    private static FactLine changed(Event.Changed c) {
        FactLine line = new FactLine(c.what().word(), "set", c.name());
        return switch (c.what()) {
            case BIKE -> line.bike(c.over(new Event.BikeDescribed(c.name(), List.of(), List.of(), null)));
            case CHAIN ->
                line.chain(c.over(new Event.ChainDescribed(c.name(), 0, 0, null, null, false, false)))
                        .flag("--new", Boolean.FALSE.equals(c.said().get("used")));
            case PRODUCT -> {
                Event.ProductDescribed p = c.over(new Event.ProductDescribed(c.name(), Method.NONE, null, null));
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

    private static FactLine ofRides(Event e) {
        if (e instanceof Event.Tagged t) {
            return new FactLine("tag").ids(t.rides()).flags(Flags.NONE.with(t));
        } else if (e instanceof Event.Untagged u) {
            return new FactLine("tag").ids(u.rides()).flag("--withdraw", true).flag("--all", true);
        } else if (e instanceof Event.RidesAssigned a && a.bike() != null) {
            return new FactLine("assign").ids(a.rides()).option("--bike", a.bike());
        } else if (e instanceof Event.RidesCounted c && c.counts() != null) {
            return new FactLine("assign").ids(c.rides()).flag(c.counts() ? "--a-ride" : "--not-a-ride", true);
        } else if (e instanceof Event.TwinStated t && t.of() != null) {
            FactLine line = new FactLine("assign", t.ride());
            return t.ride().equals(t.of())
                    ? line.flag("--not-a-duplicate", true)
                    : line.option("--duplicate-of", t.of());
        } else if (e instanceof Event.RuleSet r) {
            return rule(r.rule());
        } else if (e instanceof Event.RuleDropped d) {
            return new FactLine("assign").when(d.when()).flag("--withdraw", true);
        } else if (e instanceof Event.SpeedBandSet s) {
            return new FactLine("assign").option("--cyclist", s.lowKmh() + ".." + s.highKmh());
        }
        return new FactLine();
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

    private static FactLine ofChain(Event e) {
        if (e instanceof Event.Installed i) {
            return new FactLine("install", i.chain(), i.bike());
        } else if (e instanceof Event.Removed r) {
            return new FactLine("remove", r.chain());
        } else if (e instanceof Event.Treated t) {
            return new FactLine("treat", t.chain(), t.product())
                    .option("--cleaning", t.cleaning().word())
                    .option("--amount", millilitres(t.millilitres()))
                    .option("--minutes", number(t.minutes()))
                    .option("--heard", t.heard() == null ? null : t.heard().word());
        } else if (e instanceof Event.Remarked r) {
            FactLine line = new FactLine("remark", r.chain(), r.remark().word());
            return r.words().isEmpty() ? line : line.add(r.words().startsWith("-") ? "--" : "", r.words());
        } else if (e instanceof Event.Measured m) {
            return new FactLine("measure", m.chain()).reading(m.reading());
        }
        return new FactLine();
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
