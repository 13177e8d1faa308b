package chainage.answer.rides;

import chainage.analysis.Analysis;
import chainage.answer.LoadWords;
import chainage.answer.NextStep;
import chainage.answer.OutingWords;
import chainage.answer.Reasons;
import chainage.answer.RoadNames;
import chainage.attribution.AttributedRide;
import chainage.condition.Condition;
import chainage.exposure.CountedRide;
import chainage.exposure.RideExposure;
import chainage.ledger.Grit;
import chainage.ledger.Moisture;
import chainage.quantity.LocalClock;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Json;
import chainage.render.Out;
import chainage.render.Unit;
import chainage.ride.Ride;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * Rides: when, how far, on which bike and chain, on what road.
 *
 * @param analysis they are taken from
 * @param rows rides shown, by start; one that ran on several chains once for each
 * @param why whether each row says what it rests on
 * @param missing where there is no ledger yet; null where there is one
 */
public record RidesAnswer(
        Analysis analysis,
        List<Row> rows,
        boolean why,
        Formatter format,
        @Nullable String missing) implements Answer {

    /**
     * A ride with what follows from it.
     *
     * @param counted null where it does not count
     * @param onChain metres that a chain ran, or would have run
     */
    public record Row(AttributedRide attributed, @Nullable CountedRide counted, double onChain, Formatter format) {
        /** A row for each chain that ran in a ride: one for most, more on a bike that others follow. */
        public static Stream<Row> of(Analysis analysis, AttributedRide r, Formatter format) {
            CountedRide counted = analysis.exposures().counted().get(r.id());
            double metres = analysis.exposures().metresOf(r);
            return counted == null
                    ? Stream.of(new Row(r, null, metres, format))
                    : counted.each().map(c -> new Row(c.ride(), c, metres, format));
        }

        private Ride ride() {
            return attributed.filed().ride();
        }

        /** Whether any of it was on such a road. */
        public boolean isOn(Road road) {
            return counted != null && road.holds(counted.condition());
        }

        double countedMetres() {
            return counted == null || (attributed.chain() == null && !attributed.lacksChain()) ? 0 : onChain;
        }

        /** What tells the local time. */
        String localFrom() {
            LocalClock.Told told = format.clock().told(ride().start());
            if (told == null) {
                return "zone";
            }
            String as = told.as();
            return as == null ? "file" : as.equals(attributed.id()) ? "zone" : as;
        }

        private <T> @Nullable T road(Function<Condition, T> figure) {
            return counted == null ? null : figure.apply(counted.condition());
        }

        private <T> @Nullable T weighed(Function<RideExposure, @Nullable T> figure) {
            RideExposure e = counted == null ? null : counted.exposure();
            return e == null ? null : figure.apply(e);
        }
    }

    /** A road that may be asked for; what was partly wet is wet. */
    public enum Road {
        DRY,
        DAMP,
        WET,
        INDOOR,
        DUSTY,
        GRITTY;

        private boolean holds(Condition c) {
            return switch (this) {
                case DRY -> c.moisture() == Moisture.DRY;
                case DAMP -> c.dampShare() > 0;
                case WET -> c.wetShare() > 0;
                case INDOOR -> c.moisture() == Moisture.INDOOR;
                case DUSTY -> c.grit() == Grit.DUSTY;
                case GRITTY -> c.grit() == Grit.GRITTY;
            };
        }
    }

    /** What rides may be sorted by. Those of which it is not known come first, the most last. */
    public enum Order {
        START,
        RIDDEN,
        BIKE,
        CHAIN,
        ROAD;

        /** Rows that are in order of their start, in this order. */
        public List<Row> of(List<Row> rows) {
            return this == START ? rows : rows.stream().sorted(by()).toList();
        }

        private Comparator<Row> by() {
            return switch (this) {
                case START -> Comparator.comparing(r -> r.ride().start());
                case RIDDEN -> Comparator.comparing(Row::onChain);
                case BIKE ->
                    Comparator.comparing(
                            r -> Objects.requireNonNullElse(r.attributed().bike(), ""));
                case CHAIN ->
                    Comparator.comparing(
                            r -> Objects.requireNonNullElse(r.attributed().chain(), ""));
                case ROAD ->
                    Comparator.<Row>comparingDouble(r -> share(r, Condition::wetShare))
                            .thenComparingDouble(r -> share(r, Condition::dampShare))
                            .thenComparingDouble(r ->
                                    share(r, c -> c.grit() == Grit.GRITTY ? 2 : c.grit() == Grit.DUSTY ? 1 : 0));
            };
        }

        private static double share(Row row, ToDoubleFunction<Condition> of) {
            return row.counted() == null ? -1 : of.applyAsDouble(row.counted().condition());
        }
    }

    /** A ride's fields and columns. */
    public static final Columns<Row> COLUMNS = Columns.of(
            Column.<Row>id(
                            "id",
                            "by which the ride is called up",
                            r -> r.attributed().id())
                    .head("RIDE"),
            Column.name(
                    "file",
                    "where it was first found",
                    r -> r.attributed().filed().paths().stream().findFirst().orElse("")),
            Column.word("format", "fit, gpx or tcx", r -> r.ride().format().word()),
            Column.count(
                    "session",
                    "its place in the file, from 0",
                    r -> r.ride().key().session()),
            Column.<Row>time("start", "when it began", r -> r.ride().start()).head("START"),
            Column.<Row>word(
                    "local_start",
                    "the same as it was where it began",
                    r -> r.format().local(r.ride().start())),
            Column.<Row>word(
                    "local_from", "what that rests on: file, the id of a ride near by, or zone", Row::localFrom),
            Column.figure(
                    "elapsed_s",
                    Unit.SECONDS,
                    1,
                    "from start to end",
                    r -> r.ride().elapsedSeconds()),
            Column.figure(
                    "moving_s", Unit.SECONDS, 1, "without stops", r -> r.ride().movingSeconds()),
            Column.<Row>figure(
                            "metres",
                            Unit.METRES,
                            1,
                            "the ride's own distance",
                            r -> r.ride().distance().metres())
                    .head("RIDDEN")
                    .as((r, format) -> format.distance(r.onChain())),
            Column.word(
                    "metres_from",
                    "what the distance rests on",
                    r -> r.ride().distance().from().words()),
            Column.word("sport", "as the file says", r -> r.ride().activity().sport()),
            Column.word(
                    "sub_sport", "as the file says", r -> r.ride().activity().subSport()),
            Column.word(
                    "verdict",
                    "ride, twin or not-a-ride",
                    r -> r.attributed()
                            .verdict()
                            .name()
                            .toLowerCase(Locale.ROOT)
                            .replace('_', '-')),
            Column.truth("counts", "whether it is counted", r -> r.attributed().counted()),
            // Finer than the others, so that a column of thousands adds up to what due says.
            Column.figure(
                    "counted_metres",
                    Unit.METRES,
                    3,
                    "what it adds to a chain, or to what is not attributed; 0 for twins and all else",
                    Row::countedMetres),
            Column.word(
                    "because",
                    "what the verdict rests on",
                    r -> Reasons.of(r.attributed().because(), r.format())),
            Column.<Row>name(
                            "bike",
                            "it was on; null where nothing tells",
                            r -> r.attributed().bike())
                    .head("BIKE"),
            Column.word(
                    "bike_from",
                    "the rule that says so; null where there is none",
                    r -> r.attributed().bikeFrom() == null
                            ? null
                            : Reasons.of(r.attributed().bikeFrom())),
            Column.<Row>name(
                            "chain",
                            "that was on the bike; null where none was",
                            r -> r.attributed().chain())
                    .head("CHAIN"),
            Column.name(
                    "product",
                    "the chain was treated with; null where it counts for no chain",
                    r -> r.weighed(e -> e.product().product())),
            Column.time(
                    "treated_at", "when; null where no treatment is noted", r -> r.weighed(RideExposure::treatedAt)),
            Column.word(
                    "moisture",
                    "indoor, dry, damp or wet",
                    r -> r.road(c -> c.moisture().word())),
            Column.word(
                    "grit", "clean, dusty or gritty", r -> r.road(c -> c.grit().word())),
            Column.figure(
                    "wet_share", Unit.SHARE, 3, "of the distance on a wet road", r -> r.road(Condition::wetShare)),
            Column.figure(
                    "damp_share", Unit.SHARE, 3, "of the distance on a damp road", r -> r.road(Condition::dampShare)),
            Column.word("condition_from", "what the road rests on", r -> r.road(c -> Reasons.of(c, r.format()))),
            Column.id(
                    "twin_of",
                    "the ride that this one repeats; null for none",
                    r -> r.attributed().twinOf()),
            Column.figure(
                    "avg_watts",
                    Unit.WATTS,
                    1,
                    "mean power; null where the file has none",
                    r -> r.ride().effort().watts()),
            Column.figure(
                    "chain_metres",
                    Unit.METRES,
                    1,
                    "what the chain ran",
                    r -> r.counted() == null ? null : r.counted().metres().metres()),
            Column.word(
                    "chain_metres_from",
                    "what that rests on",
                    r -> r.counted() == null ? null : Reasons.of(r.counted().metres(), r.ride())),
            Column.figure(
                    "treatment_metres",
                    Unit.METRES,
                    1,
                    "dry, clean distance that it counts as for the treatment; null where it counts for no chain",
                    r -> r.weighed(RideExposure::treatmentMetres)),
            Column.figure(
                    "wear_metres",
                    Unit.METRES,
                    1,
                    "dry, clean distance that it counts as for wear; null where it counts for no chain",
                    r -> r.weighed(RideExposure::wearMetres)),
            Column.figure(
                    "load",
                    Unit.TIMES,
                    3,
                    "work at the pins against a reference rider's; null where it counts for no chain",
                    r -> r.weighed(e -> e.load().value())),
            Column.word(
                    "load_from",
                    "what the load rests on; null where it counts for no chain",
                    r -> r.weighed(e -> LoadWords.of(e.load().from()))),
            Column.figure(
                    "load_usable",
                    Unit.SHARE,
                    3,
                    "of the distance that the load is known for; null where it counts for no chain",
                    r -> r.weighed(e -> e.load().usable())),
            Column.list(
                    "sensors",
                    "kind and serial of each",
                    r -> r.ride().devices().stream().map(Ride.Device::name).toList()),
            Column.name("title", "as the file has it", r -> r.ride().labels().title()),
            Column.list("remarks", "what was odd about the file", r -> r.ride().remarks()),
            Column.name(
                    "salvaged",
                    "how much of a broken file was read; null for a whole one",
                    r -> r.ride().salvaged()),
            Column.<Row>shown(
                    "ROAD",
                    Unit.ID,
                    (r, format) -> r.counted() == null
                            ? r.attributed().verdict() == AttributedRide.Verdict.TWIN ? "duplicate" : "not a ride"
                            : RoadNames.words(r.counted().condition())));

    /** What scripts get. */
    public static final Columns<RidesAnswer> FIELDS =
            Columns.of(Column.rows("rides", "by start", COLUMNS, RidesAnswer::rows));

    @Override
    public Json json() {
        return FIELDS.json(this);
    }

    /** What there is in place of rows; empty where there are any. */
    public List<String> nothing() {
        return !rows.isEmpty()
                ? List.of()
                : analysis.rides().isEmpty() ? NextStep.next(missing, analysis) : List.of("No ride fits.");
    }

    @Override
    public void print(Out out) {
        if (rows.isEmpty()) {
            out.lines(nothing());
            return;
        }
        out.table(COLUMNS.table(rows, format, r -> why ? reason(r) : null));
        out.hint(sum());
    }

    /** How many they are, and how far. */
    public String sum() {
        Map<String, Row> rides = new LinkedHashMap<>();
        rows.forEach(r -> rides.putIfAbsent(r.attributed().id(), r));
        List<Row> those =
                rides.values().stream().filter(r -> r.attributed().counted()).toList();
        double metres = those.stream().mapToDouble(Row::onChain).sum();
        return Formatter.count(those.size(), "ride", "rides") + ", " + format.distance(metres)
                + (those.size() == rides.size() ? "" : "; " + (rides.size() - those.size()) + " not counted");
    }

    /** Whose local time a ride's date is; empty where no ride says that it was elsewhere. */
    private static String local(Row row) {
        if (!row.format().clock().isTold()) {
            return "";
        }
        String from = row.localFrom();
        return "; local time " + row.format().local(row.ride().start()).substring(16) + " "
                + switch (from) {
                    case "file" -> "as the file states";
                    case "zone" -> "of " + row.format().zone().getId();
                    default -> "as at ride " + from + " near by";
                };
    }

    private static String reason(Row row) {
        AttributedRide r = row.attributed();
        CountedRide counted = row.counted();
        if (counted == null) {
            return Reasons.of(r.because(), row.format());
        }
        RideExposure e = counted.exposure();
        String recordings =
                OutingWords.differing(r, row.format()).map(w -> "; " + w).orElse("");
        return "bike: " + (r.bikeFrom() == null ? "no rule names one" : Reasons.of(r.bikeFrom())) + "; road: "
                + Reasons.of(counted.condition(), row.format()) + "; distance: "
                + Reasons.of(counted.metres(), row.ride())
                + recordings
                + local(row)
                + (e == null
                        ? ""
                        : "; load " + Formatter.fixed(e.load().value(), 2) + ": "
                                + LoadWords.all(e.load()) + "; counts "
                                + Formatter.fixed(e.treatmentFactor(), 2) + " times for the treatment, "
                                + Formatter.fixed(e.wearFactor() * e.load().value(), 2) + " for wear");
    }
}
