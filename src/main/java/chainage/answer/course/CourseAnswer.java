package chainage.answer.course;

import chainage.analysis.Analysis;
import chainage.analysis.ChainState;
import chainage.analysis.CourseLosses;
import chainage.answer.ModelBand;
import chainage.answer.StateWords;
import chainage.course.CourseTime;
import chainage.course.Energy;
import chainage.course.RoadModel;
import chainage.friction.Loss;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Json;
import chainage.render.Out;
import chainage.render.Unit;
import chainage.standing.Standing;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * What each chain's state costs over a course.
 *
 * @param analysis it is taken from
 * @param losses the figures
 * @param why whether it says where the energy goes and what the figures rest on
 */
public record CourseAnswer(Analysis analysis, CourseLosses losses, boolean why, Formatter format) implements Answer {
    /** A standing start is slower than walking pace for less than this, and not worth a word. */
    private static final double START_METRES = 10;

    /**
     * A state.
     *
     * @param base seconds freshly treated
     */
    private record Row(CourseLosses.Row of, double base, List<String> reasons) {
        private double lost() {
            return of.seconds() - base;
        }

        private double lostPercent() {
            return 100 * (of.seconds() / base - 1);
        }

        private ChainState state() {
            return of.state();
        }
    }

    private static final Columns<Row> STATES = Columns.of(
            Column.<Row>word(
                            "state",
                            "now for a chain as it stands, else what it could be in",
                            r -> r.state().standing() == null ? StateWords.name(r.state()) : "now")
                    .head("STATE")
                    .as((r, f) -> r.state().standing() == null
                            ? r.state().method().word() + ", " + StateWords.name(r.state())
                            : StateWords.name(r.state()) + ", "
                                    + Formatter.percent(r.state().used()) + " of its life"),
            Column.name("chain", "which; null for a state that only serves to compare", r -> {
                Standing s = r.state().standing();
                return s == null ? null : s.chain();
            }),
            Column.word("method", "of its treatment", r -> r.state().method().word()),
            Column.figure(
                    "treatment_used",
                    Unit.SHARE,
                    4,
                    "of its limit; null for a state that only serves to compare",
                    r -> r.state().standing() == null
                            ? Double.NaN
                            : r.state().standing().treatment().used()),
            Column.figure(
                    "treatment_used_of_likely",
                    Unit.SHARE,
                    4,
                    "of its likely life, by which its friction goes",
                    r -> r.state().used()),
            Column.figure(
                    "friction",
                    Unit.TIMES,
                    4,
                    "coefficient of friction",
                    r -> r.state().mu()),
            Column.<Row>figure(
                            "loss_watts",
                            Unit.WATTS,
                            3,
                            "lost in the chain",
                            r -> r.of().loss().watts())
                    .head("LOSS W"),
            Column.figure(
                    "loss_watts_low",
                    Unit.WATTS,
                    3,
                    "the low end of the model's band",
                    r -> r.of().loss().low()),
            Column.figure(
                    "loss_watts_high",
                    Unit.WATTS,
                    3,
                    "the high end of the model's band",
                    r -> r.of().loss().high()),
            Column.<Row>shown(
                    "BAND W",
                    Unit.WATTS,
                    (r, f) -> Formatter.range(r.of().loss().low(), r.of().loss().high(), 1)),
            Column.<Row>figure("seconds", Unit.SECONDS, 3, "over the course", r -> r.of().seconds())
                    .head("TIME")
                    .as((r, f) -> clock(r.of().seconds())),
            Column.<Row>figure("lost_s", Unit.SECONDS, 3, "longer than freshly treated", Row::lost)
                    .head("LOST s")
                    .as((r, f) -> Formatter.fixed(r.lost(), 1)),
            Column.figure(
                    "lost_s_low", Unit.SECONDS, 3, "the same at the low end of the band", r -> r.of().low() - r.base()),
            Column.figure("lost_s_high", Unit.SECONDS, 3, "and at the high end", r -> r.of().high() - r.base()),
            Column.<Row>shown(
                    "BAND s",
                    Unit.SECONDS,
                    (r, f) -> Formatter.fixed(r.of().low() - r.base(), 0) + " to "
                            + Formatter.fixed(r.of().high() - r.base(), 0)),
            Column.<Row>figure("lost_pct", Unit.PERCENT, 4, "of the time freshly treated", Row::lostPercent)
                    .head("LOST %"),
            Column.list("why", "where the friction comes from", Row::reasons));

