package chainage.bookkeeping;

import chainage.analysis.Analysis;
import chainage.analysis.Change;
import chainage.analysis.Snapshot;
import chainage.answer.ChangeWords;
import chainage.answer.imports.LogbookLines;
import chainage.command.CommandContext;
import chainage.importer.Outcome;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Logbook;
import chainage.logbook.LogbookReading;
import chainage.logbook.LogbookText;
import chainage.logbook.Refusal;
import chainage.logbook.Statement;
import chainage.store.LedgerFile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** Reads the logbooks that an import has met, once its rides are in: each in one transaction. */
public final class LogbookImport {
    private final CommandContext context;
    private final List<Path> roots;
    private final List<Outcome> outcomes;
    private final boolean takeBack;
    private final LineReader lines;
    private final List<LogbookLines> told = new ArrayList<>();
    private boolean changed;
    private @Nullable Followed followed;

    /**
     * What follows once a logbook was read.
     *
     * @param state the ledger's
     */
    public record Followed(String state, Snapshot facts, Analysis analysis) {}

    /** A reading, with what followed before it. */
    private record Read(LogbookReading reading, Analysis before) {}

    /**
     * Of one import.
     *
     * @param roots what the rider named
     * @param outcomes of all files, logbooks among them
     * @param takeBack whether facts are taken back however many lines are gone
     */
    public LogbookImport(CommandContext context, List<Path> roots, List<Outcome> outcomes, boolean takeBack) {
        this.context = context;
        this.roots = roots;
        this.outcomes = outcomes;
        this.takeBack = takeBack;
        this.lines = new LineReader(context);
    }

    /** What is to be told of each, in their order. */
    public List<LogbookLines> told() {
        return told;
    }

    /** Whether anything was written. */
    public boolean changed() {
        return changed;
    }

    /** What follows now; null where that is to be worked out. */
    @Nullable
    public Followed followed(LedgerFile file) {
        Followed last = followed;
        return last != null && last.state.equals(file.state()) ? last : null;
    }

    /**
     * Reads them, and keeps what they state.
     *
     * @return all that is kept then, save notes on the logbooks themselves
     */
    public List<Entry> run(LedgerFile file) throws IOException {
        List<Entry> facts = file.entries();
        for (Outcome o : logbooks()) {
            try {
                if (from(o, facts).isUnchanged()) {
                    // As most are each night; no ride need be looked at for that.
                    told.add(LogbookLines.of(o.file(), LogbookReading.NOTHING, List.of(), List.of()));
                    continue;
                }
                LedgerFile.Written<Read> written =
                        file.<Read, Refusal>update(context.terminal().clock().instant(), snapshot -> {
                            Analysis before = context.analysis(snapshot, file.state());
                            LogbookReading reading = read(o, snapshot);
                            return new LedgerFile.Decision<>(reading.events(), new Read(reading, before));
                        });
                context.keep(written.entries());
                facts = new ArrayList<>(written.before().entries());
                facts.addAll(written.entries());
                Snapshot after = written.before().withEntries(facts);
                Analysis now = tell(o, written.answer(), written.entries(), after);
                if (now != null) {
                    changed = true;
                    followed = new Followed(file.state(), after, now);
                }
            } catch (Refusal e) {
                told.add(LogbookLines.refused(o.file(), e.reason()));
            }
        }
        new LogbookAppend(context).bringUpToDate(file, facts);
        List<Event> missed =
                tellOfMissing(facts).stream().<Event>map(Logbook::missed).toList();
        if (!missed.isEmpty()) {
            changed = true;
            file.append(missed, context.terminal().clock().instant());
        }
        return facts;
    }

    /**
     * Reads them without keeping anything.
     *
     * @return all facts with what they would state
     */
    public Snapshot rehearse(Snapshot from) {
        Snapshot now = from;
        for (Outcome o : logbooks()) {
            try {
                LogbookReading reading = read(o, now);
                List<Entry> after = new ArrayList<>(now.entries());
                long number = after.isEmpty() ? 0 : after.get(after.size() - 1).number();
                long command = number + 1;
                for (Event e : reading.events()) {
                    after.add(new Entry(++number, command, context.now(), e));
                }
                Snapshot then = now.withEntries(after);
                tell(o, new Read(reading, context.analysis(now)), List.of(), then);
                now = then;
            } catch (Refusal e) {
                told.add(LogbookLines.refused(o.file(), e.reason()));
            }
        }
        tellOfMissing(now.entries());
        return now;
    }

    private List<Outcome> logbooks() {
        return outcomes.stream().filter(o -> o.logbook() != null).toList();
    }

