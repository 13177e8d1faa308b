package chainage.ledger;

import chainage.quantity.Interval;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/** Turns dated installs and removals into intervals, and finds those that cannot both be true. */
final class Installations {
    private final List<Installation> intervals = new ArrayList<>();
    private final List<Problem> problems = new ArrayList<>();

    private record Step(Instant at, Entry entry, Event.@Nullable Installed on) {
        String chain() {
            if (on != null) {
                return on.chain();
            }
            return ((Event.Removed) entry.event()).chain();
        }
    }

    /** Entries in force, in any order; those of other kinds are passed over. */
    Installations(List<Entry> entries) {
        Map<String, List<Step>> byChain = new TreeMap<>();
        for (Entry e : entries) {
            Step step = null;
            if (e.event() instanceof Event.Installed on) {
                step = new Step(on.at(), e, on);
            } else if (e.event() instanceof Event.Removed off) {
                step = new Step(off.at(), e, null);
            }
            if (step != null) {
                byChain.computeIfAbsent(step.chain(), c -> new ArrayList<>()).add(step);
            }
        }
        byChain.values().forEach(this::walk);
        intervals.sort(
                Comparator.comparing((Installation i) -> i.interval().from()).thenComparing(Installation::chain));
        findOverlaps();
    }

    List<Installation> intervals() {
        return List.copyOf(intervals);
    }

    List<Problem> problems() {
        return List.copyOf(problems);
    }

    private void walk(List<Step> steps) {
        // At one instant a removal comes first: off one bike and on another.
        steps.sort(Comparator.comparing(Step::at)
                .thenComparing(s -> s.on() != null)
                .thenComparing(s -> s.entry().number()));
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
                problems.add(new Problem.OnNoBike(s.chain(), s.at(), s.entry().number()));
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

    private void findOverlaps() {
        Map<String, List<Installation>> byBike = new TreeMap<>();
        for (Installation i : intervals) {
            byBike.computeIfAbsent(i.bike(), b -> new ArrayList<>()).add(i);
        }
        for (List<Installation> onBike : byBike.values()) {
            for (int i = 0; i < onBike.size(); i++) {
                for (int j = i + 1; j < onBike.size(); j++) {
                    Installation a = onBike.get(i);
                    Installation b = onBike.get(j);
                    Instant end = a.interval().to();
                    if (end != null && !b.interval().from().isBefore(end)) {
                        break; // and so do all that begin later
                    }
                    if (a.interval().overlaps(b.interval())) {
                        problems.add(new Problem.TwoChains(a, b));
                    }
                }
            }
        }
    }
}