    /** The fields of all. */
    public static final Columns<CourseAnswer> FIELDS = Columns.of(
                    Column.<CourseAnswer>time(
                            "at",
                            "the instant that the chains are looked at",
                            a -> a.analysis().at()),
                    Column.<CourseAnswer>figure(
                            "metres",
                            Unit.METRES,
                            1,
                            "length of the course",
                            a -> a.losses().best().metres()),
                    Column.<CourseAnswer>figure(
                            "watts",
                            Unit.WATTS,
                            1,
                            "power at the crank",
                            a -> a.losses().effort().watts()),
                    Column.<CourseAnswer>count(
                            "ring", "teeth", a -> a.losses().effort().gear().ring()),
                    Column.<CourseAnswer>count(
                            "cog", "teeth", a -> a.losses().effort().gear().cog()),
                    Column.<CourseAnswer>figure(
                            "rpm",
                            Unit.COUNT,
                            1,
                            "cadence",
                            a -> a.losses().effort().rpm()))
            .and(Columns.of(
                            Column.figure("kilograms", Unit.KILOGRAMS, 1, "rider and bike", RoadModel::kilograms),
                            Column.figure(
                                    "drag_area_m2", Unit.SQUARE_METRES, 4, "of the air's drag", RoadModel::dragArea),
                            Column.figure("rolling", Unit.TIMES, 5, "rolling resistance", RoadModel::rolling),
                            Column.figure("air_kg_m3", Unit.DENSITY, 6, "of the air", RoadModel::density))
                    .<CourseAnswer>of(a -> a.losses().model()))
            .and(Columns.of(
                    Column.<CourseAnswer>list("notes", "on the file", CourseAnswer::notes),
                    Column.<CourseAnswer>figure(
                            "slow_metres",
                            Unit.METRES,
                            1,
                            "slower than walking pace",
                            a -> a.losses().best().slowMetres())))
            .and(Columns.of(
                            joules("pedalled", "at the wheel, freshly treated", Energy::pedalled),
                            joules("air", "of that against the air", Energy::air),
                            joules("rolling", "against the road", Energy::rolling),
                            joules("bearings", "in the bearings", Energy::bearings),
                            joules("climbing", "against the slope", Energy::climbing),
                            joules("speed", "held at the end", Energy::kinetic),
                            joules("brakes", "braked away", Energy::brakes))
                    .<CourseAnswer>of(a -> a.losses().best().energy()))
            .and(Columns.of(Column.<CourseAnswer, Row>rows(
                    "states", "freshly treated first, then the chains", STATES, CourseAnswer::rows)));

    private static Column<Energy> joules(String of, String meaning, Function<Energy, @Nullable Double> value) {
        return Column.figure("energy_" + of + "_joules", Unit.JOULES, 0, meaning, value);
    }

    private List<String> notes() {
        return losses.course().notes().stream()
                .map(n -> RoadNoteWords.of(n, format))
                .toList();
    }

    private List<Row> rows() {
        double base = losses.rows().get(0).seconds();
        return losses.rows().stream()
                .map(r -> new Row(r, base, StateWords.why(analysis.factors(), r.state())))
                .toList();
    }

    @Override
    public Json json() {
        return FIELDS.json(this);
    }

    @Override
    public void print(Out out) {
        List<Row> rows = rows();
        CourseTime best = losses.best();
        out.line(format.distance(best.metres()) + " at " + losses.effort() + ": "
                + clock(best.seconds()) + " freshly treated ("
                + rows.get(0).state().method().words() + "), "
                + format.speed(best.metres() / best.seconds(), 1) + ".");
        notes().forEach(n -> out.line("Course: " + n + "."));
        if (best.slowMetres() > START_METRES) {
            out.line(Formatter.fixed(best.slowMetres(), 0) + " m are slower than walking pace at this power.");
        }
        out.line();
        out.table(STATES.table(rows, format));
        if (!out.quiet()) {
            out.line();
            out.line(ModelBand.caution(Loss.BAND * losses.effort().watts()));
        }
        if (why) {
            rows.forEach(r -> out.lines(r.reasons()));
            out.lines(energy());
        }
    }

    private List<String> energy() {
        RoadModel model = losses.model();
        Energy n = losses.best().energy();
        double t = losses.best().seconds();
        return List.of(
                "rider and bike " + Formatter.fixed(model.kilograms(), 0) + " kg, drag area "
                        + Formatter.fixed(model.dragArea(), 3) + " m2, rolling " + Formatter.fixed(model.rolling(), 4)
                        + ", air " + Formatter.fixed(model.density(), 4) + " kg/m3",
                "freshly treated, mean watts at the wheel " + Formatter.fixed(n.pedalled() / t, 1) + " = air "
                        + Formatter.fixed(n.air() / t, 1) + " + rolling " + Formatter.fixed(n.rolling() / t, 1)
                        + " + bearings " + Formatter.fixed(n.bearings() / t, 1) + " + climbing "
                        + Formatter.fixed(n.climbing() / t, 1) + " + speed " + Formatter.fixed(n.kinetic() / t, 1)
                        + " + brakes " + Formatter.fixed(n.brakes() / t, 1));
    }

    /** Hours, minutes and seconds. */
    private static String clock(double seconds) {
        long s = Math.round(seconds);
        return s < 3600
                ? String.format(Locale.ROOT, "%d:%02d", s / 60, s % 60)
                : String.format(Locale.ROOT, "%d:%02d:%02d", s / 3600, s / 60 % 60, s % 60);
    }
}
