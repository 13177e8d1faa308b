package chainage.ledger;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What is remembered of a logbook: a text file whose lines state facts.
 *
 * @param file where it was when it was read last, absolute
 * @param digest of the lines in their order; empty before the first reading
 * @param lines those that state facts, or did until the rider took them back, in the order in which they were first read
 * @param refused those that state nothing, by their numbers
 * @param awaited texts of lines that the program writes, and that were not seen in the file yet
 */
public record Logbook(
        String file,
        String digest,
        List<Event.LogbookLine> lines,
        List<Event.RefusedLine> refused,
        List<String> awaited) {
    /** In place of a digest: it was not where it was, or no longer said what it is, and that was told. */
    private static final String MISSED = "missed";

    /** What is to be remembered of it once it was told that it is missing. */
    public Event.LogbookRead missed() {
        return new Event.LogbookRead(file, null, MISSED, List.of(), List.of(), refused, awaited);
    }

    /** Whether it was missing when it was last looked for, and states something. */
    public boolean isMissed() {
        return digest.equals(MISSED) && !lines.isEmpty();
    }

    /** One of which nothing is remembered yet. */
    public static Logbook fresh(String file) {
        return new Logbook(file, "", List.of(), List.of(), List.of());
    }

    public Logbook {
        lines = List.copyOf(lines);
        refused = List.copyOf(refused);
        awaited = List.copyOf(awaited);
    }

    /**
     * All that were read, by what their readings say.
     *
     * @param entries in order of their numbers
     * @return by the places where they are
     */
    public static Map<String, Logbook> of(List<Entry> entries) {
        Map<String, Folded> folded = new LinkedHashMap<>();
        for (Entry e : entries) {
            if (e.event() instanceof Event.LogbookRead read) {
                String was = read.was();
                Folded known = folded.remove(was == null ? read.file() : was);
                Folded now = known == null ? new Folded() : known;
                now.take(read);
                folded.put(read.file(), now);
            }
        }
        Map<String, Logbook> all = new LinkedHashMap<>();
        folded.forEach((file, f) -> all.put(
                file,
                new Logbook(
                        file,
                        f.digest,
                        f.lines.values().stream().flatMap(Deque::stream).toList(),
                        f.refused,
                        f.awaited)));
        return all;
    }

    private static final class Folded {
        private final Map<String, Deque<Event.LogbookLine>> lines = new LinkedHashMap<>();
        private List<Event.RefusedLine> refused = List.of();
        private List<String> awaited = List.of();
        private String digest = "";

        void take(Event.LogbookRead read) {
            for (String text : read.gone()) {
                lines.computeIfPresent(text, (t, equal) -> {
                    equal.removeLast();
                    return equal.isEmpty() ? null : equal;
                });
            }
            read.lines()
                    .forEach(l -> lines.computeIfAbsent(l.text(), t -> new ArrayDeque<>())
                            .addLast(l));
            refused = read.refused();
            awaited = read.awaited();
            digest = read.digest();
        }
    }

    /**
     * The place of the logbook that is written along, wherever it was found since; null for none.
     *
     * @param inForce entries in order of their numbers
     */
    public static @Nullable String appended(List<Entry> inForce) {
        String file = null;
        for (Entry e : inForce) {
            if (e.event() instanceof Event.AppendSet set) {
                file = set.file();
            } else if (e.event() instanceof Event.LogbookRead read && file != null && file.equals(read.was())) {
                file = read.file();
            }
        }
        return file;
    }

    /**
     * Numbers of the facts that lines of the logbook state which is written along.
     *
     * @param entries in order of their numbers
     */
    public static Set<Long> along(List<Entry> entries) {
        String file = appended(Ledger.inForce(entries));
        Set<Long> facts = new HashSet<>();
        if (file != null) {
            of(entries).getOrDefault(file, fresh(file)).lines().forEach(l -> facts.addAll(l.facts()));
        }
        return facts;
    }

    /** The commands that were readings, by their numbers. */
    public static Set<Long> readings(List<Entry> entries) {
        Set<Long> commands = new HashSet<>();
        for (Entry e : entries) {
            if (e.event() instanceof Event.LogbookRead) {
                commands.add(e.command());
            }
        }
        return commands;
    }
}
