package chainage.answer.things;

import chainage.answer.EventWords;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.render.Formatter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** What is said of facts that are taken back, and of those that are in force again for it. */
public final class TakenBackWords {
    /** So many facts of a reading are named. */
    private static final int SHOWN = 20;

    private final Map<Long, Entry> entries = new LinkedHashMap<>();
    private final Formatter format;

    /** Of these entries. */
    public TakenBackWords(List<Entry> entries, Formatter format) {
        entries.forEach(e -> this.entries.put(e.number(), e));
        this.format = format;
    }

    /** An entry that is taken back; of a taking-back, what is in force again. */
    public List<String> undone(Entry e) {
        if (!(e.event() instanceof Event.Undone u)) {
            return List.of("taken back: " + words(e));
        }
        @Nullable Entry again = entries.get(u.target());
        return again == null ? List.of() : List.of("in force again: " + words(again));
    }

    /** What becomes of a fact whose taking-back is taken back. */
    public String broughtBack(long target) {
        @Nullable Entry back = entries.get(target);
        boolean away = back != null && back.event() instanceof Event.Undone;
        long number = back != null && back.event() instanceof Event.Undone u ? u.target() : target;
        @Nullable Entry fact = entries.get(number);
        return (away ? "taken back again: " : "in force again: ")
                + (fact == null ? Long.toString(number) : words(fact));
    }

    private String words(Entry e) {
        return e.number() + ", " + EventWords.of(e.event(), format);
    }

    /**
     * What a reading of a logbook stated, and took back for it, is one thing that may be long. Where the file is not
     * written along it goes on saying it, and is not heard.
     *
     * @param said of each of its facts
     * @param along the logbook that is written along; null for none
     */
    public List<String> ofReading(long command, List<String> said, @Nullable String along) {
        List<String> all = new ArrayList<>(said);
        entries.values().stream()
                .filter(e -> e.command() == command)
                .map(Entry::event)
                .filter(Event.LogbookRead.class::isInstance)
                .map(e -> ((Event.LogbookRead) e).file())
                .filter(file -> !file.equals(along))
                .findFirst()
                .ifPresent(file -> {
                    if (all.size() > SHOWN) {
                        all.subList(SHOWN, all.size()).clear();
                        all.add("and " + (said.size() - SHOWN) + " more of the same reading");
                    }
                    all.add("what " + EventWords.name(file)
                            + " says there stays out until its lines change; to bring it back: chainage redo");
                });
        return all;
    }
}
