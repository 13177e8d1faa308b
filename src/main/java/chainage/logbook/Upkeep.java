package chainage.logbook;

import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Logbook;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * What the logbook that is written along needs, so that it and the ledger stay one: lines that are awaited in it are
 * written, lines whose facts are all taken back are struck, lines whose facts are in force again come back.
 *
 * <p>A line is noted together with its facts, and awaited from then on until it is seen in the file. So a kill or a full
 * disk between the two loses nothing, and an editor that saves over it does not take its fact back.
 *
 * @param amendment of the file
 * @param note to be stated once it is amended; null where nothing is to be remembered
 * @param again lines that were written before, and are written once more
 */
public record Upkeep(Amendment amendment, Event.@Nullable LogbookRead note, List<String> again) {
    public Upkeep {
        again = List.copyOf(again);
    }

    /**
     * What is to be remembered of a line that will be written for facts.
     *
     * @param known what is remembered so far
     * @param content of the file; null where it cannot be read
     */
    public static Event.LogbookRead noted(Logbook known, byte @Nullable [] content, Line line, List<Long> facts) {
        List<String> awaited = new ArrayList<>(known.awaited());
        int number = 1;
        if (content != null) {
            number = Amendment.next(content);
            try {
                Seen seen = new Seen(LogbookText.of(content), known);
                awaited.removeIf(seen::take);
                number += awaited.size();
            } catch (Refusal e) {
                // It is told when the line is to be written.
            }
        }
        awaited.add(line.text());
        return new Event.LogbookRead(
                known.file(),
                null,
                known.digest(),
                List.of(),
                List.of(new Event.LogbookLine(number, line.text(), facts, List.of())),
                known.refused(),
                awaited);
    }

    /**
     * Looks at the file.
     *
     * @param known what is remembered of it
     * @param entries all of them, by number
     * @param fresh lines that are written for the first time; the others are only where nothing stands in the file that
     *     was not read yet, since it may be what became of them
     * @throws Refusal when it is no logbook any more
     */
    public static Upkeep of(Logbook known, List<Entry> entries, byte[] content, Collection<String> fresh)
            throws Refusal {
        if (!LogbookText.promises(content)) {
            throw new Refusal("it does not begin with \"" + LogbookText.FIRST + "\" any more");
        }
        Set<Long> inForce =
                Ledger.of(entries).inForce().stream().map(Entry::number).collect(Collectors.toSet());
        List<Event.LogbookLine> dead = known.lines().stream()
                .filter(l -> !l.facts().isEmpty() && l.facts().stream().noneMatch(inForce::contains))
                .toList();
        List<String> struck = dead.stream().map(Event.LogbookLine::text).toList();
        List<Event.LogbookLine> revived = revived(known, entries, inForce);
        Set<String> first = new HashSet<>(fresh);
        revived.forEach(l -> first.add(l.text()));

        List<String> awaited = new ArrayList<>(known.awaited());
        struck.forEach(awaited::remove);
        revived.forEach(l -> awaited.add(l.text()));
        Seen seen = new Seen(LogbookText.of(content), known);
        List<String> missing = new ArrayList<>(awaited);
        missing.removeIf(seen::take);
        if (seen.holdsMore(struck)) {
            missing.removeIf(l -> !first.contains(l));
        }
        Event.LogbookRead note = dead.isEmpty() && revived.isEmpty()
                ? null
                : new Event.LogbookRead(known.file(), null, known.digest(), struck, revived, known.refused(), awaited);
        return new Upkeep(
                Amendment.of(content, struck, missing),
                note,
                missing.stream().filter(l -> !first.contains(l)).toList());
    }

    /** Lines that this logbook held once, whose facts are in force again and stand in no logbook. */
    private static List<Event.LogbookLine> revived(Logbook known, List<Entry> entries, Set<Long> inForce) {
        Set<Long> held = new HashSet<>();
        Logbook.of(entries).values().forEach(b -> b.lines().forEach(l -> held.addAll(l.facts())));
        List<Event.LogbookLine> revived = new ArrayList<>();
        for (int i = entries.size() - 1; i >= 0; i--) {
            if (entries.get(i).event() instanceof Event.LogbookRead read
                    && read.file().equals(known.file())) {
                for (Event.LogbookLine l : read.lines()) {
                    if (l.facts().stream().anyMatch(inForce::contains)
                            && l.facts().stream().noneMatch(held::contains)) {
                        held.addAll(l.facts());
                        revived.add(0, l);
                    }
                }
            }
        }
        return revived;
    }

    /** What stands in the file beside the lines that are remembered as seen in it. */
    private static final class Seen {
        private final Map<String, Integer> more = new HashMap<>();
        private final Set<String> refused;

        Seen(LogbookText text, Logbook known) {
            text.lines().forEach(l -> more.merge(l.text(), 1, Integer::sum));
            refused = known.refused().stream().map(Event.RefusedLine::text).collect(Collectors.toSet());
            List<String> unseen = new ArrayList<>(known.awaited());
            for (Event.LogbookLine l : known.lines()) {
                if (!unseen.remove(l.text())) {
                    take(l.text());
                }
            }
        }

        /** Takes a line for one that stands there; false where it does not. */
        boolean take(String line) {
            Integer there = more.get(line);
            if (there == null) {
                return false;
            }
            if (there == 1) {
                more.remove(line);
            } else {
                more.put(line, there - 1);
            }
            return true;
        }

        boolean holdsMore(List<String> struck) {
            return more.keySet().stream().anyMatch(l -> !refused.contains(l) && !struck.contains(l));
        }
    }
}