    private LogbookReading read(Outcome outcome, Snapshot facts) throws Refusal {
        Statement statement = lines.over(facts);
        return LogbookReading.of(
                from(outcome, facts.entries()), context.format().clock(), statement);
    }

    private LogbookReading.From from(Outcome outcome, List<Entry> facts) throws Refusal {
        String path = outcome.stamp().path();
        LogbookText text = text(outcome, path.equals(Logbook.appended(Ledger.inForce(facts))));
        Map<String, Logbook> all = Logbook.of(facts);
        Set<String> here = logbooks().stream().map(o -> o.stamp().path()).collect(Collectors.toSet());
        Logbook known = known(path, text, all, other -> !here.contains(other) && !isThere(other));
        Set<String> elsewhere = all.values().stream()
                .filter(l -> !l.file().equals(known.file()))
                .flatMap(l -> l.lines().stream())
                .map(Event.LogbookLine::text)
                .collect(Collectors.toSet());
        return new LogbookReading.From(known, path, text, elsewhere, facts, takeBack);
    }

    /** Its lines; of one that commands write as well, those that stand there now that none can. */
    private static LogbookText text(Outcome outcome, boolean now) throws Refusal {
        LogbookText text = outcome.logbook();
        if (text == null) {
            throw new AssertionError(outcome);
        }
        try {
            return now
                    ? LogbookText.of(LogbookAppend.read(Path.of(outcome.stamp().path())))
                    : text;
        } catch (IOException e) {
            throw new Refusal("it cannot be read any more", "import it again");
        }
    }

    /** What is remembered under this path; else of one that is not where it was, with most of whose lines these are. */
    private static Logbook known(String path, LogbookText text, Map<String, Logbook> all, Predicate<String> gone) {
        Logbook here = all.get(path);
        if (here != null) {
            return here;
        }
        Set<String> lines = new HashSet<>();
        text.lines().forEach(l -> lines.add(l.text()));
        Logbook most = Logbook.fresh(path);
        long shared = 0;
        for (Logbook other : all.values()) {
            long same =
                    other.lines().stream().filter(l -> lines.contains(l.text())).count();
            if (gone.test(other.file()) && 2 * same >= other.lines().size() && same > shared) {
                most = other;
                shared = same;
            }
        }
        return most;
    }

    /** True when the file, or the archive that holds it, is on the disk; what was handed over is not. */
    public static boolean isThere(String path) {
        try {
            for (int end = path.length(); end > 0; end = path.lastIndexOf("!/", end - 1)) {
                Path place = Path.of(path.substring(0, end));
                if (place.isAbsolute() && Files.exists(place)) {
                    return true;
                }
            }
            return false;
        } catch (InvalidPathException noNameHere) {
            return false;
        }
    }

    /** Tells of a reading; gives what follows from it, null where it states nothing that was not known. */
    private @Nullable Analysis tell(Outcome o, Read read, List<Entry> written, Snapshot after) {
        LogbookReading reading = read.reading();
        Analysis now = reading.events().isEmpty() ? null : context.analysis(after);
        List<String> changes =
                now == null ? List.of() : ChangeWords.of(Change.between(read.before(), now), context.format());
        told.add(LogbookLines.of(o.file(), reading, written, changes));
        return now;
    }

    /**
     * Logbooks below what the rider named that are no longer there, or no longer say what they are. That is told once;
     * {@code check} says it again.
     *
     * @return those that were told of
     */
    private List<Logbook> tellOfMissing(List<Entry> facts) {
        List<Logbook> missing = new ArrayList<>();
        Set<String> read = logbooks().stream().map(o -> o.stamp().path()).collect(Collectors.toSet());
        Collection<Logbook> known = Logbook.of(facts).values();
        for (Logbook l : known) {
            if (!l.lines().isEmpty() && !l.isMissed() && !read.contains(l.file()) && isBelow(l.file())) {
                @Nullable
                Outcome other = outcomes.stream()
                        .filter(o -> o.stamp().path().equals(l.file()))
                        .findFirst()
                        .orElse(null);
                if (other != null && other.kind() != Outcome.Kind.REFUSED) {
                    told.add(LogbookLines.missing(
                            other.file(), "does not begin with \"" + LogbookText.FIRST + "\" any more"));
                    missing.add(l);
                } else if (other == null && !isThere(l.file())) {
                    told.add(LogbookLines.missing(l.file(), "is not there any more"));
                    missing.add(l);
                }
            }
        }
        return missing;
    }

    private boolean isBelow(String file) {
        return roots.stream().anyMatch(r -> {
            String root = r.toAbsolutePath().normalize().toString();
            return file.equals(root) || file.startsWith(root.endsWith("/") ? root : root + "/");
        });
    }
}
