package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.EventWords;
import chainage.command.Write;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Logbook;
import chainage.typed.CliError;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

@Command(
        name = "undo",
        description = {
            "Take facts back: all that the last command stated, or those named by number (chainage log lists them).",
            "Taken back by mistake? chainage redo brings it into force again. Nothing is ever deleted."
        },
        footer = {"Examples:", "  chainage undo", "  chainage undo 17", "  chainage undo 17 18"})
final class UndoCommand extends Write {
    /** So many facts of a reading are named. */
    private static final int SHOWN = 20;

    @Parameters(arity = "0..*", paramLabel = "NO", description = "numbers from the log, or a range such as 17..25")
    List<String> typed = List.of();

    /** It speaks of what was stated. */
    @Override
    public boolean states() {
        return false;
    }

    @Override
    public Plan plan(Analysis before) {
        List<Entry> inForce = Ledger.inForce(before.entries());
        List<Long> numbers = numbers(inForce);
        List<Event> events = new ArrayList<>();
        List<String> said = new ArrayList<>();
        if (typed.isEmpty()) {
            // A reading of a logbook takes back what its file no longer says; that belongs to what it states.
            Set<Long> readings = Logbook.readings(before.entries());
            List<Entry> facts = inForce.stream()
                    .filter(e -> !(e.event() instanceof Event.Undone) || readings.contains(e.command()))
                    .filter(e -> !e.event().isNote())
                    .toList();
            if (facts.isEmpty()) {
                throw CliError.usage("there is nothing to take back", "chainage log shows all facts");
            }
            long command = facts.get(facts.size() - 1).command();
            facts.stream().filter(e -> e.command() == command).forEach(e -> take(before.entries(), e, events, said));
            return new Plan(events, ofReading(before.entries(), inForce, command, said));
        }
        for (long n : numbers.stream().distinct().toList()) {
            Entry e = before.entries().stream()
                    .filter(x -> x.number() == n)
                    .findFirst()
                    .orElseThrow(() -> CliError.usage("there is no entry " + n, "chainage log shows them all"));
            if (inForce.stream().noneMatch(x -> x.number() == n)) {
                throw CliError.usage("entry " + n + " is taken back already", "chainage log shows by which");
            }
            if (e.event().isNote()) {
                throw CliError.usage(
                        "entry " + n + " only notes how a file was met", "take back the facts, or change the file");
            }
            take(before.entries(), e, events, said);
        }
        return new Plan(events, said);
    }

    /**
     * What a reading of a logbook stated, and took back for it, is one thing that may be long. Where the file is not
     * written along it goes on saying it, and is not heard.
     */
    private static List<String> ofReading(List<Entry> entries, List<Entry> inForce, long command, List<String> said) {
        String along = Logbook.appended(inForce);
        List<String> all = new ArrayList<>(said);
        entries.stream()
                .filter(e -> e.command() == command)
                .map(Entry::event)
                .filter(Event.LogbookRead.class::isInstance)
                .map(e -> ((Event.LogbookRead) e).file())
                .filter(file -> !file.equals(along))
                .findFirst()
                .ifPresent(file -> {
                    if (all.size() > SHOWN) {
                        all.subList(SHOWN, all.size()).clear();
                        all.add("and " + (said.size() - SHOWN) + " more of the same reading");
                    }
                    all.add("what " + EventWords.name(file)
                            + " says there stays out until its lines change; to bring it back: chainage redo");
                });
        return all;
    }

    /** The numbers that were typed; of a range those that are facts in force. */
    private List<Long> numbers(List<Entry> inForce) {
        List<Long> numbers = new ArrayList<>();
        for (String t : typed) {
            int dots = t.indexOf("..");
            long from = number(dots < 0 ? t : t.substring(0, dots), t);
            long to = dots < 0 ? from : number(t.substring(dots + 2), t);
            if (dots < 0) {
                numbers.add(from);
                continue;
            }
            List<Long> some = inForce.stream()
                    .filter(e -> e.number() >= from && e.number() <= to)
                    .filter(e -> !e.event().isNote())
                    .map(Entry::number)
                    .toList();
            if (some.isEmpty()) {
                throw CliError.usage("no fact in force is numbered " + t, "chainage log shows them all");
            }
            numbers.addAll(some);
        }
        return numbers;
    }

    private static long number(String digits, String typed) {
        try {
            return Long.parseLong(digits);
        } catch (NumberFormatException e) {
            throw CliError.usage(
                    "\"" + typed + "\" is no number of an entry", "write one such as 17, or a range such as 17..25");
        }
    }

    private void take(List<Entry> entries, Entry e, List<Event> events, List<String> said) {
        events.add(new Event.Undone(e.number()));
        if (e.event() instanceof Event.Undone u) {
            entries.stream()
                    .filter(x -> x.number() == u.target())
                    .forEach(x -> said.add("in force again: " + x.number() + ", "
                            + EventWords.of(x.event(), context().format())));
        } else {
            said.add("taken back: " + e.number() + ", "
                    + EventWords.of(e.event(), context().format()));
        }
    }
}
