package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.EventWords;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import java.util.ArrayList;
import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

@Command(
        name = "undo",
        description = {
            "Take facts back: all that the last command stated, or those named by number (chainage log lists them).",
            "Taking back a taking-back brings the fact into force again. Nothing is ever deleted."
        },
        footer = {"Examples:", "  chainage undo", "  chainage undo 17", "  chainage undo 17 18"})
final class UndoCommand extends Write {
    @Parameters(arity = "0..*", paramLabel = "NO", description = "numbers from the log")
    List<Long> numbers = List.of();

    @Override
    Plan plan(Analysis before) {
        List<Entry> inForce = Ledger.of(before.entries()).inForce();
        List<Event> events = new ArrayList<>();
        List<String> said = new ArrayList<>();
        if (numbers.isEmpty()) {
            List<Entry> facts = inForce.stream()
                    .filter(e -> !(e.event() instanceof Event.Undone))
                    .toList();
            if (facts.isEmpty()) {
                throw CliError.usage("there is nothing to take back", "chainage log shows all facts");
            }
            long command = facts.get(facts.size() - 1).command();
            facts.stream().filter(e -> e.command() == command).forEach(e -> take(before.entries(), e, events, said));
        }
        for (long n : numbers.stream().distinct().toList()) {
            Entry e = before.entries().stream()
                    .filter(x -> x.number() == n)
                    .findFirst()
                    .orElseThrow(() -> CliError.usage("there is no entry " + n, "chainage log shows them all"));
            if (inForce.stream().noneMatch(x -> x.number() == n)) {
                throw CliError.usage("entry " + n + " is taken back already", "chainage log shows by which");
            }
            take(before.entries(), e, events, said);
        }
        return new Plan(events, said);
    }

    private void take(List<Entry> entries, Entry e, List<Event> events, List<String> said) {
        events.add(new Event.Undone(e.number()));
        if (e.event() instanceof Event.Undone u) {
            entries.stream()
                    .filter(x -> x.number() == u.target())
                    .forEach(x -> said.add("in force again: " + x.number() + ", "
                            + EventWords.of(x.event(), context().format())));
        } else {
            said.add("taken back: " + e.number() + ", "
                    + EventWords.of(e.event(), context().format()));
        }
    }
}
