package chainage.cli;

import chainage.analysis.Snapshot;
import chainage.answer.things.WrittenAnswer;
import chainage.host.OutputFile;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.logbook.LogbookText;
import chainage.logbook.Refusal;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.store.LedgerFile;
import chainage.store.WholeFile;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import picocli.CommandLine.Command;
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
            "  chainage logbook from treatments.csv -o ~/exports/season.txt"
        },
        subcommands = {LogbookCommand.Writing.class, LogbookFromCommand.class})
final class LogbookCommand extends Action {
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
            CommandContext context = context();
            try (LedgerFile ledger = context.openToWrite()) {
                LedgerFile.Written<List<LogbookWriter.Written>> written =
                        ledger.<List<LogbookWriter.Written>, IOException>update(
                                context.terminal().clock().instant(), snapshot -> write(context, snapshot));
                if (context.json()) {
                    return context.written(file, written.answer().size(), null, file.toString());
                }
                context.out()
                        .line(file + ": " + Formatter.count(written.answer().size(), "line", "lines")
                                + "; what they say changes when you change them and import the file");
                return ExitCode.OK.code();
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }

        private LedgerFile.Decision<List<LogbookWriter.Written>> write(CommandContext context, Snapshot facts) {
            context.analysis(facts);
            Map<String, Instant> starts = new HashMap<>();
            facts.rides().forEach(r -> starts.put(r.id(), r.ride().start()));
            List<LogbookWriter.Written> lines = new LogbookWriter(
                            Ledger.of(facts.entries()), context.format().clock(), starts, context.now())
                    .lines();
            String text = LogbookWriter.text(lines);
            OutputFile.make(file, t -> {
                if (Files.exists(t, LinkOption.NOFOLLOW_LINKS)) {
                    throw new FileAlreadyExistsException(t.toString());
                }
                WholeFile.replace(t, text);
            });
            return new LedgerFile.Decision<>(List.of(read(lines, text)), lines);
        }

        /** What is remembered of it, as though it had been read. */
        private Event.LogbookRead read(List<LogbookWriter.Written> lines, String text) {
            List<Event.LogbookLine> known = new ArrayList<>();
            LogbookText read;
            try {
                read = LogbookText.of(text.getBytes(StandardCharsets.UTF_8));
            } catch (Refusal e) {
                throw CliError.usage("this cannot be written as a logbook (" + e.reason() + ")", "use chainage export");
            }
            for (int i = 0; i < lines.size(); i++) {
                known.add(new Event.LogbookLine(
                        read.lines().get(i).number(),
                        read.lines().get(i).text(),
                        lines.get(i).facts(),
                        List.of()));
            }
            return new Event.LogbookRead(
                    file.toAbsolutePath().normalize().toString(), null, read.digest(), List.of(), known, List.of());
        }
    }
}
