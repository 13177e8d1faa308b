package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.things.TakenBackWords;
import chainage.command.Intended;
import chainage.command.Write;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Logbook;
import chainage.logbook.TakenBack;
import chainage.typed.CliError;
import chainage.typed.TypedEntries;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

@Command(
        name = "undo",
        description = {
            "Take facts back: all that the last command stated, or those named by number (chainage log lists them).",
            "Taken back by mistake? chainage redo brings it into force again. Nothing is ever deleted."
        },
        footer = {"Examples:", "  chainage undo", "  chainage undo 17", "  chainage undo 17 18"})
final class UndoCommand extends Write {
    @Parameters(arity = "0..*", paramLabel = "NO", description = "numbers from the log, or a range such as 17..25")
    List<String> typed = List.of();

    /** It speaks of what was stated. */
    @Override
    public boolean states() {
        return false;
    }

    @Override
    public Intended plan(Analysis before) {
        List<Event> events = new ArrayList<>();
        List<String> said = new ArrayList<>();
        TakenBackWords words = new TakenBackWords(before.entries(), context().format());
        Consumer<Entry> take = e -> {
            events.add(new Event.Undone(e.number()));
            said.addAll(words.undone(e));
        };
        if (typed.isEmpty()) {
            List<Entry> facts = TakenBack.next(before.entries());
            if (facts.isEmpty()) {
                throw CliError.usage("there is nothing to take back", "chainage log shows all facts");
            }
            facts.forEach(take);
            String along = Logbook.appended(before.ledger().inForce());
            return new Intended(events, words.ofReading(facts.get(0).command(), said, along));
        }
        List<Entry> inForce = before.ledger().inForce();
        for (long n : TypedEntries.numbers(typed, inForce).stream().distinct().toList()) {
            Entry e = before.entries().stream()
                    .filter(x -> x.number() == n)
                    .findFirst()
                    .orElseThrow(() -> CliError.usage("there is no entry " + n, "chainage log shows them all"));
            if (inForce.stream().noneMatch(x -> x.number() == n)) {
                throw CliError.usage("entry " + n + " is taken back already", "chainage log shows by which");
            }
            if (e.event().isNote()) {
                throw CliError.usage(
                        "entry " + n + " only notes how a file was met", "take back the facts, or change the file");
            }
            take.accept(e);
        }
        return new Intended(events, said);
    }
}
