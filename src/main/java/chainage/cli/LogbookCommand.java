package chainage.cli;

import chainage.analysis.Analysis;
import chainage.analysis.Snapshot;
import chainage.answer.ChangeAnswer;
import chainage.answer.things.WrittenAnswer;
import chainage.host.OutputFile;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Logbook;
import chainage.logbook.LogbookText;
import chainage.logbook.Refusal;
import chainage.quantity.PlainText;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.store.LedgerFile;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "logbook",
        description = {
            "Facts as lines of a text file (chainage explain logbook). Import reads such a file where it meets one; this"
                    + " command writes one: of all that you stated, or from a table of yours."
        },
        footer = {
            "Examples:",
            "  chainage logbook write ~/exports/season.txt",
            "  chainage logbook append ~/exports/season.txt",
            "  chainage logbook from treatments.csv -o ~/exports/season.txt"
        },
        subcommands = {LogbookCommand.Writing.class, LogbookCommand.Appending.class, LogbookFromCommand.class})
final class LogbookCommand extends Action {
    private static final String WRITTEN = "what they say changes when you change them and import the file";
    private static final String ALONG = "from now on what you type is written into it as well";

    @Override
    public Integer call() {
        throw CliError.usage(
                "nothing says what to do with a logbook",
                "write one: chainage logbook write FILE, or chainage logbook from TABLE.csv");
    }

    @Command(
            name = "write",
            description = {
                "Write all that you stated into a new file, by date. From then on its lines state it: change one, import"
                        + " it, and the fact changes. Weather records are not in it."
            },
            footer = {"Example:", "  chainage logbook write ~/exports/season.txt"})
    static final class Writing extends Action {
        @Parameters(index = "0", paramLabel = "FILE", description = "a new file")
        Path file = Path.of("");

        @Override
        List<Columns<?>> fields() {
            return List.of(WrittenAnswer.FIELDS);
        }

        @Override
        public Integer call() {
            return made(context(), file, List.of(), WRITTEN);
        }
    }

    @Command(
            name = "append",
            description = {
                "Keep a logbook and the ledger one: what you type from now on is written as a line of it too, and what you"
                        + " take back is struck there. A file that is not there yet is begun with all you stated so far.",
                "What cannot be written at once is kept, and written by the next command or import that can."
            },
            footer = {"Examples:", "  chainage logbook append ~/exports/season.txt", "  chainage logbook append --stop"
            })
    static final class Appending extends Action {
        @Parameters(
                index = "0",
                arity = "0..1",
                paramLabel = "FILE",
                description = "a logbook that was imported, or a new file")
        @Nullable
        Path file;

        @Option(names = "--stop", description = "write no lines from now on")
        boolean stop;

        @Override
        List<Columns<?>> fields() {
            return List.of(ChangeAnswer.FIELDS, WrittenAnswer.FIELDS);
        }

        @Override
        public Integer call() {
            if (stop && file != null) {
                throw CliError.usage("--stop names no file", "leave \"" + file + "\" out");
            }
            if (file == null && !stop) {
                String now = Logbook.appended(context().ledger().inForce());
                throw CliError.usage(
                        "no logbook is named",
                        now == null
                                ? "name one that was imported, or a new file: chainage logbook append FILE"
                                : now + " is written along now; name another, or end it with --stop");
            }
            if (file != null && !Files.exists(file, LinkOption.NOFOLLOW_LINKS)) {
                return made(context(), file, List.of(new Event.AppendSet(absolute(file))), WRITTEN + "; " + ALONG);
            }
            return context().change(this, this::plan, false);
        }

        private Write.Plan plan(Analysis before) {
            String now = Logbook.appended(before.facts().inForce());
            if (file == null) {
                if (now == null) {
                    throw CliError.usage("no logbook is written along", "nothing need be done");
                }
                return Write.Plan.of(new Event.AppendSet(null), now + " is not written along any more");
            }
            String path = absolute(file);
            if (path.equals(now)) {
                throw CliError.usage(path + " is written along already", "to end that: chainage logbook append --stop");
            }
            if (Files.exists(file) && !Logbook.of(before.entries()).containsKey(path)) {
                throw CliError.usage(
                        "\"" + file + "\" was not read as a logbook yet",
                        "import it first (chainage import " + PlainText.typed(file.toString())
                                + "), or name a new file");
            }
            return Write.Plan.of(new Event.AppendSet(path), path + ": " + ALONG);
        }
    }

    private static String absolute(Path file) {
        return file.toAbsolutePath().normalize().toString();
    }

    /**
     * Writes all that is stated into a new file.
     *
     * @param also what is stated with it
     * @param said of its lines
     */
    private static Integer made(CommandContext context, Path file, List<Event> also, String said) {
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
