package chainage.answer.road;

import chainage.analysis.Analysis;
import chainage.answer.NextStep;
import chainage.condition.Evidence;
import chainage.exposure.CountedRide;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Json;
import chainage.render.Out;
import chainage.render.Unit;
import java.util.Arrays;
import java.util.List;
import java.util.function.Function;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/**
 * What share of the distance rests on which kind of evidence.
 *
 * @param moisture strongest first, every kind
 * @param grit the same
 * @param metres of all rides counted
 * @param missing where there is no ledger yet; null where there is one
 */
public record EvidenceAnswer(
        Analysis analysis,
        List<Sum> moisture,
        List<Sum> grit,
        double metres,
        Formatter format,
        @Nullable String missing)
        implements Answer {
    /**
     * Rides that rest on one kind of evidence.
     *
     * @param share of all metres; NaN where there are none
     */
    public record Sum(Evidence evidence, int rides, double metres, double share) {}

    private record Line(Sum moisture, Sum grit) {}

    private static final Columns<Sum> SUMS = Columns.of(
            Column.<Sum>word("evidence", "its kind", s -> s.evidence().word()),
            Column.<Sum>count("rides", "that rest on it", Sum::rides),
            Column.<Sum>figure("metres", Unit.METRES, 1, "of these rides", Sum::metres),
            Column.<Sum>figure("share", Unit.SHARE, 4, "of all metres", Sum::share));

    private static final Columns<Line> TABLE = Columns.of(
            Column.shown(
                    "KNOWN BY",
                    Unit.WORD,
                    (l, format) -> l.moisture().evidence().words()),
            rides("WET OR DRY", Line::moisture),
            share(Line::moisture),
            rides("GRIT", Line::grit),
            share(Line::grit));

    /** What scripts get. */
    public static final Columns<EvidenceAnswer> FIELDS = Columns.of(
            Column.<EvidenceAnswer>figure("metres", Unit.METRES, 1, "of all rides", EvidenceAnswer::metres),
            Column.<EvidenceAnswer, Sum>rows(
                    "moisture", "what the moisture rests on, strongest first", SUMS, a -> met(a.moisture())),
            Column.<EvidenceAnswer, Sum>rows(
                    "grit", "what the grit rests on, strongest first", SUMS, a -> met(a.grit())));

    private static Column<Line> rides(String head, Function<Line, Sum> of) {
        return Column.shown(
                head, Unit.COUNT, (l, format) -> Formatter.count(of.apply(l).rides(), "ride", "rides"));
    }

    private static Column<Line> share(Function<Line, Sum> of) {
        return Column.shown("SHARE", Unit.SHARE, (l, format) -> {
            double share = of.apply(l).share();
            return Double.isNaN(share) ? "–" : Formatter.percent(share);
        });
    }

    private static List<Sum> met(List<Sum> sums) {
        return sums.stream().filter(s -> s.rides() > 0).toList();
    }

    /**
     * Sums up the rides that count.
     *
     * @param bike whose rides are looked at; null for all
     */
    public static EvidenceAnswer of(
            Analysis analysis, @Nullable String bike, Formatter format, @Nullable String missing) {
        List<CountedRide> rides = analysis.exposures().counted().values().stream()
                .filter(r -> bike == null || bike.equals(r.ride().bike()))
                .toList();
        double metres = metres(rides);
        return new EvidenceAnswer(
                analysis,
                sums(rides, metres, r -> r.condition().moistureEvidence()),
                sums(rides, metres, r -> r.condition().gritEvidence()),
                metres,
                format,
                missing);
    }

    private static List<Sum> sums(List<CountedRide> rides, double all, Function<CountedRide, Evidence> of) {
        return Arrays.stream(Evidence.values())
                .map(e -> {
                    List<CountedRide> these =
                            rides.stream().filter(r -> of.apply(r) == e).toList();
                    double metres = metres(these);
                    return new Sum(e, these.size(), metres, all == 0 ? Double.NaN : metres / all);
                })
                .toList();
    }

    private static double metres(List<CountedRide> rides) {
        return rides.stream().mapToDouble(r -> r.metres().metres()).sum();
    }

    @Override
    public Json json() {
        return FIELDS.json(this);
    }

    @Override
    public void print(Out out) {
        if (met(moisture).isEmpty()) {
            out.lines(analysis.rides().isEmpty() ? NextStep.next(missing, analysis) : List.of("No ride fits."));
            return;
        }
        out.table(TABLE.table(
                IntStream.range(0, moisture.size())
                        .mapToObj(i -> new Line(moisture.get(i), grit.get(i)))
                        .toList(),
                format));
        out.hint("Shares are of " + format.distance(metres) + "; a ride says why: chainage conditions last");
    }
}
