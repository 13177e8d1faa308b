package chainage.answer.things;

import chainage.analysis.Others;
import chainage.answer.Listing;
import chainage.evidence.RiderEvidence;
import chainage.evidence.Roads;
import chainage.evidence.TreatmentEvidence;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Unit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** What other riders' chains have shown: the riders who were brought in, and all that is in a file. */
public final class EvidenceList {
    /** Below this weight a rider fits nobody; our choice. */
    private static final double ODD = 0.4;

    /**
     * A rider who was brought in.
     *
     * @param number by which rows are told apart; it changes as riders come and go
     * @param weight against a rider like the others; NaN where not counted
     */
    public record Row(int number, Others.Rider rider, double weight) {
        private String words() {
            if (rider.again() != null) {
                return rider.again() == Others.Again.OWN ? "your own, counted once" : "brought in twice, counted once";
            }
            return weight < ODD ? "fits nobody, and weighs less" : "";
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
                    Column.<Row>count(
                                    "products",
                                    "that are named",
                                    r -> r.rider().evidence().products().count())
                            .head("PRODUCTS"),
                    Column.<Row>figure(
                                    "weight",
                                    Unit.SHARE,
                                    3,
                                    "against a rider like the others, so that it may be above 1; null where not counted",
                                    Row::weight)
                            .head("WEIGHT")
                            .as((r, format) -> Double.isNaN(r.weight()) ? "" : Formatter.percent(r.weight())),
                    Column.<Row>word("remark", "what is odd about it", Row::words)),
            "no evidence of others; add some: chainage evidence add FILE --as WORD");

    /** A treatment in a file. */
    public record Told(int rider, TreatmentEvidence treatment) {}

    public static final Listing<Told> TREATMENTS = new Listing<>(
            "treatments",
            "as in the file",
            Columns.of(
                    Column.<Told>count("rider", "a number of this file alone", Told::rider)
                            .head("RIDER"),
                    Column.<Told>name(
                                    "product",
                                    "null where it is not told",
                                    t -> t.treatment().product())
                            .head("PRODUCT"),
                    Column.<Told>word(
                                    "method",
                                    "of treating",
                                    t -> t.treatment().method().word())
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
                                    "km",
                                    "kilometres by road",
                                    t -> words(t.treatment().km()))
                            .head("KM"),
                    Column.<Told>word(
                                    "last_ride_km",
                                    "of these, in the ride in which it was heard; null where it was not",
                                    t -> t.treatment().last().total() == 0
                                            ? null
                                            : words(t.treatment().last()))
                            .head("LAST RIDE"),
                    Column.<Told>word(
                                    "end",
                                    "noisy, silent, quiet or running",
                                    t -> t.treatment().endWord())
                            .head("END")),
            "");

    private EvidenceList() {}

    private static String words(Roads roads) {
        Map<String, Integer> km = roads.words();
        return km.entrySet().stream().map(e -> e.getValue() + " " + e.getKey()).collect(Collectors.joining(", "));
    }

    /** The riders who were brought in. */
    public static Answer riders(Others others, Formatter format) {
        List<Row> rows = new ArrayList<>();
        for (Others.Rider r : others.riders()) {
            int place = rows.size();
            rows.add(new Row(place + 1, r, r.again() == null ? others.weighed().weight(place) : Double.NaN));
        }
        return RIDERS.of(rows, format, r -> r.words().isEmpty() ? null : r.words());
    }

    /** All that is in a file. */
    public static Answer treatments(List<RiderEvidence> riders, Formatter format) {
        List<Told> rows = new ArrayList<>();
        for (int i = 0; i < riders.size(); i++) {
            for (TreatmentEvidence t : riders.get(i).treatments()) {
                rows.add(new Told(i + 1, t));
            }
        }
        return TREATMENTS.of(rows, format);
    }
}
