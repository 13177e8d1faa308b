package chainage.typed;

import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Installation;
import chainage.ledger.Ledger;
import chainage.quantity.Interval;
import chainage.render.Formatter;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A stint that was forgotten, with what must be said of those that lie over the same time on its bike or with its chain:
 * each is cut to what lies outside.
 *
 * @param events in an order in which they can be stated together
 * @param said a line for each stint that is cut
 */
public record Stint(List<Event> events, List<String> said) {
    /**
     * Puts it in.
     *
     * @param facts all of them, without that stint
     * @param from its first instant
     * @param to the first instant after it
     */
    public static Stint of(Ledger facts, String chain, String bike, Instant from, Instant to, Formatter format) {
        List<Event> events = new ArrayList<>();
        List<Event> back = new ArrayList<>();
        List<String> said = new ArrayList<>();
        Interval stint = new Interval(from, to);
        for (Installation i : facts.installations()) {
            if (!(i.bike().equals(bike) || i.chain().equals(chain))
                    || !i.interval().overlaps(stint)) {
                continue;
            }
            Instant begun = i.interval().from();
            Instant ended = i.interval().to();
            String place = i.chain() + " on " + i.bike();
            if (begun.isBefore(from)) {
                if (ended != null && !ended.isAfter(to)) {
                    events.add(new Event.Redated(removal(facts, i.chain(), ended), from));
                    said.add(place + " ends " + format.time(from) + " (was " + format.time(ended) + ")");
                } else {
                    events.add(new Event.Removed(i.chain(), from));
                    back.add(new Event.Installed(i.chain(), i.bike(), to));
                    said.add(place + " is cut in two: off " + format.time(from) + ", on again " + format.time(to));
                }
            } else if (ended != null && !ended.isAfter(to)) {
                events.add(new Event.Undone(removal(facts, i.chain(), ended)));
                events.add(new Event.Undone(i.entry()));
                said.add(place + " from " + format.time(begun) + " to " + format.time(ended) + " is taken back");
            } else {
                events.add(new Event.Redated(i.entry(), to));
                said.add(place + " begins " + format.time(to) + " (was " + format.time(begun) + ")");
            }
        }
        events.add(new Event.Installed(chain, bike, from));
        events.add(new Event.Removed(chain, to));
        events.addAll(back);
        return new Stint(events, said);
    }

    /** The number of the entry by which a chain came off. */
    private static long removal(Ledger facts, String chain, @Nullable Instant at) {
        return facts.facts().stream()
                .filter(e -> e.event() instanceof Event.Removed r && r.chain().equals(chain) && r.at().equals(at))
                .mapToLong(Entry::number)
                .findFirst()
                .orElseThrow(() -> CliError.usage(
                        chain + " went to another bike without coming off its own", "mend that first: chainage check"));
    }
}
