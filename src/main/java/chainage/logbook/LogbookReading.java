package chainage.logbook;

import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Logbook;
import chainage.ledger.Problem;
import chainage.quantity.LocalClock;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * What a logbook as it stands now changes: its lines held against those that are remembered of it.
 *
 * <p>All lines are carried out anew upon what is stated elsewhere, and what follows is held against what they stated
 * before. So the outcome is that of the file alone, whatever was read of it before, and lines that merely moved change
 * nothing.
 *
 * @param events to be stated together; empty where nothing changes, not even what is to be remembered
 * @param fresh lines that state facts for the first time
 * @param changed lines in another's place
 * @param gone lines whose facts are taken back, as they were
 * @param refused lines that state nothing, by their numbers
 * @param told those of them that the reading before did not refuse for the same reason
 * @param kept how many lines are gone, or are refused now, whose facts are kept all the same since they are so many
 */
public record LogbookReading(
        List<Event> events,
        List<Line> fresh,
        List<Changed> changed,
        List<Event.LogbookLine> gone,
        List<Event.RefusedLine> refused,
        List<Event.RefusedLine> told,
        int kept) {
    /** Of one that is unchanged. */
    public static final LogbookReading NOTHING =
            new LogbookReading(List.of(), List.of(), List.of(), List.of(), List.of(), List.of(), 0);

    /** More than one in so many lines of a logbook do not go at once unasked. */
    private static final int SHARE = 3;

    /** Fewer lines gone are no accident, unless they are all. Our choice. */
    private static final int MANY = 3;

    /** A line that stands where another stood. */
    public record Changed(Event.LogbookLine was, Line now) {}

    public LogbookReading {
        events = List.copyOf(events);
        fresh = List.copyOf(fresh);
        changed = List.copyOf(changed);
        gone = List.copyOf(gone);
        refused = List.copyOf(refused);
        told = List.copyOf(told);
    }

    /**
     * What a reading goes by.
     *
     * @param known what is remembered of the logbook, under the place where it was
     * @param file the place where it is
     * @param text what it holds
     * @param elsewhere lines that other logbooks state; here they state nothing more
     * @param entries all of them, by number
     * @param takeBack whether facts are taken back however many lines are gone
     */
    public record From(
            Logbook known,
            String file,
            LogbookText text,
            Set<String> elsewhere,
            List<Entry> entries,
            boolean takeBack) {
        public From {
            elsewhere = Set.copyOf(elsewhere);
            entries = List.copyOf(entries);
        }

        /** Nothing came, moved or went, and no line waits for what would make it understood. */
        public boolean isUnchanged() {
            return known.file().equals(file)
                    && known.refused().isEmpty()
                    && text.refused().isEmpty()
                    && known.awaited().isEmpty()
                    && known.lines().size() == text.lines().size()
                    && known.digest().equals(text.digest());
        }

        private boolean isTooMany(int gone) {
            // Of a short one a line or two are soon a third, and were deleted by somebody; all of it was perhaps lost.
            boolean many = gone >= MANY || gone == known.lines().size();
            return !takeBack && many && SHARE * gone > known.lines().size();
        }
    }

    /**
     * Reads a logbook.
     *
     * @throws Refusal when something stated elsewhere contradicts what it states no more
     */
    public static LogbookReading of(From from, LocalClock clock, Statement statement) throws Refusal {
        if (from.isUnchanged()) {
            return NOTHING;
        }
        Sorted sorted = Sorted.of(from);
        List<Event.LogbookLine> awaited = sorted.awaited(from.known());
        if (!from.isTooMany(sorted.gone.size())) {
            Work work = new Work(from, sorted, awaited, clock, statement);
            work.run();
            if (!from.isTooMany(sorted.gone.size() + work.lost().size())) {
                return work.reading(0);
            }
        }
        // All that stood before stands, those lines too that are not understood now.
        List<Event.LogbookLine> gone = List.copyOf(sorted.gone);
        awaited.addAll(gone);
        sorted.gone.clear();
        Work all = new Work(from, sorted, awaited, clock, statement);
        all.keepsLost = true;
        all.run();
        return all.reading(gone.size() + all.lost().size());
    }

    /** Lines that stay, come, change and go. */
    private static final class Sorted {
        final Map<Line, Event.LogbookLine> stay = new LinkedHashMap<>();
        final Map<Line, Event.LogbookLine> change = new LinkedHashMap<>();
        final List<Line> come = new ArrayList<>();
        final List<Event.LogbookLine> gone = new ArrayList<>();

        static Sorted of(From from) {
            Map<String, Deque<Event.LogbookLine>> known = new LinkedHashMap<>();
            from.known()
                    .lines()
                    .forEach(l -> known.computeIfAbsent(l.text(), t -> new ArrayDeque<>())
                            .add(l));
            Sorted sorted = new Sorted();
            List<Line> others = new ArrayList<>();
            for (Line line : from.text().lines()) {
                Deque<Event.LogbookLine> equal = known.get(line.text());
                if (equal != null && !equal.isEmpty()) {
                    sorted.stay.put(line, equal.remove());
                } else if (!from.elsewhere().contains(line.text())) {
                    others.add(line);
                }
            }
            known.values().forEach(sorted.gone::addAll);
            sorted.pair(others);
            return sorted;
        }

        /** Lines that are gone, or never came; an editor may have saved over them without knowing. */
        List<Event.LogbookLine> awaited(Logbook known) {
            List<String> unseen = new ArrayList<>(known.awaited());
            List<Event.LogbookLine> awaited = new ArrayList<>();
            gone.removeIf(l -> unseen.remove(l.text()) && awaited.add(l));
            return awaited;
        }

        /** A line that goes and one that comes are one that changed where the words, or the date and the command, are the same. */
        private void pair(List<Line> others) {
            Map<String, Deque<Event.LogbookLine>> alike = new HashMap<>();
            for (Event.LogbookLine l : gone) {
                likenesses(read(l))
                        .forEach(k -> alike.computeIfAbsent(k, t -> new ArrayDeque<>())
                                .add(l));
            }
            Set<Event.LogbookLine> used = new HashSet<>();
            for (Line line : others) {
                likenesses(line).stream()
                        .flatMap(k -> alike.getOrDefault(k, new ArrayDeque<>()).stream())
                        .filter(l -> !used.contains(l))
                        .findFirst()
                        .ifPresentOrElse(
                                was -> {
                                    used.add(was);
                                    change.put(line, was);
                                },
                                () -> come.add(line));
            }
            gone.removeIf(used::contains);
        }

        private static List<String> likenesses(@Nullable Line line) {
            return line == null
                    ? List.of()
                    : List.of(line.command(), line.day() + " " + line.words().get(0));
        }
    }

    /** A remembered line, read again; null where a version that wrote lines in another way remembered it. */
    private static @Nullable Line read(Event.LogbookLine line) {
        try {
            return LogbookText.line(line.number(), line.text());
        } catch (Refusal e) {
            return null;
        }
    }

    /** One try. */
    private static final class Work {
        private final From from;
        private final LocalClock clock;
        private final Statement statement;
        private final List<Step> steps = new ArrayList<>();
        private final List<Event.LogbookLine> leaving = new ArrayList<>();
        private final List<Event.LogbookLine> taken;
        private final List<String> awaited;
        private final Map<Long, Entry> byNumber = new HashMap<>();
        private final Map<Long, Entry> inForce = new TreeMap<>();
        private final long next;
        private boolean keepsLost;
        private List<Step> stated = List.of();
        private Settling settling = new Settling(List.of(), List.of());

        /** @param ghosts lines that do not stand in the file, and whose facts are kept */
        Work(From from, Sorted sorted, List<Event.LogbookLine> ghosts, LocalClock clock, Statement statement) {
            this.from = from;
            this.clock = clock;
            this.statement = statement;
            List<Entry> entries = from.entries();
            next = entries.isEmpty() ? 1 : entries.get(entries.size() - 1).number() + 1;
            entries.forEach(e -> byNumber.put(e.number(), e));
            sorted.stay.forEach((line, known) -> steps.add(new Step(line, known, false)));
            sorted.come.forEach(line -> steps.add(new Step(line, null, false)));
            sorted.change.forEach((line, was) -> {
                Step step = new Step(line, null, false);
                step.was = was;
                steps.add(step);
                leaving.add(was);
            });
            // In the order of the file, whatever they are to it.
            steps.sort(Comparator.comparingInt(s -> s.line.number()));
            taken = List.copyOf(sorted.gone);
            leaving.addAll(taken);
            awaited = new ArrayList<>(from.known().awaited());
            awaited.retainAll(ghosts.stream().map(Event.LogbookLine::text).toList());
            for (Event.LogbookLine l : ghosts) {
                Line line = read(l);
                if (line != null) {
                    steps.add(new Step(line, l, true));
                }
            }
            standing().forEach(e -> inForce.put(e.number(), e));
            steps.forEach(this::hold);
        }

        /** What is in force but for what lines take back themselves, which others of them state. */
        private List<Entry> standing() {
            Set<Long> own = new HashSet<>();
            from.known().lines().forEach(l -> own.addAll(l.facts()));
            return Ledger.inForce(from.entries().stream()
                    .filter(e -> !(e.event() instanceof Event.Undone && own.contains(e.number())))
                    .toList());
        }

        /** A line whose facts the rider took back stays out; one of which some were stays without them. */
        private void hold(Step step) {
            Event.LogbookLine known = step.known;
            if (known != null) {
                List<Event> takenBack = known.facts().stream()
                        .filter(n -> !stands(n))
                        .map(byNumber::get)
                        .filter(Objects::nonNull)
                        .map(Entry::event)
                        .toList();
                step.takenBack = takenBack;
                step.held = !known.facts().isEmpty() && known.facts().stream().noneMatch(this::stands);
            }
        }

        private boolean stands(long number) {
            Entry e = byNumber.get(number);
            return inForce.containsKey(number) || (e != null && isOwnUndoing(e));
        }

        private boolean isOwnUndoing(Entry e) {
            return e.event() instanceof Event.Undone
                    && from.entries().stream()
                            .noneMatch(x -> x.event() instanceof Event.Undone u && u.target() == e.number());
        }

        void run() throws Refusal {
            Map<Long, Entry> old = new TreeMap<>();
            steps.stream().filter(s -> s.known != null && !s.held).forEach(s -> put(old, s.known));
            for (Event.LogbookLine l : leaving) {
                put(old, l);
                l.instead().stream().filter(inForce::containsKey).forEach(n -> put(old, n));
            }
            List<Entry> base = inForce.values().stream()
                    .filter(e -> !old.containsKey(e.number())
                            && !(e.event() instanceof Event.Undone)
                            && !(e.event() instanceof Event.LogbookRead))
                    .toList();
            while (true) {
                stated = new CarryingOut(base, next - 1, clock, statement).run(steps);
                lost().stream().filter(s -> keepsLost || s.ghost).forEach(this::keep);
                settling = Settling.of(stated, old.values(), next);
                if (!isBlamed()) {
                    return;
                }
            }
        }

        private void put(Map<Long, Entry> old, Event.@Nullable LogbookLine line) {
            if (line != null) {
                line.facts().stream().filter(this::stands).forEach(n -> put(old, n));
            }
        }

        private void put(Map<Long, Entry> old, long number) {
            Entry e = byNumber.get(number);
            if (e != null) {
                old.put(number, e);
            }
        }

        /** Lines that stated something, and are refused now. */
        List<Step> lost() {
            return steps.stream()
                    .filter(s -> s.known != null && !s.held && s.reason != null)
                    .toList();
        }

        /** What it stated before stands, though it is not understood now. */
        private void keep(Step step) {
            if (step.known != null) {
                for (long n : step.known.facts()) {
                    Entry e = byNumber.get(n);
                    if (e != null && stands(n)) {
                        step.made.add(new Step.Made(e.event(), n));
                    }
                }
                stated.add(step);
            }
        }

        /** Whether all together contradicts itself by one of the lines, which then is to be left out. */
        private boolean isBlamed() throws Refusal {
            Map<Long, Step> by = new HashMap<>();
            stated.forEach(s -> s.made.forEach(m -> by.put(m.number, s)));
            for (Problem p : Problem.fresh(
                    Ledger.of(from.entries()).problems(), Ledger.of(after()).problems())) {
                Step blamed = p.entries().stream()
                        .sorted(Comparator.reverseOrder())
                        .map(by::get)
                        .filter(s -> s != null && s.blamed == null && s.reason == null)
                        .findFirst()
                        .orElse(null);
                if (blamed == null) {
                    throw new Refusal(CarryingOut.against(statement, p, CarryingOut.Side::entry)
                            + "; nothing was read: write again what is gone from the logbook, or take that back first");
                }
                Step itself = blamed;
                blamed.blamed = CarryingOut.against(statement, p, n -> {
                    Step other = by.get(n);
                    return other == itself
                            ? CarryingOut.Side.IN_QUESTION
                            : other != null ? CarryingOut.Side.of(other.line) : CarryingOut.Side.entry(n);
                });
                return true;
            }
            return false;
        }

        private List<Entry> after() {
            List<Entry> after = new ArrayList<>(from.entries());
            long n = next;
            for (Event e : facts()) {
                after.add(new Entry(n++, next, Instant.EPOCH, e));
            }
            return after;
        }

        private List<Event> facts() {
            List<Event> facts = new ArrayList<>(settling.fresh());
            settling.left().forEach(n -> facts.add(new Event.Undone(n)));
            return facts;
        }

        LogbookReading reading(int kept) {
            List<String> gone = new ArrayList<>();
            List<Event.LogbookLine> lines = new ArrayList<>();
            leaving.forEach(l -> gone.add(l.text()));
            List<Line> fresh = new ArrayList<>();
            List<Changed> changed = new ArrayList<>();
            List<Event.RefusedLine> refused = new ArrayList<>(from.text().refused());
            for (Step s : steps) {
                Event.LogbookLine known = s.known;
                if (s.reason != null && !s.ghost) {
                    refused.add(new Event.RefusedLine(s.line.number(), s.line.text(), s.reason));
                }
                if (s.reason != null && !keepsLost && !s.ghost && known != null) {
                    gone.add(known.text());
                } else if (s.states()) {
                    List<Long> facts = s.made.stream().map(m -> m.number).toList();
                    if (known == null) {
                        lines.add(new Event.LogbookLine(s.line.number(), s.line.text(), facts, instead(s)));
                        Event.LogbookLine was = s.was;
                        if (was == null) {
                            fresh.add(s.line);
                        } else {
                            changed.add(new Changed(was, s.line));
                        }
                    } else if (!facts.equals(
                            known.facts().stream().filter(this::stands).toList())) {
                        List<Long> all = new ArrayList<>(facts);
                        known.facts().stream().filter(n -> !stands(n)).forEach(all::add);
                        gone.add(known.text());
                        lines.add(new Event.LogbookLine(s.line.number(), s.line.text(), all, known.instead()));
                    }
                }
            }
            refused.sort(Comparator.comparingInt(Event.RefusedLine::number));
            List<Event> events = facts();
            boolean moved = !from.known().file().equals(from.file());
            if (!events.isEmpty()
                    || !gone.isEmpty()
                    || !lines.isEmpty()
                    || moved
                    || !from.known().digest().equals(from.text().digest())
                    || !awaited.equals(from.known().awaited())
                    || !refused.equals(from.known().refused())) {
                events.add(new Event.LogbookRead(
                        from.file(),
                        moved ? from.known().file() : null,
                        from.text().digest(),
                        gone,
                        lines,
                        refused,
                        awaited));
            }
            Set<List<String>> before = new HashSet<>();
            from.known().refused().forEach(r -> before.add(List.of(r.text(), r.reason())));
            List<Event.RefusedLine> told = refused.stream()
                    .filter(r -> !before.contains(List.of(r.text(), r.reason())))
                    .toList();
            return new LogbookReading(events, fresh, changed, taken, refused, told, kept);
        }

        private static List<Long> instead(Step step) {
            Event.LogbookLine was = step.was;
            List<Long> instead = new ArrayList<>();
            if (was != null) {
                instead.addAll(was.instead());
                instead.addAll(was.facts());
            }
            return instead;
        }
    }
}
