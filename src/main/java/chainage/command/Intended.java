package chainage.command;

import chainage.ledger.Event;
import java.util.List;

/**
 * What a command is about to write.
 *
 * @param events the facts, at least one
 * @param said what they amount to, one line each
 */
public record Intended(List<Event> events, List<String> said) {
    public Intended {
        events = List.copyOf(events);
        said = List.copyOf(said);
    }

    public static Intended of(Event event, String... said) {
        return new Intended(List.of(event), List.of(said));
    }
}
