package chainage.answer.beside;

import chainage.analysis.Analysis;
import chainage.ledger.Event;
import chainage.quantity.PlainText;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/** What is said beside a chain that is added. */
public final class NewChainBeside {
    private NewChainBeside() {}

    /** Bikes that have a chain: the default one first, then by how many rides they have. */
    private static List<String> bikes(Analysis before) {
        Map<String, Long> rides = before.rides().stream()
                .filter(r -> r.counted() && r.bike() != null)
                .collect(Collectors.groupingBy(r -> String.valueOf(r.bike()), Collectors.counting()));
        Optional<String> standard = before.ledger().defaultBike();
        return before.ledger().bikes().values().stream()
                .filter(b -> !b.chainless())
                .map(Event.BikeDescribed::bike)
                .sorted(Comparator.comparing((String b) -> !standard.equals(Optional.of(b)))
                        .thenComparing(b -> -rides.getOrDefault(b, 0L)))
                .toList();
    }

    /** What is to be done with it next: which bike is free for it. */
    public static String next(Analysis before, String chain, Instant now) {
        if (before.ledger().bikes().isEmpty()) {
            return "next, a bike to put it on: chainage bike add NAME";
        }
        List<String> bikes = bikes(before);
        Optional<String> free = bikes.stream()
                .filter(b -> before.ledger().installedOn(b, now).isEmpty())
                .findFirst();
        return "next, put it on a bike: chainage install " + PlainText.typed(chain) + " "
                + free.map(b -> PlainText.typed(b) + " --on DATE")
                        .orElse(PlainText.typed(
                                        bikes.isEmpty()
                                                ? before.ledger().bikes().firstKey()
                                                : bikes.get(0))
                                + " --swap --on DATE (it takes off the chain that is on)");
    }
}
