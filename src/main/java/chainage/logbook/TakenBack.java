package chainage.logbook;

import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Logbook;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** What can be taken back without being named, and what can be brought back: always all that one command did. */
public final class TakenBack {
    private TakenBack() {}

    /** What was stated last and is in force, by one command; none where nothing is. */
    public static List<Entry> next(List<Entry> entries) {
        // A reading of a logbook takes back what its file no longer says; that belongs to what it states.
        Set<Long> readings = Logbook.readings(entries);
        List<Entry> facts = Ledger.inForce(entries).stream()
                .filter(e -> !(e.event() instanceof Event.Undone) || readings.contains(e.command()))
                .filter(e -> !e.event().isNote())
                .toList();
        return ofOneCommand(facts, facts);
    }

    /** What a command took back last, with what it brought back beside; none where nothing is taken back. */
    public static List<Entry> last(List<Entry> entries) {
        Map<Long, Entry> byNumber = new HashMap<>();
        entries.forEach(e -> byNumber.put(e.number(), e));
        // What a reading of a logbook takes back it states otherwise.
        Set<Long> readings = Logbook.readings(entries);
        List<Entry> inForce = Ledger.inForce(entries);
        List<Entry> undoings = inForce.stream()
                .filter(e -> isUndo(e, byNumber) && !readings.contains(e.command()))
                .toList();
        return ofOneCommand(
                undoings,
                inForce.stream().filter(e -> e.event() instanceof Event.Undone).toList());
    }

    /** All of these that the last of those belongs to. */
    private static List<Entry> ofOneCommand(List<Entry> those, List<Entry> all) {
        if (those.isEmpty()) {
            return List.of();
        }
        long command = those.get(those.size() - 1).command();
        return all.stream().filter(e -> e.command() == command).toList();
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
