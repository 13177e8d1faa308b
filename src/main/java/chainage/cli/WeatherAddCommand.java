package chainage.cli;

import chainage.analysis.Analysis;
import chainage.analysis.Change;
import chainage.analysis.Snapshot;
import chainage.analysis.WeatherReach;
import chainage.answer.ChangeWords;
import chainage.answer.imports.WeatherAnswer;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.render.Columns;
import chainage.store.LedgerFile;
import chainage.store.WeatherFeed;
import chainage.weather.BadLine;
import chainage.weather.CsvOptions;
import chainage.weather.Metar;
import chainage.weather.Observation;
import chainage.weather.Place;
import chainage.weather.PrecipitationCsv;
import chainage.weather.Tally;
import chainage.weather.WeatherException;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.YearMonth;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Consumer;
import java.util.stream.Collectors;
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
    private static final int LOOK_LINES = 60;
    private static final int NAMED_BAD_LINES = 10;

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

    /** What became of one file. */
    private record Done(String file, Tally tally, @Nullable Entry entry, List<BadLine> bad) {
        WeatherAnswer.Read read() {
            long added = entry != null && entry.event() instanceof Event.WeatherAdded w ? w.observations() : 0;
            return new WeatherAnswer.Read(
                    file, tally.read(), tally.kept(), tally.bad(), added, entry == null ? null : entry.number());
        }
    }

    @Override
    List<Columns<?>> fields() {
        return List.of(WeatherAnswer.FIELDS);
    }

    @Override
    boolean needsLedger() {
        return false;
    }

    @Override
    public Integer call() {
        CommandContext context = context();
        Place place = station == null ? Place.UNKNOWN : place(station);
        YearMonth stated = month == null ? null : yearMonth(month);
        CsvOptions csv = new CsvOptions(time, precip, temp, humidity, zone(), "", place, stampedAtStart);
        List<String> remembered = remembered(context, csv);
        List<Done> done = new ArrayList<>();
        try {
            for (Path file : files) {
                if (!Files.exists(file)) {
                    throw new NoSuchFileException(file.toString());
                }
                if (!Files.isRegularFile(file)) {
                    throw new CliError(
                            ExitCode.NO_SUCH_FILE,
                            "\"" + file + "\" is no file",
                            "name the files of records themselves");
                }
            }
            for (Path file : files) {
                try {
                    done.add(
                            dryRun
                                    ? rehearse(file, stated, csv, remembered)
                                    : add(context, file, stated, csv, remembered));
                } catch (WeatherException e) {
                    boolean named = e.what().contains(file.toString());
                    throw new CliError(ExitCode.REFUSED, named ? e.what() : file + ": " + e.what(), e.hint());
                }
            }
            return report(context, done);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static final class Feed implements WeatherFeed<Exception> {
        private final Path file;
        private final @Nullable YearMonth month;
        private final CsvOptions csv;
        private final List<String> remembered;
        private final List<BadLine> bad = new ArrayList<>();
        private Tally tally = new Tally(0, 0, 0);

        Feed(Path file, @Nullable YearMonth month, CsvOptions csv, List<String> remembered) {
            this.file = file;
            this.month = month;
            this.csv = csv;
            this.remembered = remembered;
        }

        @Override
        public @Nullable String place() {
            return csv.place().known() ? csv.place().text() : null;
        }

        @Override
        public @Nullable List<String> columns() {
            return csv.columns().isEmpty() ? null : csv.columns();
        }

        @Override
        public String source() {
            return String.valueOf(file.getFileName());
        }

        @Override
        public void pour(Consumer<Observation> sink) throws IOException, WeatherException {
            if (!remembered.isEmpty()) {
                try {
                    pour(csv.orColumns(remembered), sink);
                    return;
                } catch (WeatherException e) {
                    // Another table than the one before; nothing of it was taken yet.
                }
            }
            pour(csv, sink);
        }

        private void pour(CsvOptions options, Consumer<Observation> sink) throws IOException, WeatherException {
            bad.clear();
            try (TextLines lines = TextLines.of(file)) {
                boolean reports = lines.peek(LOOK_LINES).stream().anyMatch(Metar::isReport);
                Consumer<BadLine> keepFew = b -> {
                    if (bad.size() < NAMED_BAD_LINES) {
                        bad.add(b);
                    }
                };
                tally = reports
                        ? Metar.read(
                                lines,
                                month == null ? Metar.monthIn(source()).orElse(null) : month,
                                options.place(),
                                sink,
                                keepFew)
                        : PrecipitationCsv.read(lines, options, sink, keepFew);
            }
        }

        Done done(@Nullable Entry entry) {
            return new Done(file.toString(), tally, entry, List.copyOf(bad));
        }
    }

    private static Done rehearse(Path file, @Nullable YearMonth month, CsvOptions csv, List<String> remembered)
            throws IOException, WeatherException {
        Feed feed = new Feed(file, month, csv, remembered);
        feed.pour(o -> {});
        return feed.done(null);
    }

    private static Done add(
            CommandContext context, Path file, @Nullable YearMonth month, CsvOptions csv, List<String> remembered)
            throws IOException, WeatherException {
        Feed feed = new Feed(file, month, csv, remembered);
        if (!context.written()) {
            // A file that cannot be read leaves no ledger behind.
            feed.pour(o -> {});
        }
        try (LedgerFile ledger = context.openToWrite()) {
            Optional<Entry> entry =
                    ledger.appendWeather(feed, context.terminal().clock().instant());
            if (entry.isPresent()) {
                context.done("what was read is kept");
            }
            return feed.done(entry.orElse(null));
        } catch (IOException | WeatherException | RuntimeException e) {
            throw e;
        } catch (Exception e) {
            throw new AssertionError(e);
        }
    }

    /** The names of columns that were given for the last table of the same station. */
    private static List<String> remembered(CommandContext context, CsvOptions csv) {
        List<String> last = List.of();
        for (Entry e : context.ledger().inForce()) {
            if (e.event() instanceof Event.WeatherAdded w
                    && w.columns() != null
                    && csv.place().text().equals(w.place() == null ? "" : w.place())) {
                last = w.columns();
            }
        }
        return last;
    }

    private Integer report(CommandContext context, List<Done> done) {
        List<WeatherAnswer.Read> files = done.stream().map(Done::read).toList();
        Set<Long> entries = files.stream()
                .map(WeatherAnswer.Read::entry)
                .filter(Objects::nonNull)
                .collect(Collectors.toCollection(TreeSet::new));
        List<String> changes = List.of();
        WeatherReach reach = null;
        if (!entries.isEmpty()) {
            Snapshot after = context.load();
            Analysis now = context.analysis(after);
            changes = ChangeWords.of(Change.between(before(context, after, entries), now), context.format());
            reach = WeatherReach.of(now, after.weather(), entries);
        }
        if (!context.json()) {
            done.forEach(d -> badLines(context, d));
        }
        WeatherAnswer answer = new WeatherAnswer(files, changes, reach, station != null, dryRun, context.format());
        context.show(answer, false);
        return (answer.whole() ? ExitCode.OK : ExitCode.REFUSED).code();
    }

    private static void badLines(CommandContext context, Done d) {
        for (BadLine b : d.bad()) {
            context.err().line("chainage: " + d.file() + ":" + b.line() + ": " + b.what() + "; " + b.hint());
        }
        if (d.tally().bad() > d.bad().size()) {
            context.say("chainage: and " + (d.tally().bad() - d.bad().size()) + " more bad lines in " + d.file());
        }
    }

    /** Before, none of these entries was there. */
    private static Analysis before(CommandContext context, Snapshot after, Set<Long> entries) {
        return context.analysis(after.withEntries(after.entries().stream()
                .filter(e -> !entries.contains(e.number()))
                .toList()));
    }

    private ZoneId zone() {
        try {
            return timesIn == null ? ZoneOffset.UTC : ZoneId.of(timesIn);
        } catch (DateTimeException e) {
            throw CliError.usage(
                    "\"" + String.valueOf(timesIn) + "\" is no time zone", "use a name such as Europe/Lisbon or UTC");
        }
    }

    private static YearMonth yearMonth(String typed) {
        try {
            return YearMonth.parse(typed);
        } catch (DateTimeException e) {
            throw CliError.usage("\"" + typed + "\" is no month", "write it such as 2026-03");
        }
    }

    private static Place place(String typed) {
        String[] parts = typed.split("[,; ]+", -1);
        try {
            if (parts.length == 2) {
                return new Place(Double.parseDouble(parts[0]), Double.parseDouble(parts[1]));
            }
        } catch (IllegalArgumentException e) {
            // said below
        }
        throw CliError.usage(
                "\"" + typed + "\" is no place",
                "write latitude and longitude in degrees, with points, such as 38.70,-9.15");
    }
}
