package chainage.ledger;

import chainage.ledger.Value.Choice;
import chainage.ledger.Value.Count;
import chainage.ledger.Value.Items;
import chainage.ledger.Value.Real;
import chainage.ledger.Value.Ride;
import chainage.ledger.Value.Text;
import chainage.ledger.Value.Time;
import chainage.ledger.Value.Truth;
import chainage.ledger.Value.Whole;
import chainage.ledger.Value.Word;
import chainage.quantity.Money;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * Every kind of fact, each declared once. Words and names of fields stay as they are for ever, since ledgers hold them;
 * bounds are wide enough for whatever the program itself has let in.
 */
public final class Kinds {
    private static final Value<Double> MILLILITRES = new Real(0, 100_000);
    private static final Value<Double> MINUTES = new Real(0, 1440);
    private static final Value<Double> PERCENT = new Real(-10, 10);
    private static final Value<Double> ERROR_PERCENT = new Real(0, 10);
    private static final Value<Double> KMH = new Real(0, 1000);
    private static final Value<Double> FACTOR = new Real(-1e9, 1e9);
    private static final Value<Integer> PITCHES = new Count(0, 400);
    private static final Value<Integer> LINE = new Count(1, 100_000_000);
    private static final Value<Long> ENTRY = new Whole(1, Long.MAX_VALUE);

    /** Words of files and of riders; what cannot be printed is marked where it is shown. */
    private static final Value<String> WORDS = new Text(0, 100_000, false);

    private static final Value<String> SOURCE = new Text(1, 60, true);

    /** Records of stations go back to the days of paper. */
    private static final Value<Instant> OBSERVED = new Time(1800, false);

    private static final Kind<Event.BikeDescribed> BIKE_DESCRIBED =
            new Kind<>("bike-described", Event.BikeDescribed.class, k -> {
                var bike = k.describes(k.bike(Event.BikeDescribed::bike));
                var rings = k.maybe("rings", teeth(0, 10), Event.BikeDescribed::rings);
                var cogs = k.maybe("cogs", teeth(0, 30), Event.BikeDescribed::cogs);
                var wheel = k.maybe("circumference_metres", new Real(0.5, 5), Event.BikeDescribed::circumferenceMetres);
                var jockeys = k.maybe("jockeys", teeth(2, 2), e -> e.jockeys().isEmpty() ? null : e.jockeys());
                var cassette = k.maybe("cassette_price", price(), Event.BikeDescribed::cassettePrice);
                var ringsPrice = k.maybe("rings_price", price(), Event.BikeDescribed::ringsPrice);
                var chainless = k.maybe("chainless", new Truth(), e -> e.chainless() ? true : null);
                var chainsFrom = k.maybe("chains_from", new Time(1970, false), Event.BikeDescribed::chainsFrom);
                var follows = k.maybe("follows", bikeName(), Event.BikeDescribed::follows);
                k.takes((state, e) -> state.bikes.put(e.bike(), e));
                return v -> new Event.BikeDescribed(
                        v.get(bike),
                        v.or(rings, List.of()),
                        v.or(cogs, List.of()),
                        v.maybe(wheel),
                        v.or(jockeys, List.of()),
                        v.maybe(cassette),
                        v.maybe(ringsPrice),
                        v.or(chainless, false),
                        v.maybe(chainsFrom),
                        v.maybe(follows));
            });

    private static final Kind<Event.ChainDescribed> CHAIN_DESCRIBED =
            new Kind<>("chain-described", Event.ChainDescribed.class, k -> {
                var chain = k.describes(k.chain(Event.ChainDescribed::chain));
                var pitches = k.field("pitches", PITCHES, Event.ChainDescribed::pitches);
                var speeds = k.field("speeds", new Count(0, 20), Event.ChainDescribed::speeds);
                var limit = k.maybe("limit_percent", PERCENT, Event.ChainDescribed::limitPercent);
                var price = k.maybe("price", price(), Event.ChainDescribed::price);
                var used = k.maybe("used", new Truth(), e -> e.used() ? true : null);
                var stripped = k.maybe("stripped", new Truth(), e -> e.stripped() ? true : null);
                k.takes((state, e) -> state.chains.put(e.chain(), e));
                k.leavesRides();
                return v -> new Event.ChainDescribed(
                        v.get(chain),
                        v.get(pitches),
                        v.get(speeds),
                        v.maybe(limit),
                        v.maybe(price),
                        v.or(used, false),
                        v.or(stripped, false));
            });

