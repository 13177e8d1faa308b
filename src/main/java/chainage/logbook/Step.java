package chainage.logbook;

import chainage.ledger.Event;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** What becomes of one line while a logbook is read. */
final class Step {
    /** A fact that a line states. */
    static final class Made {
        final Event event;
        final long provisional;
        long number;

        /** @param provisional number under which it stands while all lines are carried out anew */
        Made(Event event, long provisional) {
            this.event = event;
            this.provisional = provisional;
        }
    }

    final Line line;

    /** As it is remembered; null where it is new. */
    final Event.@Nullable LogbookLine known;

    /** In whose place it stands; null for none. */
    Event.@Nullable LogbookLine was;

    /** True where it stands in the file no more, and its facts are kept. */
    final boolean ghost;

    /** True where the rider took its facts back: it stays out. */
    boolean held;

    /** What it states, less what the rider took back. */
    final List<Made> made = new ArrayList<>();

    /** Facts of it that the rider took back while others stand. */
    List<Event> takenBack = List.of();

    /** Why it states nothing; null where it does. */
    @Nullable
    String reason;

    /** Why it is not even tried: what it states contradicts what comes later. */
    @Nullable
    String blamed;

    Step(Line line, Event.@Nullable LogbookLine known, boolean ghost) {
        this.line = line;
        this.known = known;
        this.ghost = ghost;
    }

    boolean states() {
        return !held && reason == null;
    }
}
