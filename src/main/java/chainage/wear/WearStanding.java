package chainage.wear;

import chainage.exposure.ChainExposure;
import chainage.exposure.Factors;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Reading;
import chainage.quantity.Estimate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * How worn a chain is.
 *
 * @param elongationPercent now
 * @param limitPercent at which it is to be replaced
 * @param percentPerMetre table elongation a ridden metre, by the chain's own mix of conditions; above 0
 * @param reading the length reading that the sum starts from; null when it starts from new
 * @param condemned the remark that takes it out of use, damaged or retired; null when there is none
 */
public record WearStanding(
        Estimate elongationPercent,
        double limitPercent,
        double percentPerMetre,
        Event.@Nullable Measured reading,
        Event.@Nullable Remarked condemned) {
    /** Normal quantile of 90 %; with its negative it spans an 80 % interval. */
    private static final double Z90 = 1.2815515655446004;
    /** Readings contradict each other when each would have to be wrong by more than this many standard errors;
     * our choice. */
    private static final double DOUBT = 1.5;
    /** Standard error of a gauge's edge, per cent; our guess. */
    private static final double EDGE_ERROR = 0.05;
    /** Below this a chain's own mix says little, and the table's dry clean rate stands in; our choice. */
    private static final double ENOUGH_METRES = 100_000;

    /**
     * Where a chain's wear stands, by the table's rates. The latest length reading restarts the sum, with its own
     * error; gauge answers since then bound it.
     */
    public static WearStanding of(Ledger ledger, ChainExposure chain, Factors factors) {
        String name = chain.chain().chain();
        List<Event.Measured> readings = ledger.readings(name);
        Event.Measured anchor = readings.stream()
                .filter(m -> m.reading() instanceof Reading.Elongation)
                .reduce((a, b) -> b)
                .orElse(null);
        double base = 0;
        double error = 0;
        double sum = chain.elongationPercent();
        if (anchor != null && anchor.reading() instanceof Reading.Elongation e) {
            base = e.percent();
            error = error(e);
            sum -= chain.elongationPercent(anchor.at());
        }
        double spread = Math.exp(Z90 * factors.value("wear.spread"));
        double low = base - Z90 * error + sum / spread;
        double likely = base + sum;
        double high = base + Z90 * error + sum * spread;
        for (Event.Measured m : readings) {
            if (m.reading() instanceof Reading.Gauge g && (anchor == null || m.at().isAfter(anchor.at()))) {
                double since = sum
                        - (chain.elongationPercent(m.at())
                                - (anchor == null ? 0 : chain.elongationPercent(anchor.at())));
                double edge = g.edgePercent() + since;
                // The edge itself is only so sure, so the interval never shrinks to nothing.
                double sure = Z90 * EDGE_ERROR;
                low = g.drops() ? Math.max(low, edge - sure) : Math.min(low, edge - sure);
                likely = g.drops() ? Math.max(likely, edge) : Math.min(likely, edge);
                high = g.drops() ? Math.max(high, edge + sure) : Math.min(high, edge + sure);
            }
        }
        double ridden = chain.riddenMetres();
        double rate = ridden < ENOUGH_METRES
                ? factors.wearRate(chain.product().method())
                : chain.elongationPercent() / ridden;
        return new WearStanding(
                new Estimate(Math.max(0, low), Math.max(0, likely), Math.max(0, high)),
                limit(chain.chain(), factors),
                rate,
                anchor,
                ledger.condemned(name).orElse(null));
    }

    /**
     * Readings of one chain that cannot all be true, in words: a chain does not get shorter by more than the readings'
     * errors allow.
     */
    public static List<String> contradictions(Ledger ledger, String chain) {
        List<String> found = new ArrayList<>();
        List<Event.Measured> readings = ledger.readings(chain);
        for (int i = 0; i < readings.size(); i++) {
            for (int j = i + 1; j < readings.size(); j++) {
                Bounds early = Bounds.of(readings.get(i).reading());
                Bounds late = Bounds.of(readings.get(j).reading());
                if (late.most() + DOUBT * late.error() < early.least() - DOUBT * early.error()) {
                    found.add(chain + ": the reading of " + readings.get(j).at() + " (at most "
                            + percent(late.most()) + ") is shorter than that of "
                            + readings.get(i).at()
                            + " (at least " + percent(early.least()) + "), and a chain does not get shorter");
                }
            }
        }
        return found;
    }

    private static String percent(double value) {
        return String.format(Locale.ROOT, "%.2f %%", value);
    }

    /**
     * What a reading says of the elongation.
     *
     * @param least per cent; minus infinity for a gauge that passes
     * @param most per cent; infinity for a gauge that drops
     * @param error standard error, per cent
     */
    private record Bounds(double least, double most, double error) {
        static Bounds of(Reading reading) {
            if (reading instanceof Reading.Elongation e) {
                return new Bounds(e.percent(), e.percent(), WearStanding.error(e));
            }
            if (reading instanceof Reading.Gauge g) {
                return g.drops()
                        ? new Bounds(g.edgePercent(), Double.POSITIVE_INFINITY, EDGE_ERROR)
                        : new Bounds(Double.NEGATIVE_INFINITY, g.edgePercent(), EDGE_ERROR);
            }
            throw new AssertionError(reading);
        }
    }

    /** Standard error of a length reading, per cent; our guess. A ruler's shrinks with the pitches spanned, a calliper's
     * grows below the eight that it usually spans. */
    private static double error(Reading.Elongation e) {
        return e.tool() == Reading.Tool.RULER ? 0.10 * 24 / e.pitches() : 0.05 * 8 / Math.min(8, e.pitches());
    }

    private static double limit(Event.ChainDescribed chain, Factors factors) {
        if (chain.limitPercent() != null) {
            return chain.limitPercent();
        }
        if (chain.speeds() == 1) {
            return factors.value("limit.single");
        }
        // Unknown speeds: the strictest limit.
        return factors.value(chain.speeds() >= 2 && chain.speeds() <= 10 ? "limit.ten" : "limit.many");
    }

    /** Share of the limit that the likely elongation has reached; a condemned chain is past it. */
    public double used() {
        double share = elongationPercent.likely() / limitPercent;
        return condemned == null ? share : Math.max(1, share);
    }

    /** Metres left to the limit in the chain's own mix of conditions; negative when past it. */
    public Estimate leftMetres() {
        if (condemned != null) {
            return new Estimate(0, 0, 0);
        }
        return new Estimate(
                (limitPercent - elongationPercent.high()) / percentPerMetre,
                (limitPercent - elongationPercent.likely()) / percentPerMetre,
                (limitPercent - elongationPercent.low()) / percentPerMetre);
    }
}
