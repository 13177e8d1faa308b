package chainage.answer.things;

import chainage.analysis.Others;
import chainage.answer.Listing;
import chainage.evidence.ChainEvidence;
import chainage.evidence.PairEvidence;
import chainage.evidence.ReadingEvidence;
import chainage.evidence.RiderEvidence;
import chainage.evidence.RoadKilometres;
import chainage.evidence.TreatmentEvidence;
import chainage.ledger.Reading;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Json;
import chainage.render.Out;
import chainage.render.TextTable;
import chainage.render.Unit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** What other riders' chains have shown: the riders who were brought in, and all that is in a file. */
public final class EvidenceList {
    /** Below this weight a rider fits nobody; our choice. */
    private static final double ODD = 0.4;

    /**
     * A rider who was brought in.
     *
     * @param number by which rows are told apart; it changes as riders come and go
     * @param weight against a rider like the others; NaN where not counted
     * @param wear the same in what is known of wear; NaN where nothing was read
     * @param loss the same in what two power meters measured; NaN where they did not
     */
    public record Row(int number, Others.Rider rider, double weight, double wear, double loss) {
        private String words() {
            if (rider.again() != null) {
                return rider.again() == Others.Again.OWN ? "your own, counted once" : "brought in twice, counted once";
            }
            if (weight < ODD) {
                return "fits nobody, and weighs less";
            }
            List<String> odd = new ArrayList<>();
            if (wear < ODD) {
                odd.add(" in wear");
            }
            if (loss < ODD) {
                odd.add(" in loss");
            }
            return odd.isEmpty() ? "" : "fits nobody" + String.join(" and", odd) + ", and weighs less";
        }
    }

    public static final Listing<Row> RIDERS = new Listing<>(
            "riders",
            "those that are counted first",
            Columns.of(
                    Column.<Row>count("rider", "a number of this list alone", Row::number)
                            .head("RIDER"),
                    Column.<Row>name(
                                    "as",
                                    "the words under which it was brought in",
                                    r -> String.join(", ", r.rider().as()))
                            .head("BROUGHT IN AS"),
                    Column.<Row>count(
                                    "treatments",
                                    "that it tells of",
                                    r -> r.rider().evidence().treatments().size())
                            .head("TREATMENTS"),
                    Column.<Row>count(
                                    "noisy",
                                    "of these, run until noisy",
                                    r -> r.rider().evidence().ended())
                            .head("NOISY"),
                    Column.count(
                            "products",
                            "that are named",
                            r -> r.rider().evidence().products().count()),
                    Column.<Row>count(
                                    "readings",
                                    "of its chains' wear",
                                    r -> r.rider().evidence().readings())
                            .head("READ"),
                    Column.<Row>count(
                                    "paired",
                                    "rides that two power meters recorded",
                                    r -> r.rider().evidence().paired())
                            .head("PAIRED"),
                    Column.<Row>figure(
                                    "weight",
                                    Unit.SHARE,
                                    3,
                                    "against a rider like the others, so that it may be above 1; null where not counted, or without treatments",
                                    Row::weight)
                            .head("WEIGHT")
                            .as((r, format) -> Double.isNaN(r.weight()) ? "" : Formatter.percent(r.weight())),
                    Column.<Row>figure(
                                    "wear_weight",
                                    Unit.SHARE,
                                    3,
                                    "the same in what is known of wear; null where nothing was read",
                                    Row::wear)
                            .head("IN WEAR")
                            .as((r, format) -> Double.isNaN(r.wear()) ? "" : Formatter.percent(r.wear())),
                    Column.<Row>figure(
                                    "loss_weight",
                                    Unit.SHARE,
                                    3,
                                    "the same in what two power meters measured; null where they did not",
                                    Row::loss)
                            .head("IN LOSS")
                            .as((r, format) -> Double.isNaN(r.loss()) ? "" : Formatter.percent(r.loss())),
                    Column.<Row>word("remark", "what is odd about it", Row::words)),
            "no evidence of others; add some: chainage evidence add FILE --as WORD",
            "READ: readings of wear; PAIRED: rides that two power meters recorded. WEIGHT: how much a rider counts in what"
                    + " is known of lives, IN WEAR and IN LOSS in what is known of those: about 100 % is a rider who does as"
                    + " others do, far less one whose chains do otherwise.");

    /** A treatment in a file. */
    public record Told(int rider, TreatmentEvidence treatment) {}

