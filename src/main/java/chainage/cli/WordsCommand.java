package chainage.cli;

import chainage.analysis.Analysis;
import chainage.condition.RoadWords;
import chainage.condition.RoadWords.Meaning;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.render.Json;
import chainage.render.Table;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

@Command(
        name = "words",
        description = {
            "Formatter that say how a road was, in titles, notes, keywords, file and folder names: the built-in list knows several"
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
final class WordsCommand extends Action {
    @Parameters(index = "0", arity = "0..1", paramLabel = "TEXT", description = "a title to try (else your own words)")
    String text = "";

    static String meanings() {
        return Arrays.stream(Meaning.values()).map(Meaning::word).collect(Collectors.joining(", "));
    }

    @Override
    public Integer call() {
        CommandContext context = context();
        Ledger ledger = context.ledger();
        List<Json> list = new ArrayList<>();
        if (!text.isBlank()) {
            Table table = new Table().left("WORD").left("SAYS");
            List<RoadWords.Finding> found =
                    context.tables().words(ledger).findings(List.of(new RoadWords.Source(RoadWords.Where.TITLE, text)));
            for (RoadWords.Finding f : found) {
                table.row(f.word(), f.meaning().word());
                list.add(
                        new Json().put("word", f.word()).put("says", f.meaning().word()));
            }
            return context.list("findings", list, table, "says nothing of the road");
        }
        Table table = new Table().left("YOUR WORD").left("SAYS");
        for (Event.RoadWordSet w : ledger.roadWords()) {
            String says = String.valueOf(w.meaning());
            table.row(w.word(), says.equals("none") ? "nothing" : says);
            list.add(new Json().put("word", w.word()).put("says", says));
        }
        return context.list("words", list, table, "no words of your own; add one: chainage words set WORD MEANING");
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
                description = "wet, damp, dry, indoor, muddy, gritty, dusty, loose, clean, or none to silence it")
        String meaning = "";

        @Override
        Plan plan(Analysis before) {
            Meaning m = Meaning.of(meaning)
                    .orElseThrow(() -> CliError.usage("\"" + meaning + "\" says nothing", "use one of " + meanings()));
            String w = word.strip();
            if (w.length() > 60) {
                throw CliError.usage("the word is too long", "use at most 60 letters");
            }
            try {
                RoadWords.OwnWord own = new RoadWords.OwnWord(w, m);
                return Plan.of(
                        new Event.RoadWordSet(own.text(), m.word()),
                        "\"" + w + "\" says " + (m == Meaning.NONE ? "nothing" : m.word()));
            } catch (IllegalArgumentException e) {
                throw CliError.usage("\"" + word + "\" holds no word", "use letters");
            }
        }
    }

    @Command(
            name = "reset",
            description = "Take a word of yours back; the list's meaning holds again.",
            footer = {"Example:", "  chainage words reset rain"})
    static final class Reset extends Write {
        @Parameters(index = "0", paramLabel = "WORD")
        String word = "";

        @Override
        Plan plan(Analysis before) {
            Event.RoadWordSet set = before.ledger().roadWords().stream()
                    .filter(w -> w.word().equalsIgnoreCase(word.strip()))
                    .findFirst()
                    .orElseThrow(
                            () -> CliError.usage("\"" + word + "\" is no word of yours", "chainage words lists them"));
            return Plan.of(
                    new Event.RoadWordSet(set.word(), null), "\"" + set.word() + "\" is no word of yours any more");
        }
    }
}
