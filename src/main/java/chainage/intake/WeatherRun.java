package chainage.intake;

import chainage.analysis.Analysis;
import chainage.analysis.Change;
import chainage.analysis.Snapshot;
import chainage.analysis.WeatherReach;
import chainage.answer.ChangeWords;
import chainage.answer.imports.WeatherAnswer;
import chainage.command.CommandContext;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.store.LedgerFile;
import chainage.store.WeatherFeed;
import chainage.typed.CliError;
import chainage.typed.ExitCode;
import chainage.weather.BadLine;
import chainage.weather.CsvOptions;
import chainage.weather.Metar;
import chainage.weather.Observation;
import chainage.weather.PrecipitationCsv;
import chainage.weather.Tally;
import chainage.weather.WeatherException;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** Weather records read from files: what is new is kept, what cannot be used is named. */
public final class WeatherRun {
    private static final int LOOK_LINES = 60;
    private static final int NAMED_BAD_LINES = 10;

    private final CommandContext context;
    private final CsvOptions csv;
    private final @Nullable YearMonth month;
    private final boolean dryRun;

    /**
     * A reading.
     *
     * @param csv how tables are to be read, and where the station is
     * @param month of reports that say only day and hour; null for that of the file's name
     * @param dryRun true to stop short of writing
     */
    public WeatherRun(CommandContext context, CsvOptions csv, @Nullable YearMonth month, boolean dryRun) {
        this.context = context;
        this.csv = csv;
        this.month = month;
        this.dryRun = dryRun;
    }

    /** What became of one file. */
    private record Done(String file, Tally tally, @Nullable Entry entry, List<BadLine> bad) {
        WeatherAnswer.Read read() {
            long added = entry != null && entry.event() instanceof Event.WeatherAdded w ? w.observations() : 0;
            return new WeatherAnswer.Read(
                    file, tally.read(), tally.kept(), tally.bad(), added, entry == null ? null : entry.number());
        }
    }

    /** Reads them, tells of it, and answers the exit code. */
    public Integer run(List<Path> files) {
        List<String> remembered = remembered();
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
                    Feed feed = new Feed(file, remembered);
                    done.add(dryRun ? rehearse(feed) : add(feed));
                } catch (WeatherException e) {
                    boolean named = e.what().contains(file.toString());
                    throw new CliError(ExitCode.REFUSED, named ? e.what() : file + ": " + e.what(), e.hint());
                }
            }
            return report(done);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** One file, as the ledger takes it in. */
    private final class Feed implements WeatherFeed<Exception> {
        private final Path file;
        private final List<String> remembered;
        private final List<BadLine> bad = new ArrayList<>();
        private Tally tally = new Tally(0, 0, 0);

        Feed(Path file, List<String> remembered) {
            this.file = file;
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

    private static Done rehearse(Feed feed) throws IOException, WeatherException {
        feed.pour(o -> {});
        return feed.done(null);
    }

    private Done add(Feed feed) throws IOException, WeatherException {
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
    private List<String> remembered() {
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

    private Integer report(List<Done> done) {
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
            changes = ChangeWords.of(Change.between(before(after, entries), now), context.format());
            reach = WeatherReach.of(now, after.weather(), entries);
        }
        if (!context.json()) {
            done.forEach(this::badLines);
        }
        WeatherAnswer answer =
                new WeatherAnswer(files, changes, reach, csv.place().known(), dryRun, context.format());
        context.show(answer, false);
        return (answer.whole() ? ExitCode.OK : ExitCode.REFUSED).code();
    }

    private void badLines(Done d) {
        for (BadLine b : d.bad()) {
            context.warn(d.file() + ":" + b.line() + ": " + b.what() + "; " + b.hint());
        }
        if (d.tally().bad() > d.bad().size() && !context.quiet()) {
            context.warn("and " + (d.tally().bad() - d.bad().size()) + " more bad lines in " + d.file());
        }
    }

    /** Before, none of these entries was there. */
    private Analysis before(Snapshot after, Set<Long> entries) {
        return context.analysis(after.withEntries(after.entries().stream()
                .filter(e -> !entries.contains(e.number()))
                .toList()));
    }
}
