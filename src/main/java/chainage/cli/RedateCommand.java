package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.EventWords;
import chainage.command.Intended;
import chainage.command.Write;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Kinds;
import chainage.ledger.Ledger;
import chainage.ledger.Logbook;
import chainage.typed.CliError;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "redate",
        description = {
            "Say that something happened at another time: an installation, a removal, a treatment, a reading, a remark.",
            "The two entries of a swap are redated together. chainage log lists the numbers."
        },
        footer = {"Examples:", "  chainage redate 7 --on 2026-03-14", "  chainage redate 8 9 --on \"2026-05-30 18:00\""
        })
final class RedateCommand extends Write {
    @Parameters(arity = "1..*", paramLabel = "NO", description = "numbers from the log")
    List<Long> numbers = List.of();

    @Option(names = "--on", paramLabel = "WHEN", required = true, description = "when it happened after all")
    String on = "";

    /** It speaks of what was stated. */
    @Override
    public boolean states() {
        return false;
    }

    @Override
    public Intended plan(Analysis before) {
        // Instants are kept to the millisecond.
        Instant to = Instant.ofEpochMilli(when(on).instant().toEpochMilli());
        Set<Long> along = Logbook.along(before.entries());
        long next = before.entries().stream().mapToLong(Entry::number).max().orElse(0) + 1;
        List<Event> anew = new ArrayList<>();
        List<Event> corrections = new ArrayList<>();
        List<String> said = new ArrayList<>();
        for (long n : numbers.stream().distinct().toList()) {
            Event now = fact(before, n);
            Event then = Kinds.of(now)
                    .dated(now, to)
                    .orElseThrow(() -> CliError.usage(
                            "entry " + n + " (" + EventWords.of(now, context().format()) + ") has no date",
                            "only what happened to a chain has one"));
            if (then.equals(now)) {
                throw CliError.usage("entry " + n + " has that date already", "give another");
            }
            String words = EventWords.of(then, context().format());
            if (along.contains(n)) {
                // Its line is one with it, and a line with another date states another fact.
                said.add("entry " + n + " gives way to " + (next + anew.size()) + ": " + words);
                anew.add(then);
                corrections.add(new Event.Undone(n));
            } else {
                said.add("entry " + n + " now reads: " + words);
                corrections.add(new Event.Redated(n, to));
            }
        }
        anew.addAll(corrections);
        return new Intended(anew, said);
    }

    private static Event fact(Analysis before, long number) {
        return Ledger.of(before.entries()).facts().stream()
                .filter(e -> e.number() == number)
                .map(Entry::event)
                .findFirst()
                .orElseThrow(() ->
                        CliError.usage("there is no fact " + number + " in force", "chainage log shows them all"));
    }
}
