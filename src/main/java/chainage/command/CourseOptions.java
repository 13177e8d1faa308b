package chainage.command;

import chainage.course.AirDensity;
import chainage.course.RoadModel;
import chainage.exposure.Factors;
import chainage.typed.CliError;
import chainage.typed.QuantityParser;
import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** The rider, the road and the air of a course; what is not said comes from the factor table. */
public final class CourseOptions {
    private static final List<String> POSITIONS = List.of("upright", "hoods", "drops", "low");

    @Option(names = "--mass", paramLabel = "KG", description = "rider and bike (default 85)")
    @Nullable
    String mass;

    @Option(
            names = "--position",
            paramLabel = "WORD",
            description =
                    "upright (hands on the tops), hoods, drops (the default), or low (stretched on time-trial bars)")
    @Nullable
    String position;

    @Option(names = "--cda", paramLabel = "M2", description = "drag area in place of a position, such as 0.28")
    @Nullable
    String dragArea;

    @Option(names = "--crr", paramLabel = "NUMBER", description = "rolling resistance (default 0.004)")
    @Nullable
    String rolling;

    @Option(names = "--altitude", paramLabel = "M", description = "metres above sea level (default 0)")
    @Nullable
    String altitude;

    @Option(names = "--temperature", paramLabel = "C", description = "of the air, degrees Celsius")
    @Nullable
    String temperature;

    @Option(names = "--pressure", paramLabel = "HPA", description = "of the air at the place, hectopascals")
    @Nullable
    String pressure;

    @Option(names = "--humidity", paramLabel = "PCT", description = "relative, per cent (default 50)")
    @Nullable
    String humidity;

    public RoadModel model(Factors factors) {
        return RoadModel.withUsualWheels(
                mass == null ? factors.value("course.kilograms") : QuantityParser.number("--mass", mass, "kg", 30, 300),
                area(factors),
                rolling == null
                        ? factors.value("course.rolling")
                        : QuantityParser.number("--crr", rolling, "", 0.001, 0.05),
                density());
    }

    private double area(Factors factors) {
        if (dragArea != null && position != null) {
            throw CliError.usage("--position and --cda say the same", "give one of them");
        }
        if (dragArea != null) {
            return QuantityParser.number("--cda", dragArea, "m2", 0.1, 1.5);
        }
        String word = position == null ? "drops" : position;
        if (!POSITIONS.contains(word)) {
            throw CliError.usage("\"" + word + "\" is no position", "use one of " + String.join(", ", POSITIONS));
        }
        return factors.value("course.area." + word);
    }

    private double density() {
        double metres = altitude == null ? 0 : QuantityParser.number("--altitude", altitude, "m", -500, 5000);
        if (temperature == null && pressure == null && humidity == null) {
            return AirDensity.standard(metres);
        }
        return AirDensity.of(
                pressure == null
                        ? AirDensity.standardPressure(metres)
                        : QuantityParser.number("--pressure", pressure, "hPa", 500, 1100),
                humidity == null ? 50 : QuantityParser.number("--humidity", humidity, "%", 0, 100),
                temperature == null
                        ? AirDensity.standardCelsius(metres)
                        : QuantityParser.number("--temperature", temperature, "C", -40, 50));
    }
}
