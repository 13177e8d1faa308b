package chainage.standing;

import chainage.attribution.AttributedRide;
import chainage.condition.Condition;
import chainage.exposure.Exposures;
import chainage.exposure.Factors;
import chainage.exposure.RideExposure;
import chainage.ledger.Method;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * How fast a bike gathers metres these days: the mean of its last 52 weeks, or of as many as there are.
 *
 * @param metresPerDay above 0
 * @param treatmentMetresPerDay the same, weighted for the method in question; above 0
 */
record Pace(double metresPerDay, double treatmentMetresPerDay) {
    /** A year of whole weeks, so that every season counts once. */
    private static final Duration WINDOW = Duration.ofDays(364);
    /** Without a ride for this long the past says nothing of the weeks to come; our guess. */
    private static final Duration STALE = Duration.ofDays(84);

    /** The pace of a bike under a method; null without recent rides. */
    static @Nullable Pace of(
            String bike, Method method, List<AttributedRide> rides, Exposures exposures, Factors factors, Instant at) {
        double metres = 0;
        double weighted = 0;
        Instant first = null;
        Instant last = null;
        for (AttributedRide r : rides) {
            Instant start = r.filed().ride().start();
            RideExposure e = exposures.byRide().get(r.id());
            Condition condition = exposures.conditions().get(r.id());
            if (e == null || condition == null || !bike.equals(r.bike()) || start.isBefore(at.minus(WINDOW))) {
                continue;
            }
            first = first == null ? start : first;
            last = start;
            metres += e.metres().metres();
            weighted += e.metres().metres() * factors.treatmentFactor(condition, method);
        }
        if (first == null || last == null || last.isBefore(at.minus(STALE)) || metres == 0) {
            return null;
        }
        double days = Math.max(7, Duration.between(first, at).toHours() / 24.0);
        return new Pace(metres / days, weighted / days);
    }
}