    private static final Kind<Event.ProductDescribed> PRODUCT_DESCRIBED =
            new Kind<>("product-described", Event.ProductDescribed.class, k -> {
                var product = k.describes(k.product(Event.ProductDescribed::product));
                var method = k.field(
                        "method", Word.of(Method.class, Method::word, Method::today), Event.ProductDescribed::method);
                var price = k.maybe("price", price(), Event.ProductDescribed::price);
                var content = k.maybe("package_millilitres", MILLILITRES, Event.ProductDescribed::packageMillilitres);
                var dose = k.maybe("treatment_millilitres", MILLILITRES, Event.ProductDescribed::treatmentMillilitres);
                var minutes = k.maybe("treatment_minutes", MINUTES, Event.ProductDescribed::treatmentMinutes);
                k.takes((state, e) -> state.products.put(e.product(), e));
                k.leavesRides();
                return v -> new Event.ProductDescribed(
                        v.get(product),
                        v.get(method),
                        v.maybe(price),
                        v.maybe(content),
                        v.maybe(dose),
                        v.maybe(minutes));
            });

    private static final Map<Event.Named, Kind<Event.Changed>> CHANGED = Map.of(
            Event.Named.BIKE,
            BIKE_DESCRIBED.changes(
                    "bike-changed",
                    Event.Named.BIKE,
                    (state, e) -> state.bikes.computeIfPresent(e.name(), (n, before) -> over(before, e))),
            Event.Named.CHAIN,
            CHAIN_DESCRIBED.changes(
                    "chain-changed",
                    Event.Named.CHAIN,
                    (state, e) -> state.chains.computeIfPresent(e.name(), (n, before) -> over(before, e))),
            Event.Named.PRODUCT,
            PRODUCT_DESCRIBED.changes(
                    "product-changed",
                    Event.Named.PRODUCT,
                    (state, e) -> state.products.computeIfPresent(e.name(), (n, before) -> over(before, e))));

    private static final List<Kind<?>> ALL = new ArrayList<>(CHANGED.values());

