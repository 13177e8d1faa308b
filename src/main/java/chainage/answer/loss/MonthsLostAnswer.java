package chainage.answer.loss;

import chainage.answer.ModelBand;
import chainage.friction.LossSum;
import chainage.friction.RideLoss;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Json;
import chainage.render.Out;
import chainage.render.Unit;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * What the rides of each month lost in the chain.
 *
 * @param losses of the rides asked for
 * @param why whether each month says what its figures rest on
 */
public record MonthsLostAnswer(List<RideLoss> losses, boolean why, Formatter format) implements Answer {
    /** A month, as {@code 2026-05}, with what its rides lost. */
    private record Month(String name, LossSum sum) {}

    private static final Columns<Month> MONTHS = Columns.of(Column.<Month>shown("MONTH", Unit.ID, (m, f) -> m.name()))
            .and(Columns.of(
                            LossColumns.RIDES.head("RIDES"),
                            LossColumns.POWER.head("POWER"),
                            LossColumns.KNOWN,
                            LossColumns.PEDALLED.head("HOURS").as((s, f) -> Formatter.fixed(s.seconds() / 3600, 1)),
                            LossColumns.CRANK.head("CRANK kJ").as((s, f) -> Formatter.fixed(s.crankJoules() / 1000, 0)),
                            LossColumns.LOST.head("LOST kJ").as((s, f) -> Formatter.fixed(s.lostJoules() / 1000, 0)),
                            LossColumns.FRESH,
                            LossColumns.WATTS.head("MEAN W"),
                            LossColumns.LOW,
                            LossColumns.HIGH,
                            LossColumns.BAND,
                            LossColumns.OVER_SEEN)
                    .of(Month::sum))
            .and(Columns.of(Column.id("month", "year and month", Month::name)));

    /** The fields of all. */
    public static final Columns<MonthsLostAnswer> FIELDS =
            Columns.of(Column.rows("months", "by time", MONTHS, MonthsLostAnswer::months));

    private List<Month> months() {
        SortedMap<String, List<RideLoss>> months = new TreeMap<>();
        for (RideLoss l : losses) {
            months.computeIfAbsent(format.month(l.exposure().start()), m -> new ArrayList<>())
                    .add(l);
        }
        return months.entrySet().stream()
                .map(e -> new Month(e.getKey(), LossSum.of(e.getValue())))
                .toList();
    }

    @Override
    public Json json() {
        return FIELDS.json(this);
    }

    @Override
    public void print(Out out) {
        if (losses.isEmpty()) {
            out.line("no ride on these chains yet; chainage due says what comes next");
            return;
        }
        out.table(MONTHS.table(months(), format, m -> why ? LossColumns.known(m.sum()) : null));
        out.hint("Rides without power lose nothing that could be told; they are left out.");
        out.hint(ModelBand.caution(0));
    }
}
