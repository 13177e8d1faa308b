package chainage.answer.loss;

import chainage.friction.LossSum;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Unit;

/** What several rides lost together, which all answers on losses have a part of. */
final class LossColumns {
    static final Column<LossSum> RIDES = Column.count("rides", "added up", LossSum::rides);
    static final Column<LossSum> POWER = Column.count("rides_with_power", "that tell their power", LossSum::counted);
    static final Column<LossSum> KNOWN = Column.figure(
            "gear_known_share",
            Unit.SHARE,
            3,
            "of the energy whose gear is known",
            s -> s.counted() == 0 ? Double.NaN : s.usable());
    static final Column<LossSum> PEDALLED =
            Column.figure("pedalled_s", Unit.SECONDS, 0, "time at the pedals", LossSum::seconds);
    static final Column<LossSum> CRANK =
            Column.figure("crank_joules", Unit.JOULES, 0, "energy at the crank", LossSum::crankJoules);
    static final Column<LossSum> LOST =
            Column.figure("lost_joules", Unit.JOULES, 0, "energy lost in the chain", LossSum::lostJoules);
    static final Column<LossSum> FRESH =
            Column.figure("fresh_joules", Unit.JOULES, 0, "the same freshly treated", LossSum::freshJoules);
    static final Column<LossSum> WATTS =
            Column.figure("loss_watts", Unit.WATTS, 3, "mean loss while pedalling", LossSum::watts);
    static final Column<LossSum> LOW =
            Column.figure("loss_watts_low", Unit.WATTS, 3, "the low end of the model's band", LossSum::wattsLow);
    static final Column<LossSum> HIGH =
            Column.figure("loss_watts_high", Unit.WATTS, 3, "the high end of the model's band", LossSum::wattsHigh);
    static final Column<LossSum> OVER =
            Column.figure("over_fresh_watts", Unit.WATTS, 3, "more than freshly treated", LossSum::wattsOverFresh);

    static final Column<LossSum> BAND =
            Column.shown("BAND W", Unit.WATTS, (s, format) -> Formatter.range(s.wattsLow(), s.wattsHigh(), 1));
    static final Column<LossSum> OVER_SEEN =
            OVER.head("ABOVE FRESH").as((s, format) -> Formatter.signed(s.wattsOverFresh(), 1));

    /** For scripts. */
    static final Columns<LossSum> SUM =
            Columns.of(RIDES, POWER, KNOWN, PEDALLED, CRANK, LOST, FRESH, WATTS, LOW, HIGH, OVER);

    private LossColumns() {}

    /** How much of the gears is known. */
    static String known(LossSum sum) {
        return sum.counted() == 0
                ? "no power in any ride"
                : "gear known for " + Formatter.percent(sum.usable()) + " of the energy";
    }
}
