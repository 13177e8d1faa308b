package chainage.ledger;

import java.util.List;
import java.util.function.UnaryOperator;

/** The rides that facts speak of, by their ids. */
public final class Mentions {
    private Mentions() {}

    /** The same entry with other ids for its rides; itself where no id is another. */
    public static Entry with(Entry entry, UnaryOperator<String> id) {
        Event event = with(entry.event(), id);
        return event.equals(entry.event())
                ? entry
                : new Entry(entry.number(), entry.command(), entry.recorded(), event);
    }

    private static Event with(Event event, UnaryOperator<String> id) {
        if (event instanceof Event.Tagged e) {
            return new Event.Tagged(all(e.rides(), id), e.moisture(), e.share(), e.grit());
        } else if (event instanceof Event.Untagged e) {
            return new Event.Untagged(all(e.rides(), id));
        } else if (event instanceof Event.RidesAssigned e) {
            return new Event.RidesAssigned(all(e.rides(), id), e.bike());
        } else if (event instanceof Event.RidesCounted e) {
            return new Event.RidesCounted(all(e.rides(), id), e.counts());
        } else if (event instanceof Event.TwinStated e) {
            String of = e.of();
            return new Event.TwinStated(id.apply(e.ride()), of == null ? null : id.apply(of));
        }
        return event;
    }

    private static List<String> all(List<String> rides, UnaryOperator<String> id) {
        return rides.stream().map(id).toList();
    }
}
