package chainage.cli;

import chainage.analysis.Analysis;
import chainage.course.CourseTime;
import chainage.course.Energy;
import chainage.course.Leg;
import chainage.course.Profile;
import chainage.course.RoadModel;
import chainage.drivetrain.Drivetrain;
import chainage.friction.Effort;
import chainage.friction.Loss;
import chainage.ledger.Method;
import chainage.render.Formatter;
import chainage.render.Json;
import chainage.render.Table;
import chainage.ridefile.RideFileException;
import chainage.ridefile.RideFiles;
import chainage.standing.Standing;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "course",
        description = {
            "What each chain's state costs over a course: watts, seconds, per cent, with the model's band.",
            "",
            "The course is a distance at steady speed, or a GPX, TCX or FIT file ridden from a standing start at constant"
                    + " power; chainage explain course says how."
        },
        footer = {
            "Examples:",
            "  chainage course --km 40 --watts 250",
            "  chainage course --km 20 --watts 250 --gradient 2 --out-and-back",
            "  chainage course hilly.gpx --watts 220 --wind 3m/s --wind-from 270"
        })
final class CourseCommand extends Action {
    /** A standing start is slower than walking pace for less than this, and not worth a word. */
    private static final double START_METRES = 10;

    @Parameters(index = "0", arity = "0..1", paramLabel = "FILE", description = "a course or ride as GPX, TCX or FIT")
    @Nullable
    Path file;

    @Option(names = "--km", paramLabel = "KM", description = "length of the course, out and back together")
    @Nullable
    String km;

    @Mixin
    EffortOptions effort = new EffortOptions();

    @Mixin
    CourseOptions road = new CourseOptions();

    @Option(names = "--gradient", paramLabel = "PCT", description = "rise over run, per cent; negative downhill")
    @Nullable
    String gradient;

    @Option(names = "--out-and-back", description = "half the way up and against the wind, half the way back")
    boolean outAndBack;

    @Option(names = "--wind", paramLabel = "SPEED", description = "such as 3m/s or 10km/h; ahead unless --wind-from")
    @Nullable
    String wind;

    @Option(names = "--wind-from", paramLabel = "DEG", description = "where it comes from: 0 north, 90 east")
    @Nullable
    String windFrom;

    @Option(names = "--heading", paramLabel = "DEG", description = "where you ride to: 0 north (the default), 90 east")
    @Nullable
    String heading;

    @Option(names = "--method", paramLabel = "METHOD", description = "treatment compared with (default hot-wax)")
    @Nullable
    String method;

    @Option(names = "--why", description = "show where the energy goes and what the figures rest on")
    boolean why;

    /** The way, and how it is ridden. */
    private record Way(List<Leg> legs, List<String> notes, boolean ridden, double limit) {
        CourseTime time(RoadModel model, double watts) {
            return ridden ? CourseTime.ridden(model, legs, watts, limit) : CourseTime.steady(model, legs, watts);
        }
    }

    /** One line of the table: seconds by likely loss and by both ends of its band. */
    private record Row(ChainState state, Loss loss, double seconds, double low, double high) {}

    @Override
    public Integer call() {
        CommandContext context = context();
        Analysis analysis = context.analysis();
        if (effort.watts == null) {
            throw CliError.usage("nothing says how hard", "give --watts such as --watts 250");
        }
        Effort e = effort.effort(analysis.factors().reference());
        RoadModel model = road.model(analysis.factors());
        Way way = way(analysis);
        List<Row> rows = new ArrayList<>();
        for (ChainState s : states(analysis)) {
            Loss loss = s.loss(analysis, e);
            rows.add(new Row(
                    s,
                    loss,
                    way.time(model, e.watts() - loss.watts()).seconds(),
                    way.time(model, e.watts() - loss.low()).seconds(),
                    way.time(model, e.watts() - loss.high()).seconds()));
        }
        CourseTime best = way.time(model, e.watts() - rows.get(0).loss().watts());
        if (context.json()) {
            context.out().json(json(analysis, e, model, way, best, rows));
        } else {
            print(context, analysis, e, model, way, best, rows);
        }
        return ExitCode.OK.code();
    }

