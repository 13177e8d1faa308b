package chainage.logbook;

import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Growing;
import chainage.ledger.Kinds;
import chainage.ledger.Misfit;
import chainage.ledger.Problem;
import chainage.quantity.LocalClock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.LongFunction;
import java.util.stream.Collectors;

/**
 * Carries all lines out anew, in the order of their dates and then of the file, upon the facts that are stated elsewhere.
 * A new name or a merging that was stated elsewhere parts the lines: those read before it come before it.
 */
final class CarryingOut {
    private final List<Entry> base;
    private final LocalClock clock;
    private final Statement statement;
    private final Growing growing = new Growing();
    private final List<Step> stated = new ArrayList<>();
    private final Map<Long, Step> byNumber = new HashMap<>();
    private final long first;
    private long next;

    /**
     * To be run once.
     *
     * @param base facts in force that are stated elsewhere, by number
     * @param last number of the last entry of all
     */
    CarryingOut(List<Entry> base, long last, LocalClock clock, Statement statement) {
        this.base = base;
        this.first = last + 1;
        this.next = first;
        this.clock = clock;
        this.statement = statement;
    }

    /** Carries them out; gives those that state something, in the order in which they do. */
    List<Step> run(List<Step> steps) {
        List<Step> waiting = new ArrayList<>(steps);
        waiting.removeIf(s -> s.held);
        waiting.sort(Comparator.comparing((Step s) -> s.line.at(clock)));
        for (Entry e : base) {
            if (e.event() instanceof Event.Renamed || e.event() instanceof Event.ChainsMerged) {
                List<Step> before = waiting.stream()
                        .filter(s -> s.known != null
                                && !s.known.facts().isEmpty()
                                && s.known.facts().get(0) < e.number())
                        .toList();
                waiting.removeAll(before);
                run(before, false);
            }
            growing.add(e);
        }
        run(waiting, true);
        return stated;
    }

    private void run(List<Step> steps, boolean again) {
        List<Step> refused = steps;
        do {
            List<Step> trying = refused;
            refused = new ArrayList<>();
            for (Step s : trying) {
                if (!tried(s)) {
                    refused.add(s);
                }
            }
            // What was refused may need what a line of a later date states.
            again &= refused.size() < trying.size();
        } while (again && !refused.isEmpty());
    }

    private boolean tried(Step step) {
        step.made.clear();
        step.reason = step.blamed;
        if (step.blamed != null) {
            return false;
        }
        try {
            List<Event> events = new ArrayList<>(statement.of(step.line, growing.ledger()));
            for (Event e : events) {
                Kinds.of(e).check(e);
            }
            step.takenBack.forEach(events::remove);
            state(step, events);
            stated.add(step);
            return true;
        } catch (Refusal e) {
            step.reason = e.reason();
        } catch (Misfit e) {
            step.reason = statement.words(e) + "; look at the figures, dates and names";
        }
        return false;
    }

    private void state(Step step, List<Event> events) throws Refusal {
        long command = next;
        List<Entry> entries = new ArrayList<>();
        Instant at = step.line.at(clock);
        for (Event e : events) {
            step.made.add(new Step.Made(e, next));
            entries.add(new Entry(next++, command, at, e));
        }
        List<Problem> problems = growing.state(entries);
        if (problems.isEmpty()) {
            entries.forEach(e -> byNumber.put(e.number(), step));
        } else {
            step.made.clear();
            throw new Refusal(against(statement, problems.get(0), this::side));
        }
    }

    private Side side(long number) {
        Step by = byNumber.get(number);
        return by != null ? Side.of(by.line) : number < first ? Side.entry(number) : Side.IN_QUESTION;
    }

    /**
     * A side of a contradiction. What lines state has no number yet that would be its own.
     *
     * @param name what it is called
     * @param place where to look for it; empty for what is in question itself
     */
    record Side(String name, String place) {
        static final Side IN_QUESTION = new Side("this line", "");

        static Side of(Line line) {
            return new Side("line " + line.number(), "line " + line.number());
        }

        static Side entry(long number) {
            return new Side("entry " + number, "entry " + number + " (chainage log shows it)");
        }
    }

    /**
     * A contradiction, with the other side of it.
     *
     * @param sides what an entry is by its number
     */
    static String against(Statement statement, Problem problem, LongFunction<Side> sides) {
        String there = problem.entries().stream()
                .map(n -> sides.apply(n).place())
                .filter(place -> !place.isEmpty())
                .distinct()
                .collect(Collectors.joining(", "));
        return statement.words(problem, n -> sides.apply(n).name())
                + (there.isEmpty() ? "; look at the dates and names of the lines about it" : "; in the way: " + there);
    }
}
