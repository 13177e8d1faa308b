package chainage.exposure;

import chainage.ledger.Event;
import chainage.ride.LateList;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * All that was ridden on one chain.
 *
 * @param chain the chain
 * @param rides every ride on it, by start; may be empty, and may be late to come
 * @param product what it is treated with now; the factory's own preservative before the first treatment
 * @param treatedAt when; null before the first treatment
 */
public record ChainExposure(
        Event.ChainDescribed chain,
        List<RideExposure> rides,
        Event.ProductDescribed product,
        @Nullable Instant treatedAt) {
    public ChainExposure {
        rides = LateList.keep(rides);
    }

    /** Metres ridden on the chain in all. */
    public double riddenMetres() {
        return rides.stream().mapToDouble(r -> r.metres().metres()).sum();
    }

    /** Metres ridden on the chain in rides begun before an instant. */
    public double riddenMetres(Instant until) {
        return rides.stream()
                .filter(r -> r.start().isBefore(until))
                .mapToDouble(r -> r.metres().metres())
                .sum();
    }

    /** The rides since the treatment in force. */
    public List<RideExposure> sinceTreatment() {
        return treatedAt == null
                ? rides
                : rides.stream().filter(r -> treatedAt.equals(r.treatedAt())).toList();
    }

    /** Metres ridden since the treatment. */
    public double metresSinceTreatment() {
        return sinceTreatment().stream().mapToDouble(r -> r.metres().metres()).sum();
    }

    /** Weighted metres since the treatment. */
    public double treatmentMetres() {
        return sinceTreatment().stream()
                .mapToDouble(RideExposure::treatmentMetres)
                .sum();
    }

    /** Elongation that the table expects of all rides, per cent. */
    public double elongationPercent() {
        return rides.stream().mapToDouble(RideExposure::elongationPercent).sum();
    }

    /** Elongation that the table expects of the rides begun before an instant, per cent. */
    public double elongationPercent(Instant until) {
        return rides.stream()
                .filter(r -> r.start().isBefore(until))
                .mapToDouble(RideExposure::elongationPercent)
                .sum();
    }
}
