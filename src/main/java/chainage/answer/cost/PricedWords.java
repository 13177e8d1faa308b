package chainage.answer.cost;

import chainage.cost.PricedThing;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** Things with a price, or without, in words. */
public final class PricedWords {
    private PricedWords() {}

    public static String of(PricedThing part) {
        return switch (part.kind()) {
            case PRODUCT -> part.name();
            case CHAIN -> "chain " + part.name();
            case CASSETTE -> "cassette of " + part.name();
            case RINGS -> "rings of " + part.name();
            case HOUR -> "the hour";
        };
    }

    /** Parts by their currencies. */
    public static String listed(Map<String, List<PricedThing>> currencies) {
        return currencies.entrySet().stream()
                .map(e -> e.getValue().stream().map(PricedWords::of).collect(Collectors.joining(", ")) + " in "
                        + e.getKey())
                .collect(Collectors.joining("; "));
    }
}
