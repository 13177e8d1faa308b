package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.things.WordList;
import chainage.command.Intended;
import chainage.command.Question;
import chainage.command.Write;
import chainage.condition.RoadWords;
import chainage.condition.RoadWords.Meaning;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.render.Answer;
import chainage.render.Columns;
import chainage.typed.CliError;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

@Command(
        name = "words",
        description = {
            "Words that say how a road was, in titles, notes, keywords, file and folder names: the built-in list knows several"
                    + " languages; add your own, or silence one.",
            "With a TEXT: what it would say."
        },
        subcommands = {WordsCommand.Set.class, WordsCommand.Reset.class},
        footer = {
            "Examples:",
            "  chainage words \"dry despite forecast\"",
            "  chainage words set \"peat track\" gritty",
            "  chainage words set rain none",
            "  chainage words reset rain"
        })
final class WordsCommand extends Question {
    @Parameters(index = "0", arity = "0..1", paramLabel = "TEXT", description = "a title to try (else your own words)")
    String text = "";

    static String meanings() {
        return Arrays.stream(Meaning.values()).map(Meaning::word).collect(Collectors.joining(", "));
    }

    @Override
    public List<Columns<?>> fields() {
        return List.of(WordList.OWN.fields(), WordList.FOUND.fields());
    }

    @Override
    public Answer answer() {
        Ledger ledger = context().ledger();
        if (text.isBlank()) {
            return WordList.OWN.of(ledger.roadWords(), context().format());
        }
        RoadWords.Source title = new RoadWords.Source(RoadWords.Where.TITLE, text);
        return WordList.FOUND.of(
                context().tables().words(ledger).findings(List.of(title)),
                context().format());
    }

    @Command(
            name = "set",
            description = "Say what a word means for the road.",
            footer = {"Examples:", "  chainage words set \"peat track\" gritty", "  chainage words set rain none"})
    static final class Set extends Write {
        @Parameters(index = "0", paramLabel = "WORD", description = "a word or a few, as in a title")
        String word = "";

        @Parameters(
                index = "1",
                paramLabel = "MEANING",
                description =
                        "wet, damp, dry, indoor, muddy, gritty, salted, dusty, loose, clean, or none to silence it")
        String meaning = "";

        @Override
        public Intended plan(Analysis before) {
            Meaning m = Meaning.of(meaning)
                    .orElseThrow(() -> CliError.usage("\"" + meaning + "\" says nothing", "use one of " + meanings()));
            String w = word.strip();
            if (w.length() > 60) {
                throw CliError.usage("the word is too long", "use at most 60 letters");
            }
            try {
                RoadWords.OwnWord own = new RoadWords.OwnWord(w, m);
                return Intended.of(
                        new Event.RoadWordSet(own.text(), m.word()),
                        "\"" + w + "\" says " + (m == Meaning.NONE ? "nothing" : m.word()));
            } catch (IllegalArgumentException e) {
                throw CliError.usage("\"" + word + "\" holds no word", "use letters");
            }
        }
    }

    @Command(
            name = "reset",
            description = "Remove a word of yours; the list's meaning applies again.",
            footer = {"Example:", "  chainage words reset rain"})
    static final class Reset extends Write {
        @Parameters(index = "0", paramLabel = "WORD")
        String word = "";

        @Override
        public Intended plan(Analysis before) {
            Event.RoadWordSet set = before.ledger().roadWords().stream()
                    .filter(w -> w.word().equalsIgnoreCase(word.strip()))
                    .findFirst()
                    .orElseThrow(
                            () -> CliError.usage("\"" + word + "\" is no word of yours", "chainage words lists them"));
            return Intended.of(
                    new Event.RoadWordSet(set.word(), null), "\"" + set.word() + "\" is no word of yours any more");
        }
    }
}
