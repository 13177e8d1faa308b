package chainage.logbook;

import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Kinds;
import chainage.ledger.Ledger;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * What lines state, held against what they stated before: which facts stay as they are, which are stated now, which are
 * taken back. A fact stays where it can; where its place among the others matters, it is stated anew behind them.
 *
 * @param fresh to be stated, in order
 * @param left numbers of entries that no line states any more
 */
record Settling(List<Event> fresh, List<Long> left) {
    /**
     * Settles it, and gives each fact its number.
     *
     * @param old what the lines stated before, by number
     * @param next number of the first fact to be stated
     */
    static Settling of(List<Step> stated, Collection<Entry> old, long next) {
        List<Step.Made> made = stated.stream().flatMap(s -> s.made.stream()).toList();
        Settling plain = settled(made, old, next, false);
        return means(made) ? plain : settled(made, old, next, true);
    }

    private static Settling settled(List<Step.Made> made, Collection<Entry> old, long next, boolean inOrder) {
        Map<Event, Deque<Entry>> left = new LinkedHashMap<>();
        old.forEach(
                e -> left.computeIfAbsent(e.event(), k -> new ArrayDeque<>()).add(e));
        Map<Long, Long> numbers = new HashMap<>();
        List<Event> fresh = new ArrayList<>();
        Order order = new Order();
        for (Step.Made m : made) {
            Event event = translated(m.event, numbers);
            Deque<Entry> equal = left.get(event);
            if (equal != null
                    && !equal.isEmpty()
                    && (!inOrder || order.keeps(event, equal.peek().number()))) {
                m.number = equal.remove().number();
            } else {
                m.number = next + fresh.size();
                fresh.add(event);
                order.comes(event);
            }
            numbers.put(m.provisional, m.number);
        }
        return new Settling(
                List.copyOf(fresh),
                left.values().stream()
                        .flatMap(Deque::stream)
                        .map(Entry::number)
                        .sorted()
                        .toList());
    }

    /** What speaks of an entry speaks of its lasting number. */
    private static Event translated(Event event, Map<Long, Long> numbers) {
        if (event instanceof Event.Redated r) {
            return new Event.Redated(numbers.getOrDefault(r.target(), r.target()), r.to());
        }
        if (event instanceof Event.Undone u) {
            return new Event.Undone(numbers.getOrDefault(u.target(), u.target()));
        }
        return event;
    }

    /** Whether the facts mean by their lasting numbers what they mean in the order of the lines. */
    private static boolean means(List<Step.Made> made) {
        Map<Long, Long> numbers = new HashMap<>();
        List<Entry> inLines = new ArrayList<>();
        List<Entry> lasting = new ArrayList<>();
        for (Step.Made m : made) {
            inLines.add(new Entry(m.provisional, m.provisional, Instant.EPOCH, m.event));
            numbers.put(m.provisional, m.number);
            lasting.add(new Entry(m.number, m.number, Instant.EPOCH, translated(m.event, numbers)));
        }
        lasting.sort(Comparator.comparingLong(Entry::number));
        return Ledger.of(inLines).means(Ledger.of(lasting));
    }

    /**
     * Which facts can stay where their order counts: among those of one instant, or of none, the later one has the higher
     * number; what corrects others comes behind all that it is to correct.
     */
    private static final class Order {
        private final Map<Instant, Long> highest = new HashMap<>();
        private final Set<Instant> anew = new HashSet<>();
        private long last;
        private boolean any;
        private boolean all;

        boolean keeps(Event event, long number) {
            Instant at = Kinds.happened(event).orElse(Instant.MIN);
            boolean corrects = Kinds.of(event).corrects();
            boolean keeps = !all
                    && !anew.contains(at)
                    && number > highest.getOrDefault(at, 0L)
                    && (!corrects || (!any && number > last));
            if (keeps) {
                highest.put(at, number);
                last = Math.max(last, number);
            }
            return keeps;
        }

        void comes(Event event) {
            anew.add(Kinds.happened(event).orElse(Instant.MIN));
            any = true;
            all |= Kinds.of(event).corrects();
        }
    }
}