    private List<ChainState> states(Analysis analysis) {
        Method m = method == null ? Method.HOT_WAX : Names.method(method);
        Drivetrain usual = analysis.factors().drivetrain(null);
        List<ChainState> states = new ArrayList<>();
        states.add(ChainState.of(analysis, "freshly treated", m, 0, usual));
        for (Standing s : analysis.standings()) {
            states.add(ChainState.now(analysis, s));
        }
        states.add(ChainState.of(analysis, "end of its life", m, 1, usual));
        states.add(ChainState.of(analysis, "washed out", m, 2, usual));
        return states;
    }

    private Way way(Analysis analysis) {
        if ((file == null) == (km == null)) {
            throw CliError.usage(
                    file == null ? "nothing says how far" : "--km and a file say the same",
                    file == null ? "give --km such as --km 40, or a course file" : "give one of them");
        }
        double metres = wind == null ? 0 : Typed.wind(wind);
        if (wind == null && windFrom != null) {
            throw CliError.usage("--wind-from says where from, nothing how strong", "add --wind such as --wind 3m/s");
        }
        double from = windFrom == null ? 0 : Typed.number("--wind-from", windFrom, "", 0, 360);
        return file == null ? plain(metres, from) : fromFile(analysis, file, metres, from);
    }

    private Way plain(double windSpeed, double from) {
        double metres = 1000 * Typed.number("--km", String.valueOf(km), "km", 0.1, 2000);
        double rise = gradient == null ? 0 : Typed.number("--gradient", gradient, "%", -30, 30) / 100;
        double to = heading == null ? 0 : Typed.number("--heading", heading, "", 0, 360);
        double ahead = windFrom == null ? windSpeed : windSpeed * Math.cos(Math.toRadians(to - from));
        List<Leg> legs = outAndBack
                ? List.of(new Leg(metres / 2, rise, ahead), new Leg(metres / 2, -rise, -ahead))
                : List.of(new Leg(metres, rise, ahead));
        return new Way(legs, List.of(), false, Double.POSITIVE_INFINITY);
    }

