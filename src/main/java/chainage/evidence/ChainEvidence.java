package chainage.evidence;

import chainage.exposure.ChainExposure;
import chainage.exposure.Exposures;
import chainage.exposure.Factors;
import chainage.exposure.RideExposure;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Method;
import chainage.wear.ChainWear;
import chainage.wear.ReadingSeen;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.BiFunction;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/**
 * What somebody's chain has shown of wear.
 *
 * @param used whether it had run before its first ride with that rider
 * @param readings in the order of the kilometres before them
 */
public record ChainEvidence(boolean used, List<ReadingEvidence> readings) {
    /** Readings that follow sooner tell little of wear, and much of how far somebody rides at a time; our choice. */
    static final int LEAST_APART = 200;

    public ChainEvidence {
        readings = List.copyOf(readings);
    }

    /**
     * Of a ledger's chains that were read after kilometres.
     *
     * @param told whether a product's word is told
     */
    static List<ChainEvidence> of(Ledger ledger, Exposures exposures, Predicate<String> told, Factors factors) {
        return exposures.chains().values().stream()
                .map(c -> of(c, ledger.readings(c.chain().chain()), told, factors))
                .filter(c -> c.readings.stream().anyMatch(r -> r.total() >= LEAST_APART))
                .toList();
    }

    private static ChainEvidence of(
            ChainExposure chain, List<Event.Measured> measured, Predicate<String> told, Factors factors) {
        List<ReadingEvidence> readings = new ArrayList<>();
        int last = -LEAST_APART;
        for (Event.Measured m : measured) {
            List<RideExposure> before = chain.rides().stream()
                    .filter(r -> r.start().isBefore(m.at()))
                    .toList();
            ReadingEvidence r = ReadingEvidence.of(m.reading(), before, told, factors);
            // Edges of a gauge that were tried together are at the same kilometres.
            if (r.total() == last || r.total() >= last + LEAST_APART) {
                readings.add(r);
                last = r.total();
            }
        }
        return new ChainEvidence(chain.chain().used(), readings);
    }

    /** The same without the products' words. */
    ChainEvidence unnamed() {
        return new ChainEvidence(
                used, readings.stream().map(ReadingEvidence::unnamed).toList());
    }

    /**
     * As the model of wear takes it.
     *
     * @param name of a product, by method and word, which is null where it is not told
     */
    public ChainWear wear(BiFunction<Method, @Nullable String, String> name, Factors factors) {
        List<ReadingSeen> seen = readings.stream()
                .map(r -> new ReadingSeen(new Event.Measured("", Instant.EPOCH, r.reading()), r.expected(factors)))
                .toList();
        Map<String, Double> shares = new LinkedHashMap<>();
        ReadingEvidence last = readings.get(readings.size() - 1);
        double all = last.expected(factors).percent();
        for (ReadingEvidence.Ridden r : last.ridden()) {
            // Where nothing is expected, as of a load of nothing, each counts the same.
            double share = all > 0
                    ? r.expected(factors).percent() / all
                    : 1.0 / last.ridden().size();
            shares.merge(name.apply(r.method(), r.product()), share, Double::sum);
        }
        return new ChainWear(used, last.expected(factors), shares, seen);
    }
}
