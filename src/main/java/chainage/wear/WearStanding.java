package chainage.wear;

import chainage.exposure.ChainExposure;
import chainage.exposure.Factors;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Reading;
import chainage.ledger.Remark;
import chainage.quantity.Estimate;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * How worn a chain is.
 *
 * @param elongationPercent now
 * @param limitPercent at which it is to be replaced
 * @param percentPerMetre table elongation a ridden metre, by the chain's own mix of conditions; above 0
 * @param reading the length reading that the sum starts from; null when it starts from new
 * @param damaged when the rider saw damage; null when not
 */
public record WearStanding(
        Estimate elongationPercent,
        double limitPercent,
        double percentPerMetre,
        Event.@Nullable Measured reading,
        @Nullable Instant damaged) {
    /** Normal quantile of 90 %; with its negative it spans an 80 % interval. */
    private static final double Z90 = 1.2815515655446004;
    /** Below this a chain's own mix says little, and the table's dry clean rate stands in. */
    private static final double ENOUGH_METRES = 100_000;

    /**
     * Where a chain's wear stands, by the table's rates. The latest length reading restarts the sum, with its own
     * error; gauge answers since then bound it.
     */
    public static WearStanding of(Ledger ledger, ChainExposure chain, Factors factors, Instant at) {
        String name = chain.chain().chain();
        List<Event.Measured> readings = ledger.readings(name);
        Event.Measured anchor = readings.stream()
                .filter(m -> m.reading() instanceof Reading.Elongation)
                .reduce((a, b) -> b)
                .orElse(null);
        double base = 0;
        double error = 0;
        double sum = chain.elongationPercent(at);
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
                low = g.drops() ? Math.max(low, edge) : Math.min(low, edge);
                likely = g.drops() ? Math.max(likely, edge) : Math.min(likely, edge);
                high = g.drops() ? Math.max(high, edge) : Math.min(high, edge);
            }
        }
        double ridden = chain.riddenMetres();
        double rate = ridden < ENOUGH_METRES
                ? factors.wearRate(chain.product().method())
                : chain.elongationPercent(at) / ridden;
        Instant damaged = ledger.remarks(name).stream()
                .filter(r -> r.remark() == Remark.DAMAGED)
                .map(Event.Remarked::at)
                .findFirst()
                .orElse(null);
        return new WearStanding(new Estimate(low, likely, high), limit(chain.chain(), factors), rate, anchor, damaged);
    }

    /** Standard error of a length reading, per cent; it shrinks with the number of pitches spanned. */
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

    /** Share of the limit that the likely elongation has reached; a damaged chain is past it. */
    public double used() {
        double share = elongationPercent.likely() / limitPercent;
        return damaged == null ? share : Math.max(1, share);
    }

    /** Metres left to the limit in the chain's own mix of conditions; negative when past it. */
    public Estimate leftMetres() {
        if (damaged != null) {
            return new Estimate(0, 0, 0);
        }
        return new Estimate(
                (limitPercent - elongationPercent.high()) / percentPerMetre,
                (limitPercent - elongationPercent.likely()) / percentPerMetre,
                (limitPercent - elongationPercent.low()) / percentPerMetre);
    }
}