    static {
        ALL.addAll(List.of(BIKE_DESCRIBED, CHAIN_DESCRIBED, PRODUCT_DESCRIBED));

        kind("bought", Event.Bought.class, k -> {
            var product = k.product(Event.Bought::product);
            var at = k.at(Event.Bought::at);
            var packages = k.field("packages", new Count(1, 1000), Event.Bought::packages);
            k.takes((state, e) -> State.add(state.purchases, e.product(), e));
            k.leavesRides();
            return v -> new Event.Bought(v.get(product), v.get(at), v.get(packages));
        });

        // Installations span time, and are built apart.
        kind("installed", Event.Installed.class, k -> {
            var chain = k.chain(Event.Installed::chain);
            var bike = k.bike(Event.Installed::bike);
            var at = k.at(Event.Installed::at);
            return v -> new Event.Installed(v.get(chain), v.get(bike), v.get(at));
        });

        kind("removed", Event.Removed.class, k -> {
            var chain = k.chain(Event.Removed::chain);
            var at = k.at(Event.Removed::at);
            return v -> new Event.Removed(v.get(chain), v.get(at));
        });

        kind("treated", Event.Treated.class, k -> {
            var chain = k.chain(Event.Treated::chain);
            var product = k.product(Event.Treated::product);
            var at = k.at(Event.Treated::at);
            var cleaning = k.field("cleaning", Word.of(Cleaning.class, Cleaning::word), Event.Treated::cleaning);
            var millilitres = k.maybe("millilitres", MILLILITRES, Event.Treated::millilitres);
            var minutes = k.maybe("minutes", MINUTES, Event.Treated::minutes);
            var heard = k.maybe("heard", Word.of(Heard.class, Heard::word), Event.Treated::heard);
            k.takes((state, e) -> {
                State.add(state.treatments, e.chain(), e);
                State.add(state.stories, e.chain(), e);
            });
            k.leavesRides();
            return v -> new Event.Treated(
                    v.get(chain),
                    v.get(product),
                    v.get(at),
                    v.get(cleaning),
                    v.maybe(millilitres),
                    v.maybe(minutes),
                    v.maybe(heard));
        });

        kind("measured", Event.Measured.class, k -> {
            var chain = k.chain(Event.Measured::chain);
            var at = k.at(Event.Measured::at);
            var reading = k.field("reading", reading(), Event.Measured::reading);
            k.takes((state, e) -> State.add(state.readings, e.chain(), e));
            k.leavesRides();
            return v -> new Event.Measured(v.get(chain), v.get(at), v.get(reading));
        });

        kind("remarked", Event.Remarked.class, k -> {
            var chain = k.chain(Event.Remarked::chain);
            var at = k.at(Event.Remarked::at);
            var remark = k.field("remark", Word.of(Remark.class, Remark::word), Event.Remarked::remark);
            var words = k.field("words", WORDS, Event.Remarked::words);
            k.takes((state, e) -> {
                State.add(state.remarks, e.chain(), e);
                State.add(state.stories, e.chain(), e);
            });
            k.leavesRides();
            return v -> new Event.Remarked(v.get(chain), v.get(at), v.get(remark), v.get(words));
        });

        kind("tagged", Event.Tagged.class, k -> {
            var rides = k.rides(Event.Tagged::rides);
            var moisture = k.maybe("moisture", Word.of(Moisture.class, Moisture::word), Event.Tagged::moisture);
            var share = k.field("share", new Real(0, 1), Event.Tagged::share);
            var grit = k.maybe("grit", Word.of(Grit.class, Grit::word), Event.Tagged::grit);
            k.takes((state, e) ->
                    e.rides().forEach(r -> state.flags.merge(r, Flags.NONE.with(e), (old, now) -> old.with(e))));
            k.leavesRides();
            return v -> new Event.Tagged(v.get(rides), v.maybe(moisture), v.get(share), v.maybe(grit));
        });

        kind("untagged", Event.Untagged.class, k -> {
            var rides = k.rides(Event.Untagged::rides);
            k.takes((state, e) -> e.rides().forEach(state.flags::remove));
            k.leavesRides();
            return v -> new Event.Untagged(v.get(rides));
        });

        kind("rides-assigned", Event.RidesAssigned.class, k -> {
            var rides = k.rides(Event.RidesAssigned::rides);
            var bike = k.maybe("bike", bikeName(), Event.RidesAssigned::bike);
            k.takes((state, e) -> e.rides().forEach(r -> State.set(state.bikeOfRide, r, e.bike())));
            return v -> new Event.RidesAssigned(v.get(rides), v.maybe(bike));
        });

        kind("rides-told", Event.RidesTold.class, k -> {
            var folder = k.field("folder", WORDS, Event.RidesTold::folder);
            var table = k.field("table", WORDS, Event.RidesTold::table);
            var columns = k.field("columns", lines(WORDS), Event.RidesTold::columns);
            var rows = k.field("rows", lines(told()), Event.RidesTold::rows);
            k.takes((state, e) -> e.rows().forEach(r -> State.set(state.told, r.ride(), r.tells() ? r : null)));
            return v -> new Event.RidesTold(v.get(folder), v.get(table), v.get(columns), v.get(rows));
        });

        kind("rides-counted", Event.RidesCounted.class, k -> {
            var rides = k.rides(Event.RidesCounted::rides);
            var counts = k.maybe("counts", new Truth(), Event.RidesCounted::counts);
            k.takes((state, e) -> e.rides().forEach(r -> State.set(state.counts, r, e.counts())));
            return v -> new Event.RidesCounted(v.get(rides), v.maybe(counts));
        });

        kind("twin-stated", Event.TwinStated.class, k -> {
            var ride = k.field("ride", new Ride(), Event.TwinStated::ride);
            var of = k.maybe("of", new Ride(), Event.TwinStated::of);
            k.takes((state, e) -> State.set(state.twins, e.ride(), e.of()));
            return v -> new Event.TwinStated(v.get(ride), v.maybe(of));
        });

        kind("rule-set", Event.RuleSet.class, k -> {
            var when = k.field("when", when(), e -> e.rule().when());
            var bike = k.maybe("bike", bikeName(), e -> e.rule().bike());
            var counts = k.maybe("counts", new Truth(), e -> e.rule().counts());
            k.takes((state, e) -> {
                state.rules.remove(e.rule().when());
                state.rules.put(e.rule().when(), e.rule());
            });
            return v -> new Event.RuleSet(new Rule(v.get(when), v.maybe(bike), v.maybe(counts)));
        });

        kind("rule-dropped", Event.RuleDropped.class, k -> {
            var when = k.field("when", when(), Event.RuleDropped::when);
            k.takes((state, e) -> state.rules.remove(e.when()));
            return v -> new Event.RuleDropped(v.get(when));
        });

        kind("speed-band-set", Event.SpeedBandSet.class, k -> {
            var low = k.field("low_kmh", KMH, Event.SpeedBandSet::lowKmh);
            var high = k.field("high_kmh", KMH, Event.SpeedBandSet::highKmh);
            k.demand("low_kmh is above high_kmh", e -> e.lowKmh() <= e.highKmh());
            k.takes((state, e) -> state.speeds = e);
            return v -> new Event.SpeedBandSet(v.get(low), v.get(high));
        });

        kind("weather-added", Event.WeatherAdded.class, k -> {
            var source = k.field("source", WORDS, Event.WeatherAdded::source);
            var observations = k.field("observations", new Whole(0, Long.MAX_VALUE), Event.WeatherAdded::observations);
            var stations = k.field("stations", new Items<>(WORDS, 0, 1_000_000), Event.WeatherAdded::stations);
            var from = k.field("from", OBSERVED, Event.WeatherAdded::from);
            var to = k.field("to", OBSERVED, Event.WeatherAdded::to);
            var place = k.maybe("place", WORDS, Event.WeatherAdded::place);
            var columns = k.maybe("columns", new Items<>(WORDS, 1, 10), Event.WeatherAdded::columns);
            k.demand("from is after to", e -> !e.from().isAfter(e.to()));
            return v -> new Event.WeatherAdded(
                    v.get(source),
                    v.get(observations),
                    v.get(stations),
                    v.get(from),
                    v.get(to),
                    v.maybe(place),
                    v.maybe(columns));
        });

        kind("road-word-set", Event.RoadWordSet.class, k -> {
            var word = k.field("word", new Text(1, 1000, false), Event.RoadWordSet::word);
            var meaning = k.maybe("meaning", new Text(1, 60, true), Event.RoadWordSet::meaning);
            k.takes((state, e) -> {
                String key = e.word().toLowerCase(Locale.ROOT);
                state.roadWords.remove(key);
                State.set(state.roadWords, key, e.meaning() == null ? null : e);
            });
            k.leavesRides();
            return v -> new Event.RoadWordSet(v.get(word), v.maybe(meaning));
        });

        kind("evidence-added", Event.EvidenceAdded.class, k -> {
            var as = k.field("as", SOURCE, Event.EvidenceAdded::as);
            var riders = k.field(
                    "riders", new Items<>(new Text(1, 5_000_000, false), 1, 100_000), Event.EvidenceAdded::riders);
            k.takes((state, e) -> e.riders().forEach(r -> State.add(state.evidence, e.as(), r)));
            return v -> new Event.EvidenceAdded(v.get(as), v.get(riders));
        });

        kind("evidence-removed", Event.EvidenceRemoved.class, k -> {
            var as = k.field("as", SOURCE, Event.EvidenceRemoved::as);
            k.takes((state, e) -> state.evidence.remove(e.as()));
            return v -> new Event.EvidenceRemoved(v.get(as));
        });

        kind("products-same", Event.ProductsSame.class, k -> {
            var product = k.product(Event.ProductsSame::product);
            var word = k.field("word", new Text(1, 60, true), Event.ProductsSame::word);
            k.takes((state, e) -> state.same.add(e));
            return v -> new Event.ProductsSame(v.get(product), v.get(word));
        });

        kind("meter-placed", Event.MeterPlaced.class, k -> {
            var type = k.field("type", WORDS, Event.MeterPlaced::type);
            var serial = k.field("serial", WORDS, Event.MeterPlaced::serial);
            var place = k.maybe("place", Word.of(MeterPlace.class, MeterPlace::word), Event.MeterPlaced::place);
            var high = k.maybe("reads_high_percent", PERCENT, Event.MeterPlaced::readsHighPercent);
            k.takes((state, e) -> State.set(state.meters, e.meter(), e.place() == null ? null : e));
            return v -> new Event.MeterPlaced(v.get(type), v.get(serial), v.maybe(place), v.maybe(high));
        });

        kind("factor-set", Event.FactorSet.class, k -> {
            var key = k.field("key", new Text(1, 200, true), Event.FactorSet::key);
            var value = k.maybe("value", FACTOR, Event.FactorSet::value);
            var low = k.maybe("low", FACTOR, Event.FactorSet::low);
            var high = k.maybe("high", FACTOR, Event.FactorSet::high);
            k.demand("low and high come together", e -> (e.low() == null) == (e.high() == null));
            k.takes((state, e) -> State.set(state.factors, Method.keyToday(e.key()), e.value() == null ? null : e));
            k.leavesRides();
            return v -> new Event.FactorSet(v.get(key), v.maybe(value), v.maybe(low), v.maybe(high));
        });

        kind("setting-set", Event.SettingSet.class, k -> {
            var setting = k.field("setting", new Text(1, 200, true), Event.SettingSet::setting);
            var values = k.field("values", new Items<>(WORDS, 0, 1000), Event.SettingSet::values);
            k.takes((state, e) ->
                    State.set(state.settings, e.setting(), e.values().isEmpty() ? null : e.values()));
            k.leavesRides();
            return v -> new Event.SettingSet(v.get(setting), v.get(values));
        });

        kind("renamed", Event.Renamed.class, k -> {
            var what = k.field("what", Word.of(Event.Named.class, Event.Named::word), Event.Renamed::what);
            var from = k.field("from", Value.Name.TEXT, Event.Renamed::from);
            var to = k.field("to", Value.Name.TEXT, Event.Renamed::to);
            k.corrects((facts, e) -> rename(facts, e.what(), e.from(), e.to()));
            return v -> new Event.Renamed(v.get(what), v.get(from), v.get(to));
        });

        kind("chains-merged", Event.ChainsMerged.class, k -> {
            var chain = k.field("chain", Value.Name.TEXT, Event.ChainsMerged::chain);
            var into = k.field("into", Value.Name.TEXT, Event.ChainsMerged::into);
            k.corrects((facts, e) -> {
                facts.values().removeIf(f -> f.describes(Event.Named.CHAIN, e.chain()));
                rename(facts, Event.Named.CHAIN, e.chain(), e.into());
            });
            return v -> new Event.ChainsMerged(v.get(chain), v.get(into));
        });

        kind("redated", Event.Redated.class, k -> {
            var target = k.target(Event.Redated::target);
            var at = k.field("at", new Time(1970, false), Event.Redated::to);
            k.corrects((facts, e) -> facts.computeIfPresent(
                    e.target(),
                    (n, f) -> f.with(new Rewrite() {
                        @Override
                        public Instant date(Instant before) {
                            return e.to();
                        }
                    })));
            return v -> new Event.Redated(v.get(target), v.get(at));
        });

        // What it takes back is left out before corrections are made.
        kind("undone", Event.Undone.class, k -> {
            var target = k.target(Event.Undone::target);
            k.corrects((facts, e) -> {});
            return v -> new Event.Undone(v.get(target));
        });

        kind("lost", Event.Lost.class, k -> {
            var was = k.field("was", WORDS, Event.Lost::was);
            k.corrects((facts, e) -> {});
            return v -> new Event.Lost(v.get(was));
        });

        // A memo, which changes no fact.
        kind("logbook-read", Event.LogbookRead.class, k -> {
            var file = k.field("file", WORDS, Event.LogbookRead::file);
            var was = k.maybe("was", WORDS, Event.LogbookRead::was);
            var digest = k.field("digest", new Text(1, 100, true), Event.LogbookRead::digest);
            var gone = k.maybe("gone", lines(WORDS), e -> e.gone().isEmpty() ? null : e.gone());
            var lines = k.maybe("lines", lines(line()), e -> e.lines().isEmpty() ? null : e.lines());
            var refused =
                    k.maybe("refused", lines(refusedLine()), e -> e.refused().isEmpty() ? null : e.refused());
            var awaited = k.maybe("awaited", lines(WORDS), e -> e.awaited().isEmpty() ? null : e.awaited());
            k.corrects((facts, e) -> {});
            return v -> new Event.LogbookRead(
                    v.get(file),
                    v.maybe(was),
                    v.get(digest),
                    v.or(gone, List.of()),
                    v.or(lines, List.of()),
                    v.or(refused, List.of()),
                    v.or(awaited, List.of()));
        });

        // Says where facts are written as well, and nothing of a chain.
        kind("append-set", Event.AppendSet.class, k -> {
            var file = k.maybe("file", WORDS, Event.AppendSet::file);
            k.takes((state, e) -> {});
            return v -> new Event.AppendSet(v.maybe(file));
        });
    }