    private static final Columns<Told> TREATMENTS = Columns.of(
            Column.<Told>count("rider", "a number of this file alone", Told::rider)
                    .head("RIDER"),
            Column.<Told>name(
                            "product",
                            "null where it is not told",
                            t -> t.treatment().product())
                    .head("PRODUCT"),
            Column.<Told>word(
                            "method", "of treating", t -> t.treatment().method().word())
                    .head("METHOD"),
            Column.<Told>word(
                            "cleaning",
                            "before it",
                            t -> t.treatment().cleaning().word())
                    .head("CLEANED"),
            Column.<Told>figure(
                            "load",
                            Unit.COUNT,
                            1,
                            "mean, against the reference rider's",
                            t -> t.treatment().load())
                    .head("LOAD")
                    .as((t, format) -> Formatter.fixed(t.treatment().load(), 1)),
            Column.<Told>word(
                    "km", "kilometres by road", t -> words(t.treatment().km())),
            Column.<Told>word(
                    "last_ride_km",
                    "of these, in the ride in which it was heard; null where it was not",
                    t -> t.treatment().last().total() == 0
                            ? null
                            : words(t.treatment().last())),
            Column.<Told>word(
                            "end",
                            "noisy, silent, quiet or running",
                            t -> t.treatment().endWord())
                    .head("END"));

    /**
     * A reading in a file.
     *
     * @param chain a number of this file alone
     */
    public record ToldReading(int rider, int chain, boolean used, ReadingEvidence of) {
        private @Nullable Double edge() {
            return of.reading() instanceof Reading.Gauge g ? (Double) g.edgePercent() : null;
        }

        private @Nullable Double percent() {
            return of.reading() instanceof Reading.Elongation e ? (Double) e.percent() : null;
        }

        private @Nullable Boolean drops() {
            return of.reading() instanceof Reading.Gauge g ? (Boolean) g.drops() : null;
        }

        private @Nullable String tool() {
            return of.reading() instanceof Reading.Elongation e ? e.tool().word() : Reading.Tool.GAUGE.word();
        }

        private String ridden() {
            String told = of.ridden().stream().map(ToldReading::ridden).collect(Collectors.joining("; "));
            return (used ? "added as used; " : "") + (told.isEmpty() ? "before its first ride" : told);
        }

        private static String ridden(ReadingEvidence.Ridden r) {
            return words(r.km()) + " on "
                    + (r.product() == null
                            ? r.method().word()
                            : r.product() + " (" + r.method().word() + ")")
                    + " at load " + Formatter.fixed(r.load(), 1)
                    + (r.wornOff() > 0 ? ", worn off for " + Formatter.percent(r.wornOff()) : "");
        }
    }

    /**
     * A ride with two power meters in a file.
     *
     * @param meters a number of this file alone
     */
    public record ToldRide(int rider, int meters, PairEvidence.Ride of) {}

    private static final Columns<ToldRide> PAIRED = Columns.of(
            Column.<ToldRide>count("rider", "a number of this file alone", ToldRide::rider)
                    .head("RIDER"),
            Column.<ToldRide>count("meters", "a number of this file alone for the two", ToldRide::meters)
                    .head("METERS"),
            Column.<ToldRide>name("product", "null where it is not told", r -> r.of().product())
                    .head("PRODUCT"),
            Column.<ToldRide>word("method", "of treating", r -> r.of().method().word())
                    .head("METHOD"),
            Column.<ToldRide>word(
                            "cleaning", "before it", r -> r.of().cleaning().word())
                    .head("CLEANED"),
            Column.<ToldRide>figure(
                            "used",
                            Unit.SHARE,
                            1,
                            "of the treatment's life, in the middle of the ride",
                            r -> r.of().used())
                    .head("OF LIFE")
                    .as((r, format) -> Formatter.percent(r.of().used())),
            Column.<ToldRide>figure(
                            "per_mu",
                            Unit.SHARE,
                            2,
                            "of the power lost at a coefficient of friction of 1, in its gears and cadence",
                            r -> r.of().perMu())
                    .head("PER MU")
                    .as((r, format) -> Formatter.fixed(r.of().perMu(), 2)),
            Column.<ToldRide>figure(
                            "missing",
                            Unit.PERCENT,
                            2,
                            "what the meter behind the chain read less than the one before it",
                            r -> r.of().missing())
                    .head("MISSING %")
                    .as((r, format) -> Formatter.fixed(r.of().missing(), 2)),
            Column.<ToldRide>figure("error", Unit.PERCENT, 2, "standard error of that", r -> r.of().error())
                    .head("ERROR %")
                    .as((r, format) -> Formatter.fixed(r.of().error(), 2)));

