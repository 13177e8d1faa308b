package chainage.answer;

import chainage.ledger.Event;
import chainage.ledger.Grit;
import chainage.ledger.Kinds;
import chainage.ledger.MeterPlace;
import chainage.ledger.Method;
import chainage.ledger.Moisture;
import chainage.ledger.Rule;
import chainage.render.Formatter;
import java.time.Instant;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.BiFunction;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** Facts in words, one line each. */
public final class EventWords {
    /** The words of one kind. */
    private interface Words<E extends Event> {
        String of(E event, Formatter format);
    }

    private static final Map<Class<?>, Words<Event>> KINDS = new HashMap<>();

    static {
        put(Event.BikeDescribed.class, (e, format) -> "bike " + e.bike() + said(e, format));
        put(Event.ChainDescribed.class, (e, format) -> "chain " + e.chain() + said(e, format));
        put(Event.ProductDescribed.class, (e, format) -> "product " + e.product() + said(e, format));
        put(Event.Changed.class, (e, format) -> e.what().word() + " " + e.name() + said(e, format));
        put(
                Event.Bought.class,
                (e, format) -> Formatter.count(e.packages(), "package", "packages") + " of " + e.product() + " bought, "
                        + format.date(e.at()));
        put(Event.Installed.class, (e, format) -> e.chain() + " on " + e.bike() + " from " + format.time(e.at()));
        put(Event.Removed.class, (e, format) -> e.chain() + " taken off its bike, " + format.time(e.at()));
        put(
                Event.Treated.class,
                (e, format) -> e.chain() + " treated with " + e.product()
                        + (e.heard() == null ? "" : ", " + e.heard().word() + " before") + ", "
                        + format.time(e.at()));
        put(
                Event.Measured.class,
                (e, format) -> e.chain() + ": " + ReadingWords.of(e.reading()) + ", " + format.time(e.at()));
        put(
                Event.Remarked.class,
                (e, format) -> e.chain() + ": " + e.remark().word()
                        + (e.words().isEmpty() ? "" : ", \"" + e.words() + "\"") + ", " + format.time(e.at()));
        put(
                Event.Tagged.class,
                (e, format) -> rides(e.rides()) + " tagged " + flags(e.moisture(), e.share(), e.grit()));
        put(Event.Untagged.class, (e, format) -> rides(e.rides()) + ": tags withdrawn");
        put(
                Event.RidesAssigned.class,
                (e, format) -> rides(e.rides()) + (e.bike() == null ? ": bike withdrawn" : " on " + e.bike()));
        put(
                Event.RidesTold.class,
                (e, format) -> "table " + name(e.table())
                        + (e.isMissing()
                                ? " was missing"
                                : " read: " + Formatter.count(e.rows().size(), "ride", "rides")));
        put(
                Event.RidesCounted.class,
                (e, format) -> rides(e.rides())
                        + (e.counts() == null ? ": verdict withdrawn" : e.counts() ? ": a ride" : ": not a ride"));
        put(
                Event.TwinStated.class,
                (e, format) -> "ride " + e.ride()
                        + (e.of() == null
                                ? ": word on duplicates withdrawn"
                                : e.of().equals(e.ride())
                                        ? ": an outing of its own"
                                        : ": the same outing as " + e.of()));
        put(Event.RuleSet.class, (e, format) -> "rule: " + rule(e.rule()));
        put(
                Event.RuleDropped.class,
                (e, format) -> "rule withdrawn: " + e.when().words());
        put(
                Event.SpeedBandSet.class,
                (e, format) -> "unstated sport counts as a ride from " + speed(e.lowKmh(), format) + " to "
                        + speed(e.highKmh(), format) + " " + format.speedUnit());
        put(
                Event.WeatherAdded.class,
                (e, format) ->
                        Formatter.count(e.observations(), "weather record", "weather records") + " from " + e.source()
                                + (e.stations().isEmpty() ? "" : ", " + String.join(", ", e.stations())) + ", "
                                + format.date(e.from()) + " to " + format.date(e.to()));
        put(
                Event.RoadWordSet.class,
                (e, format) -> "word \"" + e.word() + "\" says "
                        + (e.meaning() == null
                                ? "what the list says"
                                : e.meaning().equals("none") ? "nothing" : e.meaning()));
        put(
                Event.EvidenceAdded.class,
                (e, format) ->
                        "evidence of " + Formatter.count(e.riders().size(), "rider", "riders") + " as " + e.as());
        put(Event.EvidenceRemoved.class, (e, format) -> "evidence of " + e.as() + " removed");
        put(
                Event.ProductsSame.class,
                (e, format) -> "product " + e.product() + " is what others call \"" + e.word() + "\"");
        put(
                Event.MeterPlaced.class,
                (e, format) -> "power meter " + e.meter()
                        + (e.place() == null
                                ? ": word on its place withdrawn"
                                : " is " + place(e.place())
                                        + (e.readsHighPercent() == null
                                                ? ""
                                                : ", reads " + Formatter.signed(e.readsHighPercent(), 2) + " %")));
        put(
                Event.FactorSet.class,
                (e, format) -> "factor " + e.key() + (e.value() == null ? ": the table's value" : " = " + figure(e)));
        put(
                Event.SettingSet.class,
                (e, format) -> "setting " + e.setting()
                        + (e.values().isEmpty() ? ": the default" : " = " + String.join(", ", e.values())));
        put(Event.Renamed.class, (e, format) -> e.what().word() + " " + e.from() + " renamed " + e.to());
        put(Event.ChainsMerged.class, (e, format) -> "chain " + e.chain() + " merged into " + e.into());
        put(Event.Redated.class, (e, format) -> "entry " + e.target() + " dated " + format.time(e.to()));
        put(
                Event.LogbookRead.class,
                (e, format) ->
                        "logbook " + name(e.file()) + (e.awaited().isEmpty() ? " read: lines " : " written: lines ")
                                + e.lines().size() + " in, " + e.gone().size() + " out, "
                                + e.refused().size() + " refused");
        put(Event.AppendSet.class, (e, format) -> {
            String file = e.file();
            return file == null ? "no logbook written along" : "logbook " + name(file) + " written along";
        });
        put(
                Event.Lost.class,
                (e, format) -> "lost to a damaged disk" + (e.was().isEmpty() ? "" : "; what was left: " + e.was()));
        put(Event.Undone.class, (e, format) -> "entry " + e.target() + " taken back");
    }

