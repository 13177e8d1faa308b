package chainage.typed;

import chainage.ledger.Entry;
import java.util.ArrayList;
import java.util.List;

/** Entries of the log, as the rider names them. */
public final class TypedEntries {
    private TypedEntries() {}

    /** The numbers that were typed; of a range those that are facts in force. */
    public static List<Long> numbers(List<String> typed, List<Entry> inForce) {
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
}