    private static final Columns<ToldReading> READINGS = Columns.of(
            Column.<ToldReading>count("rider", "a number of this file alone", ToldReading::rider)
                    .head("RIDER"),
            Column.<ToldReading>count("chain", "a number of this file alone", ToldReading::chain)
                    .head("CHAIN"),
            Column.<ToldReading>word("tool", "that it was read with", ToldReading::tool)
                    .head("TOOL"),
            Column.<ToldReading>figure(
                            "percent", Unit.PERCENT, 2, "elongation; null for a gauge's edge", ToldReading::percent)
                    .head("READ %")
                    .as((r, format) -> r.percent() == null ? "" : Formatter.fixed(r.percent(), 2)),
            Column.<ToldReading>figure("edge", Unit.PERCENT, 2, "of a gauge; null for a length", ToldReading::edge)
                    .head("EDGE %")
                    .as((r, format) -> r.edge() == null ? "" : Formatter.fixed(r.edge(), 2)),
            Column.<ToldReading>truth("drops", "whether the edge dropped in; null for a length", ToldReading::drops)
                    .head("DROPS"),
            Column.<ToldReading>figure(
                            "error",
                            Unit.PERCENT,
                            2,
                            "standard error of the tool",
                            r -> r.of().reading().errorPercent())
                    .head("ERROR %")
                    .as((r, format) -> Formatter.fixed(r.of().reading().errorPercent(), 2)),
            Column.<ToldReading>count("km", "kilometres before it", r -> r.of().total())
                    .head("KM"),
            Column.<ToldReading>word("ridden", "these by road, product, load and share worn off", ToldReading::ridden));

    /**
     * All that is in a file.
     *
     * @param treatments as in the file
     * @param readings chain by chain
     * @param paired rides, by the two meters
     */
    public record InFile(List<Told> treatments, List<ToldReading> readings, List<ToldRide> paired) {
        private static InFile of(List<RiderEvidence> riders) {
            List<Told> treatments = new ArrayList<>();
            List<ToldReading> readings = new ArrayList<>();
            List<ToldRide> paired = new ArrayList<>();
            int chain = 0;
            int meters = 0;
            for (int i = 0; i < riders.size(); i++) {
                for (TreatmentEvidence t : riders.get(i).treatments()) {
                    treatments.add(new Told(i + 1, t));
                }
                for (ChainEvidence c : riders.get(i).chains()) {
                    chain++;
                    for (ReadingEvidence r : c.readings()) {
                        readings.add(new ToldReading(i + 1, chain, c.used(), r));
                    }
                }
                for (PairEvidence p : riders.get(i).pairs()) {
                    meters++;
                    for (PairEvidence.Ride r : p.rides()) {
                        paired.add(new ToldRide(i + 1, meters, r));
                    }
                }
            }
            return new InFile(treatments, readings, paired);
        }
    }

    /** The fields of a file. */
    public static final Columns<InFile> FILE = Columns.of(
            Column.rows("treatments", "as in the file", TREATMENTS, InFile::treatments),
            Column.rows("readings", "chain by chain", READINGS, InFile::readings),
            Column.rows("paired", "rides with two power meters, by the two", PAIRED, InFile::paired));

    private EvidenceList() {}

    private static String words(RoadKilometres roads) {
        Map<String, Integer> km = roads.words();
        return km.entrySet().stream().map(e -> e.getValue() + " " + e.getKey()).collect(Collectors.joining(", "));
    }

    private static String ridden(Told told) {
        RoadKilometres last = told.treatment().last();
        return words(told.treatment().km()) + " km"
                + (last.total() == 0 ? "" : ", of these in the ride in which it was heard " + words(last));
    }

    /** The riders who were brought in. */
    public static Answer riders(Others others, Formatter format) {
        List<Row> rows = new ArrayList<>();
        for (Others.Rider r : others.riders()) {
            int place = rows.size();
            boolean counted = r.again() == null;
            boolean treated = counted && !r.evidence().treatments().isEmpty();
            boolean read = counted && !r.evidence().chains().isEmpty();
            rows.add(new Row(
                    place + 1,
                    r,
                    treated ? others.weighed().weight(place) : Double.NaN,
                    read ? others.wear().weight(place) : Double.NaN,
                    counted && !r.evidence().pairs().isEmpty() ? others.loss().weight(place) : Double.NaN));
        }
        return RIDERS.of(rows, format, r -> r.words().isEmpty() ? null : r.words());
    }

    /** All that is in a file. */
    public static Answer file(List<RiderEvidence> riders, Formatter format) {
        InFile told = InFile.of(riders);
        return new Answer() {
            @Override
            public Json json() {
                return FILE.json(told);
            }

            @Override
            public void print(Out out) {
                List<TextTable> tables = new ArrayList<>();
                if (!told.treatments().isEmpty()) {
                    tables.add(TREATMENTS.table(told.treatments(), format, EvidenceList::ridden));
                }
                if (!told.readings().isEmpty()) {
                    tables.add(READINGS.table(told.readings(), format, ToldReading::ridden));
                }
                if (!told.paired().isEmpty()) {
                    tables.add(PAIRED.table(told.paired(), format));
                }
                for (int i = 0; i < tables.size(); i++) {
                    if (i > 0) {
                        out.line();
                    }
                    out.table(tables.get(i));
                }
            }
        };
    }
}