    /** What a description says, by the fields it is kept in, in the order in which it is told. */
    private static final Map<String, BiFunction<Object, Formatter, String>> SAID = new LinkedHashMap<>();

    static {
        SAID.put("method", (v, format) -> ", " + ((Method) v).words());
        SAID.put("rings", (v, format) -> teeth("rings ", v));
        SAID.put("cogs", (v, format) -> teeth("cogs ", v));
        SAID.put("circumference_metres", (v, format) -> ", wheel " + Formatter.number((Double) v) + " m");
        SAID.put("jockeys", (v, format) -> teeth("jockey wheels ", v));
        SAID.put("cassette_price", (v, format) -> ", cassette " + v);
        SAID.put("rings_price", (v, format) -> ", rings " + v);
        SAID.put("chainless", (v, format) -> v.equals(true) ? ", without a chain" : ", with a chain");
        SAID.put("chains_from", (v, format) -> ", chains noted from " + format.time((Instant) v));
        SAID.put("follows", (v, format) -> ", follows " + v);
        SAID.put("speeds", (v, format) -> v.equals(0) ? "" : ", " + v + " speeds");
        SAID.put("pitches", (v, format) -> v.equals(0) ? "" : ", " + v + " links");
        SAID.put("limit_percent", (v, format) -> ", limit " + Formatter.number((Double) v) + " %");
        SAID.put("used", (v, format) -> v.equals(true) ? ", used before" : ", new");
        SAID.put("stripped", (v, format) -> v.equals(true) ? ", washed bare" : ", on its factory grease");
        SAID.put("price", (v, format) -> ", " + v);
        SAID.put("package_millilitres", (v, format) -> " for " + Formatter.number((Double) v) + " ml");
        SAID.put("treatment_millilitres", (v, format) -> ", " + Formatter.number((Double) v) + " ml a treatment");
        SAID.put("treatment_minutes", (v, format) -> ", " + Formatter.number((Double) v) + " minutes");
    }

    private EventWords() {}

    /** A path's last name. */
    public static String name(String path) {
        return path.substring(path.replace('\\', '/').lastIndexOf('/') + 1);
    }

    /** For example {@code before the chain}. */
    public static String place(MeterPlace place) {
        return switch (place) {
            case BEFORE_CHAIN -> "before the chain";
            case BEHIND_CHAIN -> "behind the chain";
            case NOT_RECORDED -> "not what files hold";
        };
    }

    @SuppressWarnings("unchecked") // under its type lie the words of it
    private static <E extends Event> void put(Class<E> type, Words<E> words) {
        KINDS.put(type, (Words<Event>) words);
    }

    public static String of(Event event, Formatter format) {
        return Objects.requireNonNull(KINDS.get(event.getClass()), () -> event + " has no words")
                .of(event, format);
    }

    /** For example {@code wet for 40 %, gritty}. */
    public static String flags(@Nullable Moisture moisture, double share, @Nullable Grit grit) {
        String m = moisture == null ? "" : moisture.word() + (share < 1 ? " for " + Formatter.percent(share) : "");
        String g = grit == null ? "" : grit.word();
        return m.isEmpty() ? g : g.isEmpty() ? m : m + ", " + g;
    }

    /** The rider's value of a factor; empty where it is the table's. */
    public static String figure(Event.FactorSet set) {
        return set.value() == null
                ? ""
                : Formatter.number(set.value())
                        + (set.low() == null || set.high() == null
                                ? ""
                                : ", in 8 of 10 cases between " + Formatter.number(set.low()) + " and "
                                        + Formatter.number(set.high()));
    }

    private static String said(Event description, Formatter format) {
        Map<String, Object> values = Kinds.of(description).values(description);
        return SAID.entrySet().stream()
                .filter(e -> values.containsKey(e.getKey()))
                .map(e -> e.getValue().apply(Objects.requireNonNull(values.get(e.getKey())), format))
                .collect(Collectors.joining());
    }

    private static String teeth(String what, Object counts) {
        List<?> list = (List<?>) counts;
        return list.isEmpty()
                ? ""
                : ", " + what + list.stream().map(String::valueOf).collect(Collectors.joining("/"));
    }

    private static String speed(double kmh, Formatter format) {
        return Formatter.number(Math.rint(10 * format.ofMetres(1000 * kmh)) / 10);
    }

    private static String rule(Rule rule) {
        return rule.when().words() + " → "
                + (rule.bike() != null ? rule.bike() : Boolean.TRUE.equals(rule.counts()) ? "a ride" : "not a ride");
    }

    private static String rides(List<String> ids) {
        return ids.size() == 1 ? "ride " + ids.get(0) : ids.size() + " rides";
    }
}
