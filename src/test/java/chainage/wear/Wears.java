package chainage.wear;

import chainage.ledger.Event;
import chainage.ledger.Reading;
import java.time.Instant;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Chains and priors for the tests of the model. */
final class Wears {
    static final String PRODUCT = "Kettle Block";

    private Wears() {}

    /** The prior of the program, as it is said in words. */
    static final WearModel.Prior USUAL = new WearModel.Prior(0.35, 0.5, 0.3, 0.5, 0.05, 0.05, 0.35, true);

    /** One in which nothing but the pace is unknown, and readings err normally. */
    static WearModel.Prior plain(double own, double shared) {
        return new WearModel.Prior(own, shared, 0, 0, 0, 0, 0, false);
    }

    static ReadingSeen seen(Expected expected, Reading reading) {
        return new ReadingSeen(new Event.Measured("Amber", Instant.EPOCH, reading), expected);
    }

    static ReadingSeen seen(double expected, Reading reading) {
        return seen(Expected.dry(expected), reading);
    }

    static ReadingSeen length(double expected, double percent) {
        return seen(expected, new Reading.Elongation(percent, Reading.Tool.CALLIPER, 8));
    }

    static ReadingSeen edge(double expected, double edge, boolean drops) {
        return seen(expected, new Reading.Gauge(edge, drops));
    }

    static ChainWear chain(List<ReadingSeen> seen) {
        return chain(false, seen);
    }

    static ChainWear chain(boolean used, List<ReadingSeen> seen) {
        Expected total =
                seen.isEmpty() ? Expected.NONE : seen.get(seen.size() - 1).expected();
        return new ChainWear(used, total, Map.of(PRODUCT, 1.0), seen);
    }

    static WearModel model(WearModel.Prior prior, Map<String, List<ReadingSeen>> readings) {
        Map<String, ChainWear> chains = new LinkedHashMap<>();
        readings.forEach((name, seen) -> chains.put(name, chain(seen)));
        return new WearModel(prior, chains);
    }

    static WearModel model(WearModel.Prior prior, ReadingSeen... seen) {
        return model(prior, Map.of("Amber", Arrays.asList(seen)));
    }
}
