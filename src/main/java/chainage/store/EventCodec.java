package chainage.store;

import chainage.ledger.Cleaning;
import chainage.ledger.Event;
import chainage.ledger.Grit;
import chainage.ledger.Method;
import chainage.ledger.Moisture;
import chainage.ledger.Reading;
import chainage.ledger.Remark;
import chainage.ledger.Rule;
import chainage.quantity.Money;
import java.time.Instant;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeFormatterBuilder;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Events to and from the kind and JSON payload they are kept as. Instants are UTC texts with milliseconds; anything
 * finer is cut off. A field without a value is left out.
 */
final class EventCodec {
    private static final DateTimeFormatter INSTANT =
            new DateTimeFormatterBuilder().appendInstant(3).toFormatter(Locale.ROOT);

    private EventCodec() {}

    /**
     * An event as it is kept.
     *
     * @param kind word for its type
     * @param payload JSON object of its fields
     */
    record Encoded(String kind, String payload) {}

    static Encoded encode(Event event) {
        if (event instanceof Event.BikeDescribed e) {
            return encoded(
                    "bike-described",
                    new Json()
                            .with("bike", e.bike())
                            .with("rings", e.rings())
                            .with("cogs", e.cogs())
                            .with("circumference_metres", e.circumferenceMetres())
                            .with("jockeys", e.jockeys().isEmpty() ? null : e.jockeys())
                            .with("cassette_price", money(e.cassettePrice()))
                            .with("rings_price", money(e.ringsPrice())));
        } else if (event instanceof Event.ChainDescribed e) {
            return encoded(
                    "chain-described",
                    new Json()
                            .with("chain", e.chain())
                            .with("pitches", e.pitches())
                            .with("speeds", e.speeds())
                            .with("limit_percent", e.limitPercent())
                            .with("price", money(e.price())));
        } else if (event instanceof Event.ProductDescribed e) {
            return encoded(
                    "product-described",
                    new Json()
                            .with("product", e.product())
                            .with("method", e.method().word())
                            .with("price", money(e.price()))
                            .with("package_millilitres", e.packageMillilitres())
                            .with("treatment_millilitres", e.treatmentMillilitres())
                            .with("treatment_minutes", e.treatmentMinutes()));
        } else if (event instanceof Event.Bought e) {
            return encoded(
                    "bought",
                    new Json()
                            .with("product", e.product())
                            .with("at", time(e.at()))
                            .with("packages", e.packages()));
        } else if (event instanceof Event.Installed e) {
            return encoded(
                    "installed",
                    new Json().with("chain", e.chain()).with("bike", e.bike()).with("at", time(e.at())));
        } else if (event instanceof Event.Removed e) {
            return encoded("removed", new Json().with("chain", e.chain()).with("at", time(e.at())));
        } else if (event instanceof Event.Treated e) {
            return encoded(
                    "treated",
                    new Json()
                            .with("chain", e.chain())
                            .with("product", e.product())
                            .with("at", time(e.at()))
                            .with("cleaning", e.cleaning().word())
                            .with("millilitres", e.millilitres())
                            .with("minutes", e.minutes()));
        } else if (event instanceof Event.Measured e) {
            return encoded(
                    "measured",
                    new Json().with("chain", e.chain()).with("at", time(e.at())).with("reading", reading(e.reading())));
        } else if (event instanceof Event.Remarked e) {
            return encoded(
                    "remarked",
                    new Json()
                            .with("chain", e.chain())
                            .with("at", time(e.at()))
                            .with("remark", word(e.remark()))
                            .with("words", e.words()));
        } else if (event instanceof Event.Tagged e) {
            return encoded(
                    "tagged",
                    new Json()
                            .with("rides", e.rides())
                            .with("moisture", e.moisture() == null ? null : word(e.moisture()))
                            .with("share", e.share())
                            .with("grit", e.grit() == null ? null : word(e.grit())));
        } else if (event instanceof Event.Untagged e) {
            return encoded("untagged", new Json().with("rides", e.rides()));
        } else if (event instanceof Event.RidesAssigned e) {
            return encoded("rides-assigned", new Json().with("rides", e.rides()).with("bike", e.bike()));
        } else if (event instanceof Event.RidesCounted e) {
            return encoded("rides-counted", new Json().with("rides", e.rides()).with("counts", e.counts()));
        } else if (event instanceof Event.TwinStated e) {
            return encoded("twin-stated", new Json().with("ride", e.ride()).with("of", e.of()));
        } else if (event instanceof Event.RuleSet e) {
            return encoded(
                    "rule-set",
                    new Json()
                            .with("when", when(e.rule().when()))
                            .with("bike", e.rule().bike())
                            .with("counts", e.rule().counts()));
        } else if (event instanceof Event.RuleDropped e) {
            return encoded("rule-dropped", new Json().with("when", when(e.when())));
        } else if (event instanceof Event.SpeedBandSet e) {
            return encoded(
                    "speed-band-set", new Json().with("low_kmh", e.lowKmh()).with("high_kmh", e.highKmh()));
        } else if (event instanceof Event.WeatherAdded e) {
            return encoded(
                    "weather-added",
                    new Json()
                            .with("source", e.source())
                            .with("observations", e.observations())
                            .with("stations", e.stations())
                            .with("from", time(e.from()))
                            .with("to", time(e.to())));
        } else if (event instanceof Event.RoadWordSet e) {
            return encoded("road-word-set", new Json().with("word", e.word()).with("meaning", e.meaning()));
        } else if (event instanceof Event.FactorSet e) {
            return encoded(
                    "factor-set",
                    new Json()
                            .with("key", e.key())
                            .with("value", e.value())
                            .with("low", e.low())
                            .with("high", e.high()));
        } else if (event instanceof Event.Renamed e) {
            return encoded(
                    "renamed",
                    new Json()
                            .with("what", word(e.what()))
                            .with("from", e.from())
                            .with("to", e.to()));
        } else if (event instanceof Event.ChainsMerged e) {
            return encoded("chains-merged", new Json().with("chain", e.chain()).with("into", e.into()));
        } else if (event instanceof Event.Redated e) {
            return encoded("redated", new Json().with("target", e.target()).with("at", time(e.to())));
        } else if (event instanceof Event.Undone e) {
            return encoded("undone", new Json().with("target", e.target()));
        }
        throw new AssertionError(event);
    }

