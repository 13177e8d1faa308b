package chainage.intake;

import chainage.analysis.Analysis;
import chainage.analysis.Snapshot;
import chainage.answer.imports.ImportAnswer;
import chainage.answer.imports.LogbookLines;
import chainage.answer.imports.TableRead;
import chainage.answer.things.FileTrouble;
import chainage.attribution.AttributedRide;
import chainage.bookkeeping.LogbookImport;
import chainage.command.CommandContext;
import chainage.importer.Handed;
import chainage.importer.Importer;
import chainage.importer.Options;
import chainage.importer.Outcome;
import chainage.importer.Sink;
import chainage.ledger.Entry;
import chainage.quantity.RideKey;
import chainage.ride.FiledRide;
import chainage.ridefile.RideFiles;
import chainage.store.LedgerFile;
import chainage.store.Recordings;
import chainage.store.SeenSources;
import chainage.typed.CliError;
import chainage.typed.ExitCode;
import chainage.typed.Setting;
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

/** One import: rides first, then what speaks of them, and what follows from all of it. */
public final class ImportRun {
    /** A device's clock may run ahead, and days begin earlier elsewhere. */
    private static final Duration AHEAD = Duration.ofDays(2);

    /** So many files in trouble are named one by one; a wrong folder can hold thousands. */
    private static final int TROUBLES = 20;

    /**
     * What is to be imported, and how.
     *
     * @param paths files and folders
     * @param tables that tell of their rides
     * @param jobs how many files are read at once
     * @param again whether known files are read once more
     * @param dryRun true to stop short of writing
     * @param takeBack whether facts are taken back however many lines of a logbook are gone
     */
    public record Wish(List<Path> paths, RideTables tables, int jobs, boolean again, boolean dryRun, boolean takeBack) {
        public static final int ALL_CORES = Runtime.getRuntime().availableProcessors();

        /** All that is new there. */
        public static Wish of(List<Path> paths) {
            return new Wish(paths, RideTables.REMEMBERED, ALL_CORES, false, false, false);
        }
    }

    private final CommandContext context;
    private final Wish wish;

    /** What was handed over in place of paths; null where paths are named. */
    private final @Nullable List<Handed> handed;

    /** Of what is named. */
    public ImportRun(CommandContext context, Wish wish) {
        this(context, wish, null);
    }

    private ImportRun(CommandContext context, Wish wish, @Nullable List<Handed> handed) {
        this.context = context;
        this.wish = wish;
        this.handed = handed;
    }

    /** Of files that lie nowhere on the disk. */
    public static ImportRun handed(CommandContext context, List<Handed> files) {
        return new ImportRun(context, Wish.of(List.of()), List.copyOf(files));
    }

    /** Carries it out, tells of it, and answers the exit code. */
    public Integer run() {
        Instant clock = context.terminal().clock().instant();
        Instant latest = (clock.isAfter(context.now()) ? clock : context.now()).plus(AHEAD);
        ProgressLine progress = new ProgressLine(context);
        Options options = Options.of(latest, context.terminal().clock()::instant)
                .withJobs(wish.jobs())
                .withProgress(progress)
                .ignoring(Setting.ignored(context.settings()));
        try {
            List<Inputs.Given> given = given();
            List<Inputs.Given> exports =
                    given.stream().filter(Restoring::isExport).toList();
            if (exports.size() == given.size()) {
                return Restoring.run(context, exports, wish.dryRun());
            } else if (!exports.isEmpty()) {
                throw CliError.usage(
                        "\"" + exports.get(0).name() + "\" is an export of chainage, the others are not",
                        "import the two apart");
            }
            Result result = wish.dryRun() ? rehearse(options) : importAll(options);
            progress.clear();
            Snapshot after = result.after();
            if (after == null) {
                CommandContext.Known known = context.known(true);
                Integer code = report(answer(result, List.of(), known.analysis(), known.analysis()));
                known.later().run();
                return code;
            }
            Analysis now = Objects.requireNonNullElseGet(result.now(), () -> context.analysis(after));
            // Verdicts need every ride in the analysis, also those after an --at.
            boolean whole = now.rides().size() == after.rides().size();
            Analysis all = whole ? now : Analysis.of(after, context.tables(), latest);
            Integer code = report(answer(result, all.rides(), all, now));
            context.remember(after, now);
            return code;
        } catch (IOException e) {
            progress.clear();
            throw new UncheckedIOException(e);
        }
    }

    private ImportAnswer answer(Result result, List<AttributedRide> rides, Analysis all, Analysis now) {
        return ImportAnswer.of(
                wish.paths().stream().map(Path::toString).toList(),
                result.outcomes(),
                rides,
                all,
                now,
                result.refusedBefore(),
                result.logbooks(),
                result.tables(),
                wish.dryRun(),
                context.format());
    }

    private List<Inputs.Given> given() {
        return handed == null
                ? wish.paths().stream().map(Inputs.Given::of).toList()
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

    private Result importAll(Options options) throws IOException {
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
                    .filter(s -> !refusedNow.contains(s.path()) && RefusedFiles.isThere(s))
                    .count();
            // Once the rides are in, which their rows and lines speak of; bikes that lines add are known to tables
            // then.
            LogbookImport logbooks = new LogbookImport(context, wish.paths(), outcomes, wish.takeBack());
            List<Entry> facts = logbooks.run(file);
            List<TableRead> told = wish.tables().run(context, file, facts, wish.paths());
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

    private Result rehearse(Options options) throws IOException {
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
        LogbookImport logbooks = new LogbookImport(context, wish.paths(), outcomes, wish.takeBack());
        Snapshot after =
                logbooks.rehearse(Snapshot.of(before.entries(), List.copyOf(rides.values()), before.weather()));
        List<TableRead> told = new ArrayList<>();
        Snapshot all = wish.tables().rehearse(context, after, wish.paths(), told);
        return new Result(outcomes, all, null, 0, logbooks.told(), told);
    }

    private ImportIndex index(SeenSources seen, Recordings recordings) {
        return new ImportIndex(seen, recordings, wish.again());
    }

    private List<Outcome> run(ImportIndex index, Sink sink, Options options) throws IOException {
        Importer importer = new Importer(RideFiles::decode, index, sink, options);
        List<Outcome> outcomes = handed == null ? importer.run(wish.paths()) : importer.runHanded(handed);
        return outcomes.stream().map(index::told).toList();
    }

    private Integer report(ImportAnswer answer) {
        List<FileTrouble> troubles = answer.troubles();
        if (!context.json()) {
            troubles.stream().limit(TROUBLES).forEach(l -> context.warn(l.line()));
            if (troubles.size() > TROUBLES && !context.quiet()) {
                context.warn("and " + (troubles.size() - TROUBLES) + " more; chainage refused lists them");
            }
        }
        context.show(answer, false);
        return (answer.refused() ? ExitCode.REFUSED : ExitCode.OK).code();
    }
}
