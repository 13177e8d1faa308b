package chainage.ledger;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** What is stated where the rider takes back a word on rides. */
public final class Withdrawals {
    private Withdrawals() {}

    /** What was said of rides before what was said last, to be said again, in the order in which it was said. */
    public static List<Event> tagsBefore(Ledger ledger, List<String> ids) {
        Map<String, List<Event.Tagged>> said = new LinkedHashMap<>();
        for (Entry entry : ledger.facts()) {
            if (entry.event() instanceof Event.Tagged t) {
                t.rides().stream()
                        .filter(ids::contains)
                        .forEach(id ->
                                said.computeIfAbsent(id, k -> new ArrayList<>()).add(t));
            } else if (entry.event() instanceof Event.Untagged u) {
                u.rides().forEach(said::remove);
            }
        }
        List<Event> again = new ArrayList<>();
        said.forEach((id, tags) -> tags.stream()
                .limit(tags.size() - 1L)
                .forEach(t -> again.add(new Event.Tagged(List.of(id), t.moisture(), t.share(), t.grit()))));
        return again;
    }

    /** Which bike they were on, whether they are rides, and of which outing: nothing is said of that any more. */
    public static List<Event> assigned(Ledger ledger, List<String> ids) {
        List<Event> events = new ArrayList<>();
        if (ids.stream().anyMatch(id -> ledger.bikeOf(id).isPresent())) {
            events.add(new Event.RidesAssigned(ids, null));
        }
        if (ids.stream().anyMatch(id -> ledger.counts(id).isPresent())) {
            events.add(new Event.RidesCounted(ids, null));
        }
        ids.stream()
                .filter(id -> ledger.twinOf(id).isPresent())
                .forEach(id -> events.add(new Event.TwinStated(id, null)));
        return events;
    }
}