    /**
     * Reads an event back.
     *
     * @throws IllegalArgumentException when kind or payload are none of ours
     */
    static Event decode(String kind, String payload) {
        Json json = Json.parse(payload);
        return switch (kind) {
            case "bike-described" ->
                new Event.BikeDescribed(
                        json.text("bike"),
                        json.integers("rings"),
                        json.integers("cogs"),
                        json.optionalReal("circumference_metres"),
                        json.integers("jockeys"),
                        money(json.optionalObject("cassette_price")),
                        money(json.optionalObject("rings_price")));
            case "chain-described" ->
                new Event.ChainDescribed(
                        json.text("chain"),
                        Math.toIntExact(json.integer("pitches")),
                        Math.toIntExact(json.integer("speeds")),
                        json.optionalReal("limit_percent"),
                        money(json.optionalObject("price")));
            case "product-described" ->
                new Event.ProductDescribed(
                        json.text("product"),
                        word(Method.of(json.text("method")), json.text("method")),
                        money(json.optionalObject("price")),
                        json.optionalReal("package_millilitres"),
                        json.optionalReal("treatment_millilitres"),
                        json.optionalReal("treatment_minutes"));
            case "bought" ->
                new Event.Bought(json.text("product"), time(json), Math.toIntExact(json.integer("packages")));
            case "installed" -> new Event.Installed(json.text("chain"), json.text("bike"), time(json));
            case "removed" -> new Event.Removed(json.text("chain"), time(json));
            case "treated" ->
                new Event.Treated(
                        json.text("chain"),
                        json.text("product"),
                        time(json),
                        word(Cleaning.of(json.text("cleaning")), json.text("cleaning")),
                        json.optionalReal("millilitres"),
                        json.optionalReal("minutes"));
            case "measured" -> new Event.Measured(json.text("chain"), time(json), reading(json.object("reading")));
            case "remarked" ->
                new Event.Remarked(
                        json.text("chain"),
                        time(json),
                        constant(Remark.class, json.text("remark")),
                        json.text("words"));
            case "tagged" -> {
                String moisture = json.optionalText("moisture");
                String grit = json.optionalText("grit");
                yield new Event.Tagged(
                        json.texts("rides"),
                        moisture == null ? null : constant(Moisture.class, moisture),
                        json.real("share"),
                        grit == null ? null : constant(Grit.class, grit));
            }
            case "untagged" -> new Event.Untagged(json.texts("rides"));
            case "rides-assigned" -> new Event.RidesAssigned(json.texts("rides"), json.optionalText("bike"));
            case "rides-counted" -> new Event.RidesCounted(json.texts("rides"), json.optionalTruth("counts"));
            case "twin-stated" -> new Event.TwinStated(json.text("ride"), json.optionalText("of"));
            case "rule-set" ->
                new Event.RuleSet(
                        new Rule(when(json.object("when")), json.optionalText("bike"), json.optionalTruth("counts")));
            case "rule-dropped" -> new Event.RuleDropped(when(json.object("when")));
            case "speed-band-set" -> new Event.SpeedBandSet(json.real("low_kmh"), json.real("high_kmh"));
            case "weather-added" ->
                new Event.WeatherAdded(
                        json.text("source"),
                        json.integer("observations"),
                        json.texts("stations"),
                        instant(json.text("from")),
                        instant(json.text("to")));
            case "road-word-set" -> new Event.RoadWordSet(json.text("word"), json.optionalText("meaning"));
            case "factor-set" ->
                new Event.FactorSet(
                        json.text("key"),
                        json.optionalReal("value"),
                        json.optionalReal("low"),
                        json.optionalReal("high"));
            case "renamed" ->
                new Event.Renamed(constant(Event.Named.class, json.text("what")), json.text("from"), json.text("to"));
            case "chains-merged" -> new Event.ChainsMerged(json.text("chain"), json.text("into"));
            case "redated" -> new Event.Redated(json.integer("target"), time(json));
            case "undone" -> new Event.Undone(json.integer("target"));
            default -> throw new IllegalArgumentException("unknown kind of entry: " + kind);
        };
    }

