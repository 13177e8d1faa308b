package chainage.wear;

import chainage.exposure.ChainExposure;
import chainage.exposure.Factors;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.quantity.Estimate;
import chainage.quantity.Lazy;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * How worn a chain is.
 *
 * @param known of its elongation
 * @param elongationPercent now: 10, 50 and 90 %
 * @param ridableMetres to the limit in the chain's own mix of conditions: 10, 50 and 90 %; negative when past it
 * @param over chance that it is past the limit already
 * @param limitPercent at which it is to be replaced
 * @param addedUsed whether it was added as used
 * @param expected what the table expects of all its rides
 * @param percentPerMetre table elongation a ridden metre, by the chain's own mix of conditions; above 0
 * @param readings its readings, by time; may be empty
 * @param othersRead how many other chains of this rider have readings, which teach about this one
 * @param othersWeight what other riders' chains weigh in how fast it wears, 0 to 1
 * @param outOfService the remark that takes it out of use, damaged or retired; null when there is none
 */
public record WearStanding(
        Lazy<Elongation> known,
        Estimate elongationPercent,
        Estimate ridableMetres,
        double over,
        double limitPercent,
        boolean addedUsed,
        Expected expected,
        double percentPerMetre,
        List<ReadingSeen> readings,
        int othersRead,
        double othersWeight,
        Event.@Nullable Remarked outOfService) {
    /** Below this a chain's own mix says little, and the table's dry clean rate stands in; our choice. */
    public static final double ENOUGH_METRES = 100_000;

    public WearStanding {
        readings = List.copyOf(readings);
    }

    /** What is known of its elongation. */
    public Elongation elongation() {
        return known.get();
    }

    /** Where a chain's wear stands. */
    public static WearStanding of(Ledger ledger, ChainExposure chain, WearModel model, Factors factors) {
        String name = chain.chain().chain();
        Elongation elongation = model.of(name);
        List<ReadingSeen> readings = model.readings(name);
        Expected expected = model.expected(name);
        double limit = limit(chain.chain(), factors);
        double ridden = chain.riddenMetres();
        Expected each = ridden < ENOUGH_METRES
                ? Expected.dry(factors.wearRate(chain.product().method()))
                : expected.times(1 / ridden);
        return new WearStanding(
                Lazy.known(elongation),
                elongation.percent(expected),
                elongation.ridable(limit, expected, each),
                1 - elongation.atMost(limit, expected),
                limit,
                chain.chain().used(),
                expected,
                each.percent(),
                readings,
                model.chainsRead() - (readings.isEmpty() ? 0 : 1),
                model.rest(name).others(),
                ledger.outOfService(name).orElse(null));
    }

    /** Elongation at which a chain is to be replaced, per cent: its own, else the usual one of its speeds. */
    public static double limit(Event.ChainDescribed chain, Factors factors) {
        if (chain.limitPercent() != null) {
            return chain.limitPercent();
        }
        if (chain.speeds() == 1) {
            return factors.value("limit.single");
        }
        // Unknown speeds: the strictest limit.
        return factors.value(chain.speeds() >= 2 && chain.speeds() <= 10 ? "limit.ten" : "limit.many");
    }

    /** What the table expects of all its rides, per cent. */
    public double expectedPercent() {
        return expected.percent();
    }

    /**
     * The latest reading, when it alone says that the limit is reached: no forecast overrules it. The edges of a gauge that
     * were tried together are one reading: that it does not drop in at 0.75 takes nothing from that it does at 0.5.
     */
    public Optional<ReadingSeen> bad() {
        if (readings.isEmpty()) {
            return Optional.empty();
        }
        Instant last = readings.get(readings.size() - 1).measured().at();
        return readings.stream()
                .filter(s -> s.measured().at().equals(last) && Likelihood.says(s.reading()) >= limitPercent)
                .max(Comparator.comparingDouble(s -> Likelihood.says(s.reading())));
    }

    /** Share of the limit that the likely elongation has reached; one out of service and one that reads so are past it. */
    public double used() {
        double share = elongationPercent.likely() / limitPercent;
        return outOfService == null && bad().isEmpty() ? share : Math.max(1, share);
    }

    /** Metres left to the limit in the chain's own mix of conditions; none for one out of service. */
    public Estimate leftMetres() {
        return outOfService == null ? ridableMetres : new Estimate(0, 0, 0);
    }
}
