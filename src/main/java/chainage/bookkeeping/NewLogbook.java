package chainage.bookkeeping;

import chainage.analysis.Snapshot;
import chainage.command.CommandContext;
import chainage.host.OutputFile;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Logbook;
import chainage.logbook.LogbookText;
import chainage.logbook.LogbookWriter;
import chainage.logbook.Refusal;
import chainage.render.Formatter;
import chainage.store.LedgerFile;
import chainage.typed.CliError;
import chainage.typed.ExitCode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** A logbook that is made of all that is stated. */
public final class NewLogbook {
    private NewLogbook() {}

    /** Its path as it is remembered. */
    public static String absolute(Path file) {
        return file.toAbsolutePath().normalize().toString();
    }

    /**
     * Writes all that is stated into a new file.
     *
     * @param also what is stated with it
     * @param said of its lines
     */
    public static Integer make(CommandContext context, Path file, List<Event> also, String said) {
        try (LedgerFile ledger = context.openToWrite()) {
            LedgerFile.Written<Integer> written = ledger.<Integer, IOException>update(
                    context.terminal().clock().instant(), snapshot -> {
                        context.analysis(snapshot);
                        List<LogbookWriter.Written> lines = lines(context, snapshot);
                        List<Event> events = new ArrayList<>(List.of(make(file, lines, snapshot)));
                        events.addAll(also);
                        return new LedgerFile.Decision<>(events, lines.size());
                    });
            if (context.json()) {
                return context.written(file, written.answer(), null, file.toString());
            }
            context.out().line(file + ": " + Formatter.count(written.answer(), "line", "lines") + "; " + said);
            return ExitCode.OK.code();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static List<LogbookWriter.Written> lines(CommandContext context, Snapshot facts) {
        Map<String, Instant> starts = new HashMap<>();
        facts.rides().forEach(r -> starts.put(r.id(), r.ride().start()));
        return new LogbookWriter(Ledger.of(facts.entries()), context.format().clock(), starts, context.now()).lines();
    }

    /** Makes the file, and what is to be remembered of it as though it had been read. */
    private static Event.LogbookRead make(Path file, List<LogbookWriter.Written> lines, Snapshot facts) {
        String text = LogbookWriter.text(lines);
        LogbookText read;
        try {
            read = LogbookText.of(text.getBytes(StandardCharsets.UTF_8));
        } catch (Refusal e) {
            throw CliError.usage("this cannot be written as a logbook (" + e.reason() + ")", "use chainage export");
        }
        OutputFile.make(file, text);
        List<Event.LogbookLine> known = new ArrayList<>();
        for (int i = 0; i < lines.size(); i++) {
            known.add(new Event.LogbookLine(
                    read.lines().get(i).number(),
                    read.lines().get(i).text(),
                    lines.get(i).facts(),
                    List.of()));
        }
        // What stood in a file of that name is not in this one.
        List<String> gone = Logbook.of(facts.entries()).getOrDefault(absolute(file), Logbook.fresh("")).lines().stream()
                .map(Event.LogbookLine::text)
                .toList();
        return new Event.LogbookRead(absolute(file), null, read.digest(), gone, known, List.of(), List.of());
    }
}