    private static final Map<String, Kind<?>> BY_WORD =
            ALL.stream().collect(Collectors.toMap(Kind::word, Function.identity()));

    private static final Map<Class<?>, Kind<?>> BY_TYPE = ALL.stream()
            .filter(k -> k.type() != Event.Changed.class)
            .collect(Collectors.toMap(Kind::type, Function.identity()));

    private Kinds() {}

    /** Declares a kind. */
    private static <E extends Event> void kind(
            String word, Class<E> type, Function<Kind.Declaring<E>, Function<Shape.Stated, E>> declaration) {
        ALL.add(new Kind<>(word, type, declaration));
    }

    /** All of them. */
    static List<Kind<?>> all() {
        return List.copyOf(ALL);
    }

    /** The kind of a fact. */
    @SuppressWarnings("unchecked") // by its type lies the kind of it
    public static <E extends Event> Kind<E> of(E fact) {
        Kind<?> kind = fact instanceof Event.Changed c ? CHANGED.get(c.what()) : BY_TYPE.get(fact.getClass());
        if (kind == null) {
            throw new AssertionError(fact);
        }
        return (Kind<E>) kind;
    }

    /** True when facts are kept under this word. */
    public static boolean isWord(String word) {
        return BY_WORD.containsKey(word);
    }