    private Way fromFile(Analysis analysis, Path path, double windSpeed, double from) {
        if (outAndBack || gradient != null || heading != null) {
            throw CliError.usage(
                    "a file has gradients and headings of its own",
                    "leave --gradient, --out-and-back and --heading out");
        }
        if (wind != null && windFrom == null) {
            throw CliError.usage(
                    "a course turns, so the wind needs a direction", "add --wind-from such as --wind-from 270");
        }
        Profile profile;
        try {
            profile = Profile.of(RideFiles.track(Files.readAllBytes(path)).points(), windSpeed, from);
        } catch (NoSuchFileException e) {
            throw new CliError(ExitCode.NO_SUCH_FILE, "\"" + path.toString() + "\" does not exist", "check the path");
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (RideFileException e) {
            throw new CliError(ExitCode.REFUSED, path.toString() + ": " + e.what(), e.mend());
        }
        if (profile.legs().isEmpty()) {
            throw new CliError(
                    ExitCode.REFUSED,
                    path.toString() + ": its points make no way of 10 m",
                    "export the course with its track");
        }
        List<String> notes = new ArrayList<>(profile.notes());
        notes.add(String.format(
                Locale.ROOT,
                "heights averaged over %.0f m; %.0f m climbed",
                Profile.SMOOTHED_METRES,
                profile.ascentMetres()));
        return new Way(profile.legs(), notes, true, analysis.factors().value("course.limit") / 3.6);
    }

    private void print(
            CommandContext context,
            Analysis analysis,
            Effort e,
            RoadModel model,
            Way way,
            CourseTime best,
            List<Row> rows) {
        context.out()
                .line(context.format().distance(best.metres()) + " at " + e + ": "
                        + clock(best.seconds()) + " freshly treated ("
                        + rows.get(0).state().method().words() + "), "
                        + Formatter.fixed(3.6 * best.metres() / best.seconds(), 1) + " km/h.");
        way.notes().forEach(n -> context.out().line("Course: " + n + "."));
        if (best.slowMetres() > START_METRES) {
            context.out()
                    .line(Formatter.fixed(best.slowMetres(), 0) + " m are slower than walking pace at this power.");
        }
        context.out().line();
        Table table = new Table()
                .left("STATE")
                .right("LOSS W")
                .right("BAND W")
                .right("TIME")
                .right("LOST s")
                .right("BAND s")
                .right("LOST %");
        double base = rows.get(0).seconds();
        for (Row r : rows) {
            table.row(
                    label(r.state()),
                    Formatter.fixed(r.loss().watts(), 1),
                    LossCommand.band(r.loss().low(), r.loss().high()),
                    clock(r.seconds()),
                    Formatter.fixed(r.seconds() - base, 1),
                    Math.round(r.low() - base) + " to " + Math.round(r.high() - base),
                    Formatter.fixed(100 * (r.seconds() / base - 1), 2));
        }
        context.out().table(table);
        if (!context.quiet()) {
            context.out().line();
            LossCommand.bandSaid(context, Loss.BAND * e.watts());
        }
        if (why) {
            rows.forEach(r -> r.state().why(analysis).forEach(l -> context.out().line(l)));
            why(context, model, best);
        }
    }

    private static String label(ChainState state) {
        return state.standing() == null
                ? state.name()
                : state.name() + ", " + Formatter.percent(state.used()) + " used";
    }

    private static void why(CommandContext context, RoadModel model, CourseTime best) {
        context.out()
                .line(String.format(
                        Locale.ROOT,
                        "rider and bike %.0f kg, drag area %.3f m2, rolling %.4f, air %.4f kg/m3",
                        model.kilograms(),
                        model.dragArea(),
                        model.rolling(),
                        model.density()));
        Energy n = best.energy();
        double t = best.seconds();
        context.out()
                .line(String.format(
                        Locale.ROOT,
                        "freshly treated, mean watts at the wheel %.1f = air %.1f + rolling %.1f + bearings %.1f + climbing"
                                + " %.1f + speed %.1f + brakes %.1f",
                        n.pedalled() / t,
                        n.air() / t,
                        n.rolling() / t,
                        n.bearings() / t,
                        n.climbing() / t,
                        n.kinetic() / t,
                        n.brakes() / t));
    }

    private static Json json(Analysis analysis, Effort e, RoadModel model, Way way, CourseTime best, List<Row> rows) {
        double base = rows.get(0).seconds();
        List<Json> list = new ArrayList<>();
        for (Row r : rows) {
            Standing s = r.state().standing();
            list.add(new Json()
                    .put("state", s == null ? r.state().name() : "now")
                    .put("chain", s == null ? null : s.chain())
                    .put("method", r.state().method().word())
                    .number("treatment_used", r.state().used(), 4)
                    .number("friction", r.state().mu(), 4)
                    .number("loss_watts", r.loss().watts(), 3)
                    .number("loss_watts_low", r.loss().low(), 3)
                    .number("loss_watts_high", r.loss().high(), 3)
                    .number("seconds", r.seconds(), 3)
                    .number("lost_s", r.seconds() - base, 3)
                    .number("lost_s_low", r.low() - base, 3)
                    .number("lost_s_high", r.high() - base, 3)
                    .number("lost_pct", 100 * (r.seconds() / base - 1), 4)
                    .put("why", r.state().why(analysis)));
        }
        Energy n = best.energy();
        return new Json()
                .put("at", analysis.at())
                .number("metres", best.metres(), 1)
                .number("watts", e.watts(), 1)
                .put("ring", e.gear().ring())
                .put("cog", e.gear().cog())
                .number("rpm", e.rpm(), 1)
                .number("kilograms", model.kilograms(), 1)
                .number("drag_area_m2", model.dragArea(), 4)
                .number("rolling", model.rolling(), 5)
                .number("air_kg_m3", model.density(), 6)
                .put("notes", way.notes())
                .number("slow_metres", best.slowMetres(), 1)
                .number("energy_pedalled_joules", n.pedalled(), 0)
                .number("energy_air_joules", n.air(), 0)
                .number("energy_rolling_joules", n.rolling(), 0)
                .number("energy_bearings_joules", n.bearings(), 0)
                .number("energy_climbing_joules", n.climbing(), 0)
                .number("energy_speed_joules", n.kinetic(), 0)
                .number("energy_brakes_joules", n.brakes(), 0)
                .put("states", list);
    }

    /** Hours, minutes and seconds. */
    private static String clock(double seconds) {
        long s = Math.round(seconds);
        return s < 3600
                ? String.format(Locale.ROOT, "%d:%02d", s / 60, s % 60)
                : String.format(Locale.ROOT, "%d:%02d:%02d", s / 3600, s / 60 % 60, s % 60);
    }
}
