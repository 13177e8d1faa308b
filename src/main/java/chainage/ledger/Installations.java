package chainage.ledger;

import chainage.quantity.Interval;
import chainage.quantity.Ordered;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * Turns dated installs and removals into intervals, and finds those that cannot both be true. One more is taken in by
 * walking its chain alone.
 */
final class Installations {
    /** At one instant a removal comes first: off one bike and on another. */
    private static final Comparator<Step> IN_ORDER = Comparator.comparing(Step::at)
            .thenComparing(s -> s.on() != null)
            .thenComparing(s -> s.entry().number());

    private static final Comparator<Installation> BY_START = Comparator.comparing(
                    (Installation i) -> i.interval().from())
            .thenComparing(Installation::chain)
            .thenComparing(Installation::entry);

    private final Map<String, Walk> chains = new TreeMap<>();
    private final List<Installation> intervals = new ArrayList<>();
    private final Map<String, List<Installation>> byBike = new TreeMap<>();
    /** Of those bikes alone that have any. */
    private final Map<String, List<Problem>> overlaps = new TreeMap<>();

    private record Step(Instant at, Entry entry, Event.@Nullable Installed on) {
        String chain() {
            if (on != null) {
                return on.chain();
            }
            return ((Event.Removed) entry.event()).chain();
        }

        /** Null for what is neither. */
        static @Nullable Step of(Entry e) {
            if (e.event() instanceof Event.Installed on) {
                return new Step(on.at(), e, on);
            }
            return e.event() instanceof Event.Removed off ? new Step(off.at(), e, null) : null;
        }
    }

    /** Entries in force, in any order; those of other kinds are passed over. */
    Installations(List<Entry> entries) {
        for (Entry e : entries) {
            Step step = Step.of(e);
            if (step != null) {
                walk(step.chain()).steps.add(step);
            }
        }
        for (Walk chain : chains.values()) {
            chain.go();
            intervals.addAll(chain.intervals);
        }
        intervals.sort(BY_START);
        intervals.forEach(i -> on(i.bike()).add(i));
        byBike.keySet().forEach(this::findOverlaps);
    }

    /** Takes in one more; entries of other kinds are passed over. */
    void take(Entry e) {
        Step step = Step.of(e);
        if (step == null) {
            return;
        }
        Walk chain = walk(step.chain());
        List<Installation> was = chain.intervals;
        chain.steps.add(step);
        chain.go();
        int same = 0;
        while (same < Math.min(was.size(), chain.intervals.size())
                && was.get(same).equals(chain.intervals.get(same))) {
            same++;
        }
        Set<String> bikes = new TreeSet<>();
        for (Installation i : was.subList(same, was.size())) {
            intervals.remove(Collections.binarySearch(intervals, i, BY_START));
            on(i.bike()).remove(Collections.binarySearch(on(i.bike()), i, BY_START));
            bikes.add(i.bike());
        }
        for (Installation i : chain.intervals.subList(same, chain.intervals.size())) {
            intervals.add(-Collections.binarySearch(intervals, i, BY_START) - 1, i);
            on(i.bike()).add(-Collections.binarySearch(on(i.bike()), i, BY_START) - 1, i);
            bikes.add(i.bike());
        }
        bikes.forEach(this::findOverlaps);
    }

    private Walk walk(String chain) {
        return chains.computeIfAbsent(chain, c -> new Walk());
    }

    private List<Installation> on(String bike) {
        return byBike.computeIfAbsent(bike, b -> new ArrayList<>());
    }

    /** All of them, by start. */
    List<Installation> intervals() {
        return Collections.unmodifiableList(intervals);
    }

    List<Problem> problems() {
        List<Problem> problems = new ArrayList<>();
        chains.values().forEach(c -> problems.addAll(c.problems));
        overlaps.values().forEach(problems::addAll);
        return problems;
    }

    /** The chain on this bike at that instant; the later of two that overlap. */
    Optional<Installation> onBike(String bike, Instant at) {
        List<Installation> there = byBike.getOrDefault(bike, List.of());
        for (int i = begun(there, at) - 1; i >= 0; i--) {
            Interval interval = there.get(i).interval();
            if (interval.contains(at)) {
                return Optional.of(there.get(i));
            }
            if (!interval.isEmpty() && !overlaps.containsKey(bike)) {
                break; // What began before has ended before this began.
            }
        }
        return Optional.empty();
    }

    /** How many have begun by then. */
    private static int begun(List<Installation> byStart, Instant at) {
        return Ordered.before(
                byStart.size(), i -> !byStart.get(i).interval().from().isAfter(at));
    }

    /** Where this chain is at that instant. */
    Optional<Installation> ofChain(String chain, Instant at) {
        Walk walk = chains.get(chain);
        return (walk == null ? List.<Installation>of() : walk.intervals)
                .stream().filter(i -> i.interval().contains(at)).reduce((a, b) -> b);
    }

    /** One chain's way from bike to bike. */
    private static final class Walk {
        final List<Step> steps = new ArrayList<>();
        List<Installation> intervals = List.of();
        List<Problem> problems = List.of();

        void go() {
            steps.sort(IN_ORDER);
            intervals = new ArrayList<>();
            problems = new ArrayList<>();
            Step open = null;
            for (Step s : steps) {
                Event.Installed on = open == null ? null : open.on();
                if (on != null && open != null) {
                    intervals.add(new Installation(
                            on.chain(),
                            on.bike(),
                            new Interval(on.at(), s.at()),
                            open.entry().number()));
                    if (s.on() != null) {
                        problems.add(new Problem.OnTwoBikes(
                                on, open.entry().number(), s.on(), s.entry().number()));
                    }
                } else if (s.on() == null) {
                    problems.add(
                            new Problem.OnNoBike(s.chain(), s.at(), s.entry().number()));
                }
                open = s.on() == null ? null : s;
            }
            if (open != null && open.on() != null) {
                intervals.add(new Installation(
                        open.on().chain(),
                        open.on().bike(),
                        new Interval(open.on().at(), null),
                        open.entry().number()));
            }
        }
    }

    private void findOverlaps(String bike) {
        List<Installation> there = on(bike);
        List<Problem> found = new ArrayList<>();
        for (int i = 0; i < there.size(); i++) {
            for (int j = i + 1; j < there.size(); j++) {
                Installation a = there.get(i);
                Installation b = there.get(j);
                Instant end = a.interval().to();
                if (end != null && !b.interval().from().isBefore(end)) {
                    break; // and so do all that begin later
                }
                if (a.interval().overlaps(b.interval())) {
                    found.add(new Problem.TwoChains(a, b));
                }
            }
        }
        if (found.isEmpty()) {
            overlaps.remove(bike);
        } else {
            overlaps.put(bike, found);
        }
    }
}
