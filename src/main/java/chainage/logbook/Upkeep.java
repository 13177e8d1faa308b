package chainage.logbook;

import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Logbook;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * What the logbook that is written along needs, so that it and the ledger stay one: lines that are awaited in it are
 * written, lines whose facts are taken back are struck, lines whose facts are in force again come back. A line of which a
 * part is taken back gives way to lines of what is left.
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

    /** Puts a fact into words. */
    @FunctionalInterface
    public interface Wording {
        /**
         * The line that states a fact alone.
         *
         * @param undated whose date it has where the fact has none
         * @return empty where no line can
         */
        Optional<Line> of(Event fact, Line undated);
    }

    /**
     * What is to be remembered of lines that will be written for facts.
     *
     * @param known what is remembered so far
     * @param content of the file; null where it cannot be read
     * @param lines with the numbers of their facts, in order
     */
    public static Event.LogbookRead noted(Logbook known, byte @Nullable [] content, Map<Line, List<Long>> lines) {
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
        List<Event.LogbookLine> noted = new ArrayList<>();
        for (Map.Entry<Line, List<Long>> e : lines.entrySet()) {
            awaited.add(e.getKey().text());
            noted.add(new Event.LogbookLine(number++, e.getKey().text(), e.getValue(), List.of()));
        }
        return new Event.LogbookRead(known.file(), null, known.digest(), List.of(), noted, known.refused(), awaited);
    }

    /**
     * Lines of which a part is taken back, and what is left can be put into no words.
     *
     * @param entries all of them, by number
     */
    public static List<String> unsaid(Logbook known, List<Entry> entries, Wording wording) {
        Standing standing = new Standing(entries, wording);
        return known.lines().stream()
                .filter(l -> standing.isBroken(l) && standing.left(l).isEmpty())
                .map(Event.LogbookLine::text)
                .toList();
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
    public static Upkeep of(
            Logbook known, List<Entry> entries, byte[] content, Collection<String> fresh, Wording wording)
            throws Refusal {
        if (!LogbookText.promises(content)) {
            throw new Refusal("it does not begin with \"" + LogbookText.FIRST + "\" any more");
        }
        Standing standing = new Standing(entries, wording);
        List<String> struck = new ArrayList<>();
        // By the line in whose place they come.
        Map<Event.LogbookLine, String> come = new LinkedHashMap<>();
        Set<Long> held = new HashSet<>();
        for (Logbook b : Logbook.of(entries).values()) {
            for (Event.LogbookLine l : b.lines()) {
                List<Event.LogbookLine> left =
                        b.file().equals(known.file()) && standing.isBroken(l) ? standing.left(l) : List.of();
                left.forEach(x -> come.put(x, l.text()));
                if (b.file().equals(known.file()) && (standing.isDead(l) || !left.isEmpty())) {
                    struck.add(l.text());
                }
                if (!standing.isDead(l)) {
                    held.addAll(l.facts());
                }
            }
        }
        revived(known, entries, standing, held).forEach(come::putIfAbsent);
        Set<String> first = new HashSet<>(fresh);
        come.keySet().forEach(l -> first.add(l.text()));

        List<String> awaited = new ArrayList<>(known.awaited());
        struck.forEach(awaited::remove);
        come.keySet().forEach(l -> awaited.add(l.text()));
        Seen seen = new Seen(LogbookText.of(content), known);
        List<String> missing = new ArrayList<>(awaited);
        missing.removeIf(seen::take);
        if (seen.holdsMore(struck)) {
            missing.removeIf(l -> !first.contains(l));
        }
        Event.LogbookRead note = struck.isEmpty() && come.isEmpty()
                ? null
                : new Event.LogbookRead(
                        known.file(),
                        null,
                        known.digest(),
                        struck,
                        List.copyOf(come.keySet()),
                        known.refused(),
                        awaited);
        Map<String, String> behind = new HashMap<>();
        come.forEach((line, of) -> behind.put(line.text(), of));
        return new Upkeep(
                Amendment.of(
                        content,
                        struck,
                        missing.stream()
                                .map(l -> new Amendment.Added(l, behind.get(l)))
                                .toList()),
                note,
                missing.stream().filter(l -> !first.contains(l)).toList());
    }

    /**
     * Lines of facts that this logbook held once, and that are in force again and stand in no logbook: those that held
     * them where that states no more, else one of each.
     *
     * @param held facts that stand in a logbook; what is found is added
     * @return by the line in whose place they come
     */
    private static Map<Event.LogbookLine, String> revived(
            Logbook known, List<Entry> entries, Standing standing, Set<Long> held) {
        List<Map.Entry<Event.LogbookLine, String>> revived = new ArrayList<>();
        List<Event.LogbookLine> once = new ArrayList<>();
        for (int i = entries.size() - 1; i >= 0; i--) {
            if (entries.get(i).event() instanceof Event.LogbookRead read
                    && read.file().equals(known.file())) {
                once.addAll(read.lines());
            }
        }
        for (Event.LogbookLine l : once) {
            if (!l.facts().isEmpty()
                    && standing.isWhole(l)
                    && l.facts().stream().noneMatch(held::contains)) {
                held.addAll(l.facts());
                revived.add(Map.entry(l, l.text()));
            }
        }
        for (Event.LogbookLine l : once) {
            for (Event.LogbookLine x : standing.left(l)) {
                if (held.addAll(x.facts())) {
                    revived.add(Map.entry(x, l.text()));
                }
            }
        }
        // The last ones were looked for first.
        Collections.reverse(revived);
        Map<Event.LogbookLine, String> inOrder = new LinkedHashMap<>();
        revived.forEach(e -> inOrder.put(e.getKey(), e.getValue()));
        return inOrder;
    }

    /** Which facts stand. */
    private static final class Standing {
        private final Set<Long> inForce = new HashSet<>();
        private final Map<Long, Event> facts = new HashMap<>();
        private final Wording wording;

        Standing(List<Entry> entries, Wording wording) {
            Ledger ledger = Ledger.of(entries);
            ledger.inForce().forEach(e -> inForce.add(e.number()));
            ledger.facts().forEach(e -> facts.put(e.number(), e.event()));
            this.wording = wording;
        }

        boolean isWhole(Event.LogbookLine line) {
            return inForce.containsAll(line.facts());
        }

        boolean isDead(Event.LogbookLine line) {
            return !line.facts().isEmpty() && line.facts().stream().noneMatch(inForce::contains);
        }

        boolean isBroken(Event.LogbookLine line) {
            return !isWhole(line) && !isDead(line);
        }

        /** A line of each fact of it that stands; none where one can be put into no words. */
        List<Event.LogbookLine> left(Event.LogbookLine line) {
            List<Event.LogbookLine> left = new ArrayList<>();
            try {
                Line undated = LogbookText.line(line.number(), line.text());
                for (long n : line.facts()) {
                    Event fact = facts.get(n);
                    Optional<Line> alone =
                            fact == null || undated == null ? Optional.empty() : wording.of(fact, undated);
                    if (alone.isPresent()) {
                        left.add(
                                new Event.LogbookLine(line.number(), alone.get().text(), List.of(n), List.of()));
                    } else if (inForce.contains(n)) {
                        return List.of();
                    }
                }
                return left;
            } catch (Refusal e) {
                // A version that wrote lines in another way remembered it.
                return List.of();
            }
        }
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
