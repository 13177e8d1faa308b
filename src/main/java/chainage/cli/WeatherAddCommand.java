package chainage.cli;

import chainage.answer.imports.WeatherAnswer;
import chainage.command.Action;
import chainage.command.CommandContext;
import chainage.intake.WeatherRun;
import chainage.render.Columns;
import chainage.typed.TypedWeather;
import chainage.weather.CsvOptions;
import chainage.weather.Place;
import java.nio.file.Path;
import java.time.YearMonth;
import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "add",
        description = {
            "Read weather records: airfield reports (METAR, SPECI), one or many a file, or a table of rain in mm an hour or"
                    + " finer, with temperature and humidity where it has them. Plain or gzipped.",
            "What is known is skipped; lines that cannot be used are named and left out. Names of columns that you give are"
                    + " remembered for the next table of the same station."
        },
        footer = {
            "Examples:",
            "  chainage weather add metar-2026-03.txt --station 38.70,-9.15",
            "  chainage weather add rain.csv --times-in Europe/Lisbon",
            "  chainage weather add table.csv --time when --precip fallen --temp warmth"
        })
final class WeatherAddCommand extends Action {
    @Parameters(arity = "1..*", paramLabel = "FILE", description = "text files")
    List<Path> files = List.of();

    @Option(
            names = "--station",
            paramLabel = "LAT,LON",
            description = "where the station is, in degrees; without it the records hold wherever you ride")
    @Nullable
    String station;

    @Option(
            names = "--month",
            paramLabel = "YYYY-MM",
            description = "month of reports that say only day and hour (else from the file's name)")
    @Nullable
    String month;

    @Option(names = "--time", paramLabel = "COLUMN", description = "the table's column of times")
    @Nullable
    String time;

    @Option(names = "--precip", paramLabel = "COLUMN", description = "its column of rain, mm")
    @Nullable
    String precip;

    @Option(names = "--temp", paramLabel = "COLUMN", description = "its column of air temperature, °C")
    @Nullable
    String temp;

    @Option(names = "--humidity", paramLabel = "COLUMN", description = "its column of relative humidity, %%")
    @Nullable
    String humidity;

    @Option(
            names = "--times-in",
            paramLabel = "ZONE",
            description = "time zone of the table's times (else UTC, where they say nothing)")
    @Nullable
    String timesIn;

    @Option(
            names = "--stamped-at-start",
            description = "a row's time is the start of the time its rain fell in (else its end, as services have it)")
    boolean stampedAtStart;

    @Option(names = "--dry-run", description = "read and count, and write nothing")
    boolean dryRun;

    @Override
    public List<Columns<?>> fields() {
        return List.of(WeatherAnswer.FIELDS);
    }

    @Override
    public boolean needsLedger() {
        return false;
    }

    @Override
    public Integer call() {
        CommandContext context = context();
        Place place = station == null ? Place.UNKNOWN : TypedWeather.place(station);
        YearMonth stated = month == null ? null : TypedWeather.month(month);
        CsvOptions csv =
                new CsvOptions(time, precip, temp, humidity, TypedWeather.zone(timesIn), "", place, stampedAtStart);
        return new WeatherRun(context, csv, stated, dryRun).run(files);
    }
}
