package chainage.store.row;

import chainage.ledger.Event;
import chainage.ledger.Kind;
import chainage.ledger.Kinds;

/** Facts to and from the word of their kind and the JSON payload that they are kept as. */
public final class EventCodec {
    private EventCodec() {}

    /**
     * A fact as it is kept.
     *
     * @param kind word for its type
     * @param payload JSON object of its fields
     */
    public record Encoded(String kind, String payload) {}

    public static Encoded encode(Event event) {
        Kind<Event> kind = Kinds.of(event);
        return new Encoded(kind.word(), JsonRow.of(kind.kept(event)).toString());
    }

    /**
     * Reads back what was kept, whatever its values.
     *
     * @throws IllegalArgumentException when kind or payload are none of ours
     */
    public static Event decode(String kind, String payload) {
        return Kinds.named(kind).read(JsonRow.parse(payload).fields());
    }

    /** Whether facts of this kind are known to this program. */
    public static boolean knows(String kind) {
        return Kinds.isWord(kind);
    }

    /**
     * Reads what comes from elsewhere.
     *
     * @throws IllegalArgumentException when kind or payload are none of ours, or a value is out of bounds
     */
    public static Event checked(String kind, String payload) {
        Event event = decode(kind, payload);
        Kinds.of(event).check(event);
        return event;
    }
}
