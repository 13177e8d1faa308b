package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.things.EvidenceList;
import chainage.answer.things.EvidenceWords;
import chainage.answer.things.WrittenAnswer;
import chainage.command.Action;
import chainage.command.CommandContext;
import chainage.command.Intended;
import chainage.command.Question;
import chainage.command.Write;
import chainage.evidence.EvidenceFile;
import chainage.evidence.RiderEvidence;
import chainage.host.OutputFile;
import chainage.intake.EvidenceFiles;
import chainage.intake.GivenEvidence;
import chainage.ledger.Event;
import chainage.quantity.PlainText;
import chainage.render.Answer;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.typed.Alike;
import chainage.typed.CliError;
import chainage.typed.ExitCode;
import chainage.typed.QuantityParser;
import java.nio.file.Path;
import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "evidence",
        description = {
            "What other riders' chains have shown: who brought what, how much each weighs. Your own estimates start from it, and"
                    + " what you see yourself outweighs it as it grows.",
            "",
            "Nothing leaves this machine unless you send it: write makes a file, show prints what is in one."
        },
        subcommands = {
            EvidenceCommand.WriteFile.class,
            EvidenceCommand.Show.class,
            EvidenceCommand.Add.class,
            EvidenceCommand.Remove.class
        },
        footer = {
            "Examples:",
            "  chainage evidence",
            "  chainage evidence write mine.jsonl",
            "  chainage evidence add hers.jsonl --as Wren"
        })
final class EvidenceCommand extends Question {
    @Override
    public List<Columns<?>> fields() {
        return List.of(EvidenceList.RIDERS.fields());
    }

    @Override
    public Answer answer() {
        return EvidenceList.riders(context().analysis().others(), context().format());
    }

    @Command(
            name = "write",
            description = {
                "Write what your chains have shown as a file that you may give away: of each treatment method, product, cleaning,"
                        + " load, kilometres by road in steps of 5, and how it ended; of each chain its readings, with the"
                        + " kilometres before them; of rides with two power meters what was missing between these. No name but the products', no date, no place, no ride; the order tells"
                        + " nothing.",
                "Look at it before you send it: chainage evidence show FILE. Nothing is overwritten."
            },
            footer = {
                "Examples:",
                "  chainage evidence write mine.jsonl",
                "  chainage evidence write mine.jsonl --products methods",
                "  chainage evidence write club.jsonl --rider Dunlin --rider Wren --others"
            })
    static final class WriteFile extends Action {
        @Parameters(index = "0", paramLabel = "FILE", description = "a new file")
        Path file = Path.of("");

        @Option(
                names = "--products",
                paramLabel = "WORD",
                description = "names, or methods to leave the products' names out (default: names)")
        String products = "names";

        @Option(
                names = "--least",
                paramLabel = "N",
                description = "leave out products with fewer treatments than so many (default: 3)")
        String least = "3";

        @Option(
                names = "--rider",
                paramLabel = "BIKE,...",
                description = "bikes of one rider; once for each rider of this ledger (default: all are one rider's)")
        List<String> riders = List.of();

        @Option(names = "--others", description = "the riders whose evidence was brought in as well: a club's file")
        boolean others;

        @Override
        public List<Columns<?>> fields() {
            return List.of(WrittenAnswer.FIELDS);
        }

        @Override
        public Integer call() {
            CommandContext context = context();
            boolean named = products.equals("names");
            if (!named && !products.equals("methods")) {
                throw CliError.usage("\"" + products + "\" is no way to tell products", "use names or methods");
            }
            Analysis all = context.analysis();
            int fewest = QuantityParser.treatments(least);
            List<RiderEvidence> written = GivenEvidence.of(all, riders, named, fewest, others);
            if (written.isEmpty()) {
                throw new CliError(
                        ExitCode.REFUSED,
                        "no product was ridden on " + fewest + " treatments yet, so there is nothing to tell",
                        "note treatments as you make them: chainage treat CHAIN PRODUCT");
            }
            OutputFile.make(file, EvidenceFile.text(written));
            int treatments =
                    written.stream().mapToInt(r -> r.treatments().size()).sum();
            return context.written(
                    file,
                    treatments,
                    null,
                    file + " (" + EvidenceWords.told(written) + "); look at it: chainage evidence show "
                            + PlainText.typed(file.toString()));
        }
    }

    @Command(
            name = "show",
            description =
                    "All that is in a file of evidence: a row a treatment, a reading, a ride with two power meters.",
            footer = {"Example:", "  chainage evidence show mine.jsonl"})
    static final class Show extends Question {
        @Parameters(index = "0", paramLabel = "FILE")
        Path file = Path.of("");

        @Override
        public List<Columns<?>> fields() {
            return List.of(EvidenceList.FILE);
        }

        @Override
        public Answer answer() {
            return EvidenceList.file(EvidenceFiles.read(file), context().format());
        }
    }

    @Command(
            name = "add",
            description = {
                "Bring in what other riders' chains have shown, from their files. A file with a line that cannot be is refused.",
                "A rider brought in twice, and your own file, count once."
            },
            footer = {
                "Examples:",
                "  chainage evidence add hers.jsonl --as Wren",
                "  chainage evidence add *.jsonl --as club"
            })
    static final class Add extends Write {
        @Parameters(arity = "1..*", paramLabel = "FILE")
        List<Path> files = List.of();

        @Option(
                names = "--as",
                required = true,
                paramLabel = "WORD",
                description = "your word for where it comes from, by which it is removed")
        String as = "";

        @Override
        public boolean states() {
            return false;
        }

        @Override
        public Intended plan(Analysis before) {
            List<RiderEvidence> riders =
                    files.stream().flatMap(f -> EvidenceFiles.read(f).stream()).toList();
            return new Intended(
                    List.of(new Event.EvidenceAdded(
                            as.strip(), riders.stream().map(RiderEvidence::text).toList())),
                    EvidenceWords.brought(before, as.strip(), riders));
        }
    }

    @Command(
            name = "remove",
            description = "Leave out what was brought in under a word: every answer is as if it had never been.",
            footer = {"Example:", "  chainage evidence remove Wren"})
    static final class Remove extends Write {
        @Parameters(index = "0", paramLabel = "WORD")
        String as = "";

        @Override
        public boolean states() {
            return false;
        }

        @Override
        public Intended plan(Analysis before) {
            List<String> riders = before.ledger().evidence().get(as.strip());
            if (riders == null) {
                throw CliError.usage(
                        "nothing was brought in as \"" + as + "\"",
                        Alike.hint(as, before.ledger().evidence().keySet(), "chainage evidence lists all"));
            }
            return Intended.of(
                    new Event.EvidenceRemoved(as.strip()),
                    as.strip() + ": " + Formatter.count(riders.size(), "rider", "riders") + " left out");
        }
    }
}
