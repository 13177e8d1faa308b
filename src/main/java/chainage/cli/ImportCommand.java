package chainage.cli;

import chainage.analysis.Analysis;
import chainage.analysis.Snapshot;
import chainage.answer.imports.ExportsAnswer;
import chainage.answer.imports.ImportAnswer;
import chainage.answer.imports.LogbookLines;
import chainage.answer.imports.TableRead;
import chainage.answer.things.FileTrouble;
import chainage.attribution.AttributedRide;
import chainage.importer.Handed;
import chainage.importer.Importer;
import chainage.importer.Options;
import chainage.importer.Outcome;
import chainage.importer.Sink;
import chainage.ledger.Entry;
import chainage.quantity.RideKey;
import chainage.render.Columns;
import chainage.ride.FiledRide;
import chainage.ridefile.RideFiles;
import chainage.store.LedgerFile;
import chainage.store.Recordings;
import chainage.store.SeenSources;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "import",
        description = {
            "Read ride files: name the folder in which they arrive, each time anew; what is known is skipped. They are FIT,"
                    + " GPX and TCX, also as .gz and in .zip, in folders however deep.",
            "A file that chainage export wrote is brought in too, into an empty ledger or onto the same facts.",
            "A text file whose first line is \"chainage logbook\" is read as a logbook: each line a date and the words of a"
                    + " command (chainage explain logbook).",
            "A file that cannot be read is named, and tried again when it changes, or when a date in it is no longer ahead of the clock. Your files stay as they are."
        },
        footer = {
            "Examples:",
            "  chainage import ~/exports",
            "  chainage import 2026.zip reservoir-loop.fit",
            "  chainage import ~/exports --dry-run",
            "  chainage import ~/exports --table ~/exports/rides.csv",
            "",
            "To leave a folder's rides out: chainage assign --path FOLDER --not-a-ride"
        })
final class ImportCommand extends Action {
    /** A device's clock may run ahead, and days begin earlier elsewhere. */
    private static final Duration AHEAD = Duration.ofDays(2);

    /** So many files in trouble are named one by one; a wrong folder can hold thousands. */
    private static final int TROUBLES = 20;

    @Parameters(arity = "1..*", paramLabel = "PATH", description = "files and folders")
    List<Path> paths = List.of();

    /** What was handed over in place of paths; null where paths are named. */
    private @Nullable List<Handed> handed;

    /** An import of files that lie nowhere on the disk. */
    static ImportCommand of(List<Handed> files) {
        ImportCommand command = new ImportCommand();
        command.handed = List.copyOf(files);
        return command;
    }

    @Option(names = "--jobs", paramLabel = "N", description = "how many files to read at once (default: all cores)")
    int jobs = Runtime.getRuntime().availableProcessors();

    @Option(
            names = "--again",
            description = "read known files once more, to bring back what the disk has damaged (chainage check)")
    boolean again;

    @Option(names = "--dry-run", description = "say what would be imported, and write nothing")
    boolean dryRun;

    @Option(
            names = "--yes",
            description = "take back what a logbook no longer says, also where more than a third of it is gone")
    boolean yes;

    @Mixin
    RideTables tables = new RideTables();

    @Override
    List<Columns<?>> fields() {
        return List.of(ImportAnswer.FIELDS, ExportsAnswer.FIELDS);
    }

    @Override
    boolean needsLedger() {
        return false;
    }

    @Override
    public Integer call() {
        return run(context(), root().runner());
    }

    Integer run(CommandContext context, Chainage.Runner runner) {
        if (jobs < 1 || jobs > 256) {
            throw CliError.usage("--jobs " + jobs + " cannot be", "give 1 to 256");
        }
        tables.check(paths);
        Instant clock = context.terminal().clock().instant();
        Instant latest = (clock.isAfter(context.now()) ? clock : context.now()).plus(AHEAD);
        ProgressLine progress = new ProgressLine(context);
        Options options = Options.of(latest, context.terminal().clock()::instant)
                .withJobs(jobs)
                .withProgress(progress)
                .ignoring(Setting.ignored(context.settings()));
        try {
            List<Inputs.Given> given = given();
            List<Inputs.Given> exports =
                    given.stream().filter(Restoring::isExport).toList();
            if (exports.size() == given.size()) {
                return Restoring.run(context, exports, dryRun);
            } else if (!exports.isEmpty()) {
                throw CliError.usage(
                        "\"" + exports.get(0).name() + "\" is an export of chainage, the others are not",
                        "import the two apart");
            }
            Result result = dryRun ? rehearse(context, runner, options) : importAll(context, runner, options);
            progress.clear();
            Snapshot after = result.after();
            if (after == null) {
                CommandContext.Known known = context.known(true);
                Integer code = report(context, answer(context, result, List.of(), known.analysis(), known.analysis()));
                known.later().run();
                return code;
            }
            Analysis now = Objects.requireNonNullElseGet(result.now(), () -> context.analysis(after));
            // Verdicts need every ride in the analysis, also those after an --at.
            boolean whole = now.rides().size() == after.rides().size();
            Analysis all = whole ? now : Analysis.of(after, context.tables(), latest);
            Integer code = report(context, answer(context, result, all.rides(), all, now));
            context.remember(after, now);
            return code;
        } catch (IOException e) {
            progress.clear();
            throw new UncheckedIOException(e);
        }
    }

