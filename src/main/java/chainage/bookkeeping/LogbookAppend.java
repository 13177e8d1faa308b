package chainage.bookkeeping;

import chainage.analysis.Analysis;
import chainage.analysis.Snapshot;
import chainage.answer.EventWords;
import chainage.command.CommandContext;
import chainage.command.StatedBy;
import chainage.host.SharedFile;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Kinds;
import chainage.ledger.Ledger;
import chainage.ledger.Logbook;
import chainage.logbook.Amendment;
import chainage.logbook.FactLine;
import chainage.logbook.Line;
import chainage.logbook.LogbookText;
import chainage.logbook.Refusal;
import chainage.logbook.Upkeep;
import chainage.store.LedgerFile;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.LongStream;
import org.jspecify.annotations.Nullable;

/**
 * The logbook that is written along. A command's line is noted with its facts in one transaction, and written when they
 * are kept, while no other process can; what cannot be written then is written by the next command or import that can.
 */
public final class LogbookAppend implements CommandContext.Beside {
    /** So often it is tried anew when an editor saves between a look at the file and its change. */
    private static final int TRIES = 3;

    private static final Line NO_DATE = new Line(1, LocalDate.EPOCH, null, null, List.of());

    private final CommandContext context;
    private final List<String> fresh = new ArrayList<>();

    public LogbookAppend(CommandContext context) {
        this.context = context;
    }

    /** What the file holds; a few bytes more than any logbook are read of one that is larger. */
    static byte[] read(Path file) throws IOException {
        try (InputStream in = Files.newInputStream(file)) {
            return in.readNBytes(LogbookText.LARGEST + 1);
        }
    }

    @Override
    public List<Event> noted(StatedBy by, List<Event> events, Analysis before) {
        fresh.clear();
        List<Entry> entries = before.entries();
        String file = Logbook.appended(before.facts().inForce());
        @Nullable Logbook known = file == null ? null : Logbook.of(entries).get(file);
        if (known == null) {
            return events;
        }
        Map<Line, List<Long>> lines = by.states() ? typed(known, by, events, before) : alone(known, events, entries);
        if (lines.isEmpty()) {
            return events;
        }
        List<Event> all = new ArrayList<>(events);
        all.add(Upkeep.noted(known, content(Path.of(known.file())), lines));
        lines.keySet().forEach(l -> fresh.add(l.text()));
        return all;
    }

    /** What was typed, as one line of all that it states. */
    private Map<Line, List<Long>> typed(Logbook known, StatedBy by, List<Event> events, Analysis before) {
        Line line = TypedLine.of(by, events, context);
        if (!saysTheSame(line, events, before)) {
            context.warn(
                    "no line of " + known.file() + " can say the same, so what is kept stands in the ledger alone");
            return Map.of();
        }
        long next = next(before.entries());
        return Map.of(line, LongStream.range(next, next + events.size()).boxed().toList());
    }

    /** Lines of facts that are stated anew, of a command that speaks of facts. */
    private Map<Line, List<Long>> alone(Logbook known, List<Event> events, List<Entry> entries) {
        Map<Line, List<Long>> lines = new LinkedHashMap<>();
        List<Entry> after = new ArrayList<>(entries);
        long number = next(entries);
        long command = number;
        for (Event e : events) {
            long n = number++;
            after.add(new Entry(n, command, context.now(), e));
            if (Kinds.happened(e).isPresent()) {
                worded(e, NO_DATE).ifPresent(l -> lines.put(l, List.of(n)));
            }
        }
        List<String> unsaid = Upkeep.unsaid(known, entries, this::worded);
        Upkeep.unsaid(known, after, this::worded).stream()
                .filter(l -> !unsaid.contains(l))
                .forEach(l -> context.warn("no line of " + known.file() + " can say what is left of \"" + l
                        + "\", so it stays there; the ledger goes by what you took back"));
        return lines;
    }

