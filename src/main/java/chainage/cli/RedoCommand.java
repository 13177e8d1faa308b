package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.EventWords;
import chainage.command.Write;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Logbook;
import chainage.typed.CliError;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
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
    public Plan plan(Analysis before) {
        Map<Long, Entry> byNumber = new HashMap<>();
        before.entries().forEach(e -> byNumber.put(e.number(), e));
        // What a reading of a logbook takes back it states otherwise.
        Set<Long> readings = Logbook.readings(before.entries());
        List<Entry> inForce = Ledger.inForce(before.entries());
        List<Entry> undoings = inForce.stream()
                .filter(e -> isUndo(e, byNumber) && !readings.contains(e.command()))
                .toList();
        if (undoings.isEmpty()) {
            throw CliError.usage("nothing is taken back", "chainage log shows all facts");
        }
        long command = undoings.get(undoings.size() - 1).command();
        List<Event> events = new ArrayList<>();
        List<String> said = new ArrayList<>();
        for (Entry e : inForce) {
            // All of that command, so that what it brought back beside is taken back again.
            if (e.command() == command && e.event() instanceof Event.Undone u) {
                events.add(new Event.Undone(e.number()));
                said.add(said(u.target(), byNumber));
            }
        }
        return new Plan(events, said);
    }

    private String said(long target, Map<Long, Entry> byNumber) {
        Entry back = byNumber.get(target);
        boolean away = back != null && back.event() instanceof Event.Undone;
        long number = back != null && back.event() instanceof Event.Undone u ? u.target() : target;
        Entry fact = byNumber.get(number);
        return (away ? "taken back again: " : "in force again: ")
                + number
                + (fact == null
                        ? ""
                        : ", " + EventWords.of(fact.event(), context().format()));
    }

    /** True for a taking-back, false for the taking-back of one, which is a bringing-back. */
    private static boolean isUndo(Entry entry, Map<Long, Entry> byNumber) {
        boolean undo = false;
        Entry at = entry;
        while (at != null && at.event() instanceof Event.Undone u && u.target() < at.number()) {
            undo = !undo;
            at = byNumber.get(u.target());
        }
        return undo;
    }
}