    private ImportAnswer answer(
            CommandContext context, Result result, List<AttributedRide> rides, Analysis all, Analysis now) {
        return ImportAnswer.of(
                paths.stream().map(Path::toString).toList(),
                result.outcomes(),
                rides,
                all,
                now,
                result.refusedBefore(),
                result.logbooks(),
                result.tables(),
                dryRun,
                context.format());
    }

    private List<Inputs.Given> given() {
        return handed == null
                ? paths.stream().map(Inputs.Given::of).toList()
                : handed.stream().map(Inputs.Given::of).toList();
    }

    /**
     * What an import leaves.
     *
     * @param after all facts; null where it brought nothing, and no one asks which rides were there already
     * @param now what follows from them, where it was worked out
     * @param refusedBefore files that an earlier import refused and that are still there unchanged
     * @param logbooks what was read of each
     * @param tables what was read of each
     */
    private record Result(
            List<Outcome> outcomes,
            @Nullable Snapshot after,
            @Nullable Analysis now,
            long refusedBefore,
            List<LogbookLines> logbooks,
            List<TableRead> tables) {}

    private Result importAll(CommandContext context, Chainage.Runner runner, Options options) throws IOException {
        try (LedgerFile file = context.openToWrite();
                Stopped stopped = new Stopped(context)) {
            Sink sink = batch -> {
                file.appendRides(ImportIndex.deliveries(batch));
                stopped.kept(batch.size());
            };
            List<Outcome> outcomes = run(index(file.seen(options.latest()), file.recordings()), sink, options);
            context.done("what was read is kept");
            Set<String> refusedNow = outcomes.stream()
                    .filter(o -> o.kind() == Outcome.Kind.REFUSED || o.refusedParts() > 0)
                    .map(o -> o.stamp().path())
                    .collect(Collectors.toSet());
            long before = file.refused().stream()
                    .filter(s -> !refusedNow.contains(s.path()) && RefusedCommand.isThere(s))
                    .count();
            // Once the rides are in, which their rows and lines speak of; bikes that lines add are known to tables
            // then.
            LogbookImport logbooks = new LogbookImport(context, runner, paths, outcomes, yes);
            List<Entry> facts = logbooks.run(file);
            List<TableRead> told = tables.run(context, file, facts, paths);
            boolean brought =
                    outcomes.stream().anyMatch(o -> !o.keys().isEmpty()) || logbooks.changed() || !told.isEmpty();
            LogbookImport.Followed followed = logbooks.followed(file);
            if (followed != null) {
                context.loaded(followed.facts(), followed.state());
                return new Result(outcomes, followed.facts(), followed.analysis(), before, logbooks.told(), told);
            }
            Snapshot after = brought || context.json() ? context.load(file) : null;
            return new Result(outcomes, after, null, before, logbooks.told(), told);
        }
    }

    private Result rehearse(CommandContext context, Chainage.Runner runner, Options options) throws IOException {
        Snapshot before = context.load();
        Map<RideKey, FiledRide> rides = new LinkedHashMap<>();
        before.rides().forEach(r -> rides.put(r.ride().key(), r));
        // Read again, a ride that is there stays as it is.
        Sink sink = batch -> batch.forEach(o -> o.rides()
                .forEach(r -> rides.putIfAbsent(
                        r.key(), new FiledRide(r, List.of(o.stamp().path())))));
        List<Outcome> outcomes;
        if (context.written()) {
            try (LedgerFile file = context.openToRead()) {
                outcomes = run(index(file.seen(options.latest()), file.recordings()), sink, options);
            }
        } else {
            outcomes = run(index(SeenSources.NONE, Recordings.none()), sink, options);
        }
        LogbookImport logbooks = new LogbookImport(context, runner, paths, outcomes, yes);
        Snapshot after =
                logbooks.rehearse(Snapshot.of(before.entries(), List.copyOf(rides.values()), before.weather()));
        List<TableRead> told = new ArrayList<>();
        Snapshot all = tables.rehearse(context, after, paths, told);
        return new Result(outcomes, all, null, 0, logbooks.told(), told);
    }

    private ImportIndex index(SeenSources seen, Recordings recordings) {
        return new ImportIndex(seen, recordings, again);
    }

    private List<Outcome> run(ImportIndex index, Sink sink, Options options) throws IOException {
        Importer importer = new Importer(RideFiles::decode, index, sink, options);
        List<Outcome> outcomes = handed == null ? importer.run(paths) : importer.runHanded(handed);
        return outcomes.stream().map(index::told).toList();
    }

    private static Integer report(CommandContext context, ImportAnswer answer) {
        List<FileTrouble> troubles = answer.troubles();
        if (!context.json()) {
            troubles.stream().limit(TROUBLES).forEach(l -> context.err().line("chainage: " + l.line()));
            if (troubles.size() > TROUBLES) {
                context.say("chainage: and " + (troubles.size() - TROUBLES) + " more; chainage refused lists them");
            }
        }
        context.show(answer, false);
        return (answer.refused() ? ExitCode.REFUSED : ExitCode.OK).code();
    }
}
