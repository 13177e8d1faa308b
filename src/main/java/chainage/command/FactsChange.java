package chainage.command;

import chainage.analysis.Analysis;
import chainage.analysis.Change;
import chainage.analysis.Snapshot;
import chainage.answer.ChangeAnswer;
import chainage.answer.ChangeWords;
import chainage.answer.ProblemWords;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Kinds;
import chainage.ledger.Ledger;
import chainage.ledger.Misfit;
import chainage.ledger.Problem;
import chainage.store.LedgerFile;
import chainage.typed.CliError;
import chainage.typed.ExitCode;
import java.io.IOException;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;

/** One change of what is stated: planned, held against the facts, written, and told as what moved. */
final class FactsChange {
    /** In so long a command may be typed again because its answer was lost; our guess. */
    private static final Duration MOMENT = Duration.ofMinutes(1);

    private final CommandContext context;

    FactsChange(CommandContext context) {
        this.context = context;
    }

    /** What was decided, and the analysis it was decided from. */
    private record Decided(Intended plan, Analysis before) {}

    private static Decided decide(Function<Analysis, Intended> plan, Analysis before) {
        return new Decided(plan.apply(before), before);
    }

    /** Says what would change; nothing is written. */
    Integer rehearse(Function<Analysis, Intended> plan) {
        Snapshot snapshot = context.load();
        Decided decided = decide(plan, context.analysis(snapshot));
        List<Entry> all = checked(snapshot.entries(), decided.plan().events());
        return report(decided, List.of(), context.analysis(snapshot.withEntries(all)), true);
    }

    /** Writes it. Reading, deciding and writing are one transaction. */
    Integer write(StatedBy by, Function<Analysis, Intended> plan) throws IOException {
        if (!context.written()) {
            // A command that is refused leaves no ledger behind.
            checked(
                    List.of(),
                    decide(plan, context.analysis(Snapshot.EMPTY)).plan().events());
        }
        CommandContext.Beside beside = context.runner().beside(context);
        Snapshot after;
        Analysis now;
        Integer code;
        try (LedgerFile file = context.openToWrite()) {
            LedgerFile.Written<Decided> written = file.<Decided, RuntimeException>update(
                    context.terminal().clock().instant(), snapshot -> {
                        Decided decided = decide(plan, context.analysis(snapshot, file.state()));
                        List<Event> events = decided.plan().events();
                        checked(snapshot.entries(), events);
                        return new LedgerFile.Decision<>(beside.noted(by, events, decided.before()), decided);
                    });
            List<Entry> facts =
                    written.entries().stream().filter(e -> !e.event().isNote()).toList();
            context.keep(facts);
            warnOfTwice(written.before().entries(), facts);
            List<Entry> all = new ArrayList<>(written.before().entries());
            all.addAll(written.entries());
            after = written.before().withEntries(all);
            context.loaded(after, file.state());
            now = context.analysis(after);
            code = report(written.answer(), facts, now, false);
            beside.bringUpToDate(file, all);
        }
        context.remember(after, now);
        return code;
    }

    /** Says so where a fact is the same as one of a moment ago: perhaps a command that was typed twice, perhaps not. */
    private void warnOfTwice(List<Entry> before, List<Entry> written) {
        if (written.stream().anyMatch(w -> w.event() instanceof Event.Untagged)) {
            // What was said before what is taken back is said again.
            return;
        }
        List<Entry> lately = Ledger.inForce(before).stream()
                .filter(e -> e.recorded().isAfter(now(written).minus(MOMENT)))
                .toList();
        for (Entry w : written) {
            lately.stream()
                    .filter(e -> isSame(e, w))
                    .reduce((a, b) -> b)
                    .ifPresent(e -> context.warn("the same was stated a moment ago as entry " + e.number()
                            + "; if it was done once, take this one back: chainage undo " + w.number()));
            lately.stream()
                    .filter(e -> isOfThePresent(e) && !isOfThePresent(w) && isSameButForItsDate(e, w))
                    .reduce((a, b) -> b)
                    .ifPresent(e -> context.warn(
                            "entry " + e.number() + " of a moment ago says the same of now; if only its date was"
                                    + " forgotten, take it back: chainage undo " + e.number()
                                    + " (another time, chainage redate gives it its date)"));
        }
    }

    private Instant now(List<Entry> written) {
        return written.isEmpty() ? context.now() : written.get(0).recorded();
    }

    /** The same fact of the same time, or both of the present as it was when each was stated. */
    private static boolean isSame(Entry a, Entry b) {
        return a.event().equals(b.event()) || (isOfThePresent(a) && isOfThePresent(b) && isSameButForItsDate(a, b));
    }

    private static boolean isSameButForItsDate(Entry a, Entry b) {
        return a.happened()
                .flatMap(at -> Kinds.of(b.event()).dated(b.event(), at))
                .filter(a.event()::equals)
                .isPresent();
    }

    private static boolean isOfThePresent(Entry e) {
        return e.happened()
                .filter(at -> Duration.between(at, e.recorded()).abs().compareTo(MOMENT) < 0)
                .isPresent();
    }

    /** The entries with the new facts behind them; refused when they bring a contradiction. */
    private List<Entry> checked(List<Entry> entries, List<Event> events) {
        ProblemWords words = new ProblemWords(context.format());
        List<Entry> all = new ArrayList<>(entries);
        long number = entries.isEmpty() ? 0 : entries.get(entries.size() - 1).number();
        long command = number + 1;
        for (Event e : events) {
            try {
                Kinds.of(e).check(e);
            } catch (Misfit outOfBounds) {
                throw CliError.usage(
                        words.of(outOfBounds), "nothing was written; look at the figures, dates and names");
            }
            all.add(new Entry(++number, command, context.now(), e));
        }
        for (Problem p :
                Problem.fresh(Ledger.of(entries).problems(), Ledger.of(all).problems())) {
            List<String> there = p.entries().stream()
                    .filter(n -> n < command)
                    .map(String::valueOf)
                    .toList();
            // The hint of a kept problem may speak of taking back what is not even written.
            throw new CliError(
                    ExitCode.USAGE,
                    words.of(p),
                    there.isEmpty()
                            ? "nothing was written; look at the dates and names"
                            : "nothing was written; it conflicts with entry " + String.join(", ", there)
                                    + " (chainage log shows it)");
        }
        return all;
    }

    private Integer report(Decided decided, List<Entry> written, Analysis after, boolean dryRun) {
        return context.show(
                new ChangeAnswer(
                        written.stream().map(Entry::number).toList(),
                        decided.plan().said(),
                        changes(decided.before(), after),
                        dryRun),
                false);
    }

    private List<String> changes(Analysis before, Analysis after) {
        // Analyses are worked out when they are looked at, so by now what is taken back is.
        after.standings();
        try {
            before.standings();
        } catch (RuntimeException e) {
            return List.of("what this changes cannot be told, since before it nothing could be worked out (" + e + ")");
        }
        return ChangeWords.of(Change.between(before, after), context.format());
    }
}