    private static Encoded encoded(String kind, Json json) {
        return new Encoded(kind, json.toString());
    }

    /** As all instants are kept. */
    static String time(Instant at) {
        return INSTANT.format(at);
    }

    /** @throws java.time.DateTimeException when the text is none of ours */
    static Instant instant(String text) {
        return INSTANT.parse(text, Instant::from);
    }

    private static Instant time(Json json) {
        return instant(json.text("at"));
    }

    private static @Nullable Json money(@Nullable Money money) {
        return money == null ? null : new Json().with("minor", money.minor()).with("currency", money.currency());
    }

    private static @Nullable Money money(@Nullable Json json) {
        return json == null ? null : new Money(json.integer("minor"), json.text("currency"));
    }

    private static Json reading(Reading reading) {
        if (reading instanceof Reading.Elongation r) {
            boolean percent = r.unit() == Reading.Unit.PERCENT;
            boolean single = percent && r.places() == 1;
            return new Json()
                    .with("percent", single ? r.stated().get(0) : null)
                    .with("percents", percent && !single ? r.stated() : null)
                    .with("lengths_mm", percent ? null : r.stated())
                    .with("tool", word(r.tool()))
                    .with("pitches", r.pitches())
                    .with("error_percent", r.statedError())
                    .with("play_mm", r.playMillimetres());
        } else if (reading instanceof Reading.Gauge r) {
            return new Json()
                    .with("edge_percent", r.stated())
                    .with("drops", r.drops())
                    .with("error_percent", r.statedError())
                    .with("play_mm", r.playMillimetres())
                    .with("pitches", r.pitches() == Reading.Tool.GAUGE.usualPitches() ? null : r.pitches());
        }
        throw new AssertionError(reading);
    }

    private static Reading reading(Json json) {
        String tool = json.optionalText("tool");
        Double error = json.optionalReal("error_percent");
        Double play = json.optionalReal("play_mm");
        if (tool == null) {
            Double pitches = json.optionalReal("pitches");
            return new Reading.Gauge(
                    json.real("edge_percent"),
                    json.truth("drops"),
                    error,
                    play,
                    pitches == null ? Reading.Tool.GAUGE.usualPitches() : pitches.intValue());
        }
        Double one = json.optionalReal("percent");
        List<Double> percents = one == null ? json.reals("percents") : List.of(one);
        List<Double> lengths = json.reals("lengths_mm");
        return new Reading.Elongation(
                lengths.isEmpty() ? percents : lengths,
                lengths.isEmpty() ? Reading.Unit.PERCENT : Reading.Unit.MILLIMETRES,
                constant(Reading.Tool.class, tool),
                Math.toIntExact(json.integer("pitches")),
                error,
                play);
    }

    private static Json when(Rule.When when) {
        if (when instanceof Rule.Sensor w) {
            return new Json().with("sensor", w.type()).with("serial", w.serial());
        } else if (when instanceof Rule.Path w) {
            return new Json().with("path", w.pattern());
        } else if (when instanceof Rule.SubSport w) {
            return new Json().with("sub_sport", w.word());
        } else if (when instanceof Rule.Otherwise) {
            return new Json().with("otherwise", true);
        }
        throw new AssertionError(when);
    }

    private static Rule.When when(Json json) {
        String sensor = json.optionalText("sensor");
        String path = json.optionalText("path");
        String subSport = json.optionalText("sub_sport");
        if (sensor != null) {
            return new Rule.Sensor(sensor, json.text("serial"));
        } else if (path != null) {
            return new Rule.Path(path);
        } else if (subSport != null) {
            return new Rule.SubSport(subSport);
        } else if (json.truth("otherwise")) {
            return new Rule.Otherwise();
        }
        throw new IllegalArgumentException("unknown condition of a rule: " + json);
    }

    private static String word(Enum<?> constant) {
        return constant.name().toLowerCase(Locale.ROOT);
    }

    private static <E extends Enum<E>> E constant(Class<E> type, String word) {
        return Enum.valueOf(type, word.toUpperCase(Locale.ROOT));
    }

    private static <T> T word(Optional<T> found, String word) {
        return found.orElseThrow(() -> new IllegalArgumentException("unknown word: " + word));
    }
}
