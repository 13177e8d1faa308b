package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.things.TakenBackWords;
import chainage.command.Intended;
import chainage.command.Write;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.logbook.TakenBack;
import chainage.typed.CliError;
import java.util.ArrayList;
import java.util.List;
import picocli.CommandLine.Command;

@Command(
        name = "redo",
        description = "Bring back what the last undo took back; again, what the one before it took back.",
        footer = {"Examples:", "  chainage redo", "  chainage redo --dry-run"})
final class RedoCommand extends Write {
    /** It speaks of what was stated. */
    @Override
    public boolean states() {
        return false;
    }

    @Override
    public Intended plan(Analysis before) {
        TakenBackWords words = new TakenBackWords(before.entries(), context().format());
        List<Entry> undone = TakenBack.last(before.entries());
        if (undone.isEmpty()) {
            throw CliError.usage("nothing is taken back", "chainage log shows all facts");
        }
        List<Event> events = new ArrayList<>();
        List<String> said = new ArrayList<>();
        for (Entry e : undone) {
            events.add(new Event.Undone(e.number()));
            said.add(words.broughtBack(((Event.Undone) e.event()).target()));
        }
        return new Intended(events, said);
    }
}