    /**
     * The kind that is kept under a word.
     *
     * @throws IllegalArgumentException when there is none
     */
    public static Kind<?> named(String word) {
        Kind<?> kind = BY_WORD.get(word);
        if (kind == null) {
            throw new IllegalArgumentException("unknown kind of entry: " + word);
        }
        return kind;
    }

    private static void rename(SortedMap<Long, Entry> facts, Event.Named what, String from, String to) {
        Rewrite change = new Rewrite() {
            @Override
            public String name(Event.Named named, String name) {
                return named == what && name.equals(from) ? to : name;
            }
        };
        facts.replaceAll((n, f) -> f.with(change));
    }

    private static Value<String> bikeName() {
        return new Value.Name(Event.Named.BIKE);
    }

    private static Value<List<Integer>> teeth(int least, int most) {
        return new Items<>(new Count(1, 100), least, most);
    }

    private static <T> Value<List<T>> lines(Value<T> line) {
        return new Items<>(line, 0, 1_000_000);
    }

    private static Shape<Event.Told> told() {
        return Shape.of(k -> {
            var ride = k.field("ride", new Ride(), Event.Told::ride);
            var title = k.maybe("title", WORDS, Event.Told::title);
            var notes = k.maybe("notes", WORDS, Event.Told::notes);
            var bike = k.maybe("bike", bikeName(), Event.Told::bike);
            var written = k.maybe("written", WORDS, Event.Told::written);
            return v -> new Event.Told(v.get(ride), v.maybe(title), v.maybe(notes), v.maybe(bike), v.maybe(written));
        });
    }

