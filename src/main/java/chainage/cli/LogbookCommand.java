package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.ChangeAnswer;
import chainage.answer.things.WrittenAnswer;
import chainage.bookkeeping.NewLogbook;
import chainage.command.Action;
import chainage.command.Intended;
import chainage.ledger.Event;
import chainage.ledger.Logbook;
import chainage.quantity.PlainText;
import chainage.render.Columns;
import chainage.typed.CliError;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.List;
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
        public List<Columns<?>> fields() {
            return List.of(WrittenAnswer.FIELDS);
        }

        @Override
        public Integer call() {
            return NewLogbook.make(context(), file, List.of(), WRITTEN);
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
        public List<Columns<?>> fields() {
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
                return NewLogbook.make(
                        context(),
                        file,
                        List.of(new Event.AppendSet(NewLogbook.absolute(file))),
                        WRITTEN + "; " + ALONG);
            }
            return change(this::plan, false);
        }

        private Intended plan(Analysis before) {
            String now = Logbook.appended(before.facts().inForce());
            if (file == null) {
                if (now == null) {
                    throw CliError.usage("no logbook is written along", "nothing need be done");
                }
                return Intended.of(new Event.AppendSet(null), now + " is not written along any more");
            }
            String path = NewLogbook.absolute(file);
            if (path.equals(now)) {
                throw CliError.usage(path + " is written along already", "to end that: chainage logbook append --stop");
            }
            if (Files.exists(file) && !Logbook.of(before.entries()).containsKey(path)) {
                throw CliError.usage(
                        "\"" + file + "\" was not read as a logbook yet",
                        "import it first (chainage import " + PlainText.typed(file.toString())
                                + "), or name a new file");
            }
            return Intended.of(new Event.AppendSet(path), path + ": " + ALONG);
        }
    }
}