    private Optional<Line> worded(Event fact, Line undated) {
        return FactLine.of(fact, context.format().clock(), undated);
    }

    private static long next(List<Entry> entries) {
        return entries.isEmpty() ? 1 : entries.get(entries.size() - 1).number() + 1;
    }

    private static byte @Nullable [] content(Path file) {
        try {
            return read(file);
        } catch (IOException e) {
            return null;
        }
    }

    private boolean saysTheSame(Line line, List<Event> events, Analysis before) {
        try {
            List<Line> read =
                    LogbookText.of(LogbookText.FIRST + "\n" + line.text()).lines();
            return read.size() == 1
                    && new LineReader(context, before)
                            .of(read.get(0), before.ledger())
                            .equals(events);
        } catch (Refusal e) {
            return false;
        }
    }

    /** Looks at the file that is written along, and gives it what it lacks. */
    @Override
    public void bringUpToDate(LedgerFile ledger, List<Entry> facts) {
        // Most riders write none along, and need no second transaction after each of theirs.
        if (facts.stream().noneMatch(e -> e.event() instanceof Event.AppendSet)) {
            return;
        }
        try {
            String said = "";
            for (int i = 0; i < TRIES; i++) {
                said = ledger.<String, IOException>updateFacts(
                                context.terminal().clock().instant(), this::amended)
                        .answer();
                if (said.isEmpty()) {
                    return;
                }
            }
            context.warn(said);
        } catch (IOException e) {
            context.warn("the logbook is not written along yet (" + e.getMessage()
                    + "); the next command or import does it");
        }
    }

    /** Answers why it is to be tried again; empty where it is not. */
    private LedgerFile.Decision<String> amended(Snapshot facts) throws IOException {
        String file = Logbook.appended(Ledger.inForce(facts.entries()));
        @Nullable
        Logbook known = file == null ? null : Logbook.of(facts.entries()).get(file);
        if (known == null) {
            return new LedgerFile.Decision<>(List.of(), "");
        }
        Path path = Path.of(known.file());
        try {
            byte[] content = read(path);
            Upkeep upkeep = Upkeep.of(known, facts.entries(), content, fresh, this::worded);
            Amendment to = upkeep.amendment();
            if (!Arrays.equals(to.content(), content)) {
                if (to.same() == content.length) {
                    SharedFile.append(path, Arrays.copyOfRange(to.content(), to.same(), to.content().length));
                } else if (!SharedFile.replace(path, content, to.content())) {
                    return new LedgerFile.Decision<>(
                            List.of(), file + " changes while it is written; the next command or import does it");
                }
            }
            upkeep.again()
                    .forEach(l -> context.warn(EventWords.name(known.file()) + " did not hold what was written into it,"
                            + " as when an editor saves over it; written again: " + l
                            + "; if it is not so, take it back: chainage undo " + entries(known, l)));
            Event.LogbookRead note = upkeep.note();
            return new LedgerFile.Decision<>(note == null ? List.of() : List.of(note), "");
        } catch (Refusal e) {
            waits(known, e.reason());
        } catch (NoSuchFileException e) {
            waits(known, "it is not there");
        } catch (AccessDeniedException e) {
            waits(known, "it may not be written");
        } catch (IOException e) {
            waits(known, String.valueOf(e.getMessage()));
        }
        return new LedgerFile.Decision<>(List.of(), "");
    }

    private void waits(Logbook known, String why) {
        int lines = known.awaited().size();
        context.warn("the logbook " + known.file() + " cannot be written along (" + why + "); all is kept, and "
                + (lines == 1 ? "1 line waits" : lines + " lines wait")
                + " for it; to end that: chainage logbook append --stop");
    }

    private static String entries(Logbook known, String line) {
        return known.lines().stream()
                .filter(l -> l.text().equals(line))
                .reduce((a, b) -> b)
                .map(l ->
                        String.join(" ", l.facts().stream().map(String::valueOf).toList()))
                .orElse("NO");
    }
}
