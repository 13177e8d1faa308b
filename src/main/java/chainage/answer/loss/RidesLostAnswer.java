package chainage.answer.loss;

import chainage.answer.LoadWords;
import chainage.friction.LossSum;
import chainage.friction.RideLoss;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Json;
import chainage.render.Out;
import chainage.render.Unit;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What single rides lost in the chain.
 *
 * @param losses of the rides asked for, by start
 * @param why whether each ride says what its figures rest on
 */
public record RidesLostAnswer(List<RideLoss> losses, boolean why, Formatter format) implements Answer {
    private static final Columns<RideLoss> RIDES = Columns.of(
                    Column.<RideLoss>shown(
                            "RIDE", Unit.ID, (l, f) -> l.exposure().ride().id()),
                    Column.<RideLoss>shown(
                            "DAY", Unit.DAY, (l, f) -> f.date(l.exposure().start())),
                    Column.<RideLoss>shown(
                            "CHAIN",
                            Unit.NAME,
                            (l, f) -> String.valueOf(l.exposure().ride().chain())),
                    Column.<RideLoss>shown("OF LIFE", Unit.SHARE, (l, f) -> Formatter.percent(l.usedTo())),
                    Column.<RideLoss>shown("FRICTION", Unit.TIMES, (l, f) -> Formatter.fixed(l.mu(), 3)))
            .and(Columns.of(
                            LossColumns.RIDES,
                            LossColumns.POWER,
                            LossColumns.KNOWN,
                            LossColumns.PEDALLED,
                            LossColumns.CRANK,
                            LossColumns.LOST,
                            LossColumns.FRESH,
                            LossColumns.WATTS.head("LOSS W"),
                            LossColumns.LOW,
                            LossColumns.HIGH,
                            LossColumns.BAND,
                            LossColumns.OVER_SEEN)
                    .of(RidesLostAnswer::sum))
            .and(Columns.of(
                    Column.id(
                            "id",
                            "by which the ride is called up",
                            l -> l.exposure().ride().id()),
                    Column.name(
                            "chain",
                            "it was ridden on",
                            l -> l.exposure().ride().chain()),
                    Column.figure(
                            "treatment_used_from",
                            Unit.SHARE,
                            4,
                            "of the treatment's life when it began",
                            RideLoss::usedFrom),
                    Column.figure("treatment_used_to", Unit.SHARE, 4, "when it ended", RideLoss::usedTo),
                    Column.figure("friction", Unit.TIMES, 4, "mean coefficient of friction", RideLoss::mu),
                    Column.word(
                            "from",
                            "what the power rests on",
                            l -> LoadWords.of(l.pedalled().from()))));

    /** The fields of all. */
    public static final Columns<RidesLostAnswer> FIELDS =
            Columns.of(Column.rows("rides", "by start", RIDES, RidesLostAnswer::losses));

    private static LossSum sum(RideLoss loss) {
        return LossSum.of(List.of(loss));
    }

    @Override
    public Json json() {
        return FIELDS.json(this);
    }

    @Override
    public void print(Out out) {
        if (losses.isEmpty()) {
            out.line("these rides have no chain; chainage rides --unattributed lists such");
            return;
        }
        out.table(RIDES.table(losses, format, this::note));
    }

    private @Nullable String note(RideLoss l) {
        if (!l.counted()) {
            return LoadWords.of(l.pedalled().from()) + ", so its loss cannot be told";
        }
        return why ? LoadWords.of(l.pedalled().from()) + "; " + LossColumns.known(sum(l)) : null;
    }
}
