package chainage.cli;

import chainage.analysis.Analysis;
import chainage.analysis.CourseEffort;
import chainage.analysis.CourseLosses;
import chainage.answer.course.CourseAnswer;
import chainage.command.CommandContext;
import chainage.command.CourseOptions;
import chainage.command.EffortOptions;
import chainage.command.Question;
import chainage.course.Course;
import chainage.course.RoadModel;
import chainage.friction.Effort;
import chainage.intake.CourseFile;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Method;
import chainage.render.Answer;
import chainage.render.Columns;
import chainage.typed.CliError;
import chainage.typed.Names;
import chainage.typed.QuantityParser;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
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
final class CourseCommand extends Question {
    @Parameters(index = "0", arity = "0..1", paramLabel = "FILE", description = "a course or ride as GPX, TCX or FIT")
    @Nullable
    Path file;

    @Option(names = "--km", paramLabel = "KM", description = "length of the course, out and back together")
    @Nullable
    String km;

    @Option(names = "--miles", paramLabel = "MI", description = "the same in miles")
    @Nullable
    String miles;

    @Option(
            names = "--bike",
            paramLabel = "BIKE",
            description = "in whose gears, and only its chains (else in your default bike's)")
    @Nullable
    String bike;

    @Mixin
    EffortOptions effort = new EffortOptions();

    @Mixin
    CourseOptions road = new CourseOptions();

    @Option(names = "--gradient", paramLabel = "PCT", description = "rise over run, per cent; negative downhill")
    @Nullable
    String gradient;

    @Option(names = "--out-and-back", description = "half the way up and against the wind, half the way back")
    boolean outAndBack;

    @Option(
            names = "--wind",
            paramLabel = "SPEED",
            description = "such as 3m/s, 10km/h or 6mph; ahead unless --wind-from")
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

    @Override
    public List<Columns<?>> fields() {
        return List.of(CourseAnswer.FIELDS);
    }

    @Override
    public Answer answer() {
        CommandContext context = context();
        Analysis analysis = context.analysis();
        if (effort.watts == null) {
            throw CliError.usage("nothing says how hard", "give --watts such as --watts 250");
        }
        Course course = course(analysis);
        RoadModel model = road.model(analysis.factors());
        Method treated = method == null ? Method.HOT_WAX : Names.method(method);
        double watts = effort.effort(analysis.factors().reference()).watts();
        Event.@Nullable BikeDescribed ridden = bike(analysis.ledger());
        Effort over = CourseEffort.of(analysis, ridden, course, model, watts, effort.gear(), effort.rpm(), treated);
        Analysis about = bike == null || ridden == null ? analysis : analysis.about(Set.of(ridden.bike()));
        return new CourseAnswer(about, CourseLosses.of(about, course, over, model, treated), why, context.format());
    }

    /** The bike that is named, else the one that rides are on where nothing else is said; null for none in particular. */
    private Event.@Nullable BikeDescribed bike(Ledger ledger) {
        return (bike == null ? ledger.defaultBike() : Optional.of(Names.bike(ledger, bike)))
                .map(name -> ledger.bikes().get(name))
                .orElse(null);
    }

    private Course course(Analysis analysis) {
        long said = Stream.of(file, km, miles).filter(Objects::nonNull).count();
        if (said != 1) {
            throw CliError.usage(
                    said == 0 ? "nothing says how far" : "--km, --miles and a file say the same",
                    said == 0 ? "give --km such as --km 40, or a course file" : "give one of them");
        }
        double metres = wind == null ? 0 : QuantityParser.wind(wind);
        if (wind == null && windFrom != null) {
            throw CliError.usage("--wind-from says where from, nothing how strong", "add --wind such as --wind 3m/s");
        }
        double from = windFrom == null ? 0 : QuantityParser.number("--wind-from", windFrom, "", 0, 360);
        return file == null ? plain(metres, from) : fromFile(analysis, file, metres, from);
    }

    private Course plain(double windSpeed, double from) {
        double metres = km == null
                ? 1000
                        * QuantityParser.KMH_A_MPH
                        * QuantityParser.number("--miles", String.valueOf(miles), "mi", 0.1, 1200)
                : 1000 * QuantityParser.number("--km", km, "km", 0.1, 2000);
        double rise = gradient == null ? 0 : QuantityParser.number("--gradient", gradient, "%", -30, 30) / 100;
        double to = heading == null ? 0 : QuantityParser.number("--heading", heading, "", 0, 360);
        double ahead = windFrom == null ? windSpeed : windSpeed * Math.cos(Math.toRadians(to - from));
        return Course.steady(metres, rise, ahead, outAndBack);
    }

    private Course fromFile(Analysis analysis, Path path, double windSpeed, double from) {
        if (outAndBack || gradient != null || heading != null) {
            throw CliError.usage(
                    "a file has gradients and headings of its own",
                    "leave --gradient, --out-and-back and --heading out");
        }
        if (wind != null && windFrom == null) {
            throw CliError.usage(
                    "a course turns, so the wind needs a direction", "add --wind-from such as --wind-from 270");
        }
        return CourseFile.read(path, windSpeed, from, analysis.factors().value("course.limit") / 3.6);
    }
}