    private static Shape<Event.LogbookLine> line() {
        return Shape.of(k -> {
            var number = k.field("line", LINE, Event.LogbookLine::number);
            var text = k.field("text", WORDS, Event.LogbookLine::text);
            var facts = k.field("facts", lines(ENTRY), Event.LogbookLine::facts);
            var instead = k.maybe("instead", lines(ENTRY), e -> e.instead().isEmpty() ? null : e.instead());
            return v -> new Event.LogbookLine(v.get(number), v.get(text), v.get(facts), v.or(instead, List.of()));
        });
    }

    private static Shape<Event.RefusedLine> refusedLine() {
        return Shape.of(k -> {
            var number = k.field("line", LINE, Event.RefusedLine::number);
            var text = k.field("text", WORDS, Event.RefusedLine::text);
            var reason = k.field("reason", WORDS, Event.RefusedLine::reason);
            return v -> new Event.RefusedLine(v.get(number), v.get(text), v.get(reason));
        });
    }

    private static Shape<Money> price() {
        return Shape.of(k -> {
            var minor = k.field("minor", new Whole(0, 1_000_000_000_000L), Money::minor);
            var currency = k.field("currency", new Text(3, 3, true), Money::currency);
            return v -> new Money(v.get(minor), v.get(currency));
        });
    }

    private static Value<Reading> reading() {
        return new Choice<>(List.of(
                new Choice.Form<>("tool", Reading.Elongation.class, elongation()),
                new Choice.Form<>("edge_percent", Reading.Gauge.class, gauge())));
    }

    private static Shape<Reading.Elongation> elongation() {
        return Shape.of(k -> {
            var percent = k.maybe(
                    "percent",
                    PERCENT,
                    r -> isPercent(r) && r.places() == 1 ? r.stated().get(0) : null);
            var percents = k.maybe(
                    "percents", new Items<>(PERCENT, 1, 1000), r -> isPercent(r) && r.places() > 1 ? r.stated() : null);
            var lengths = k.maybe(
                    "lengths_mm", new Items<>(new Real(1, 10_000), 1, 1000), r -> isPercent(r) ? null : r.stated());
            var tool = k.field("tool", Word.of(Reading.Tool.class, Reading.Tool::word), Reading.Elongation::tool);
            var pitches = k.field("pitches", new Count(1, 400), Reading.Elongation::pitches);
            var error = k.maybe("error_percent", ERROR_PERCENT, Reading.Elongation::statedError);
            var play = k.maybe("play_mm", new Real(0, 10), Reading.Elongation::playMillimetres);
            return v -> {
                List<Double> mm = v.or(lengths, List.of());
                Double one = v.maybe(percent);
                return new Reading.Elongation(
                        !mm.isEmpty() ? mm : one != null ? List.of(one) : v.or(percents, List.of()),
                        mm.isEmpty() ? Reading.Unit.PERCENT : Reading.Unit.MILLIMETRES,
                        v.get(tool),
                        v.get(pitches),
                        v.maybe(error),
                        v.maybe(play));
            };
        });
    }

    private static boolean isPercent(Reading.Elongation reading) {
        return reading.unit() == Reading.Unit.PERCENT;
    }

    private static Shape<Reading.Gauge> gauge() {
        int usual = Reading.Tool.GAUGE.usualPitches();
        return Shape.of(k -> {
            var edge = k.field("edge_percent", PERCENT, Reading.Gauge::stated);
            var drops = k.field("drops", new Truth(), Reading.Gauge::drops);
            var error = k.maybe("error_percent", ERROR_PERCENT, Reading.Gauge::statedError);
            var play = k.maybe("play_mm", new Real(0, 10), Reading.Gauge::playMillimetres);
            var pitches = k.maybe("pitches", new Count(1, 400), r -> r.pitches() == usual ? null : r.pitches());
            return v ->
                    new Reading.Gauge(v.get(edge), v.get(drops), v.maybe(error), v.maybe(play), v.or(pitches, usual));
        });
    }

    private static Value<Rule.When> when() {
        return new Choice<>(List.of(
                new Choice.Form<>("sensor", Rule.Sensor.class, Shape.of(k -> {
                    var type = k.field("sensor", WORDS, Rule.Sensor::type);
                    var serial = k.field("serial", WORDS, Rule.Sensor::serial);
                    return v -> new Rule.Sensor(v.get(type), v.get(serial));
                })),
                new Choice.Form<>("path", Rule.Path.class, Shape.of(k -> {
                    var pattern = k.field("path", WORDS, Rule.Path::pattern);
                    return v -> new Rule.Path(v.get(pattern));
                })),
                new Choice.Form<>("sub_sport", Rule.SubSport.class, Shape.of(k -> {
                    var word = k.field("sub_sport", WORDS, Rule.SubSport::word);
                    return v -> new Rule.SubSport(v.get(word));
                })),
                new Choice.Form<>("otherwise", Rule.Otherwise.class, Shape.of(k -> {
                    k.field("otherwise", new Truth(), w -> true);
                    return v -> new Rule.Otherwise();
                }))));
    }

    /** When it holds from; empty for facts that have no date of their own, such as a name or a rule. */
    public static Optional<Instant> happened(Event fact) {
        return of(fact).date(fact);
    }

    /** A description with what was said in place of what stood there. */
    public static <D extends Event> D over(D description, Event.Changed said) {
        return of(description).shape().with(description, said.said());
    }
}
