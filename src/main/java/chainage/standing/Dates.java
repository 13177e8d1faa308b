package chainage.standing;

import chainage.quantity.Estimate;
import java.time.Duration;
import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * When something is due.
 *
 * @param low early
 * @param likely as things go
 * @param high late
 */
public record Dates(Instant low, Instant likely, Instant high) {
    /** Further ahead than this no date is worth giving. */
    private static final double HORIZON_DAYS = 365 * 30;

    /** When these metres are used up at a pace; what is past due is due now. Null beyond the horizon. */
    static @Nullable Dates of(Instant now, Estimate leftMetres, double metresPerDay) {
        if (leftMetres.likely() / metresPerDay > HORIZON_DAYS) {
            return null;
        }
        return new Dates(
                after(now, leftMetres.low() / metresPerDay),
                after(now, leftMetres.likely() / metresPerDay),
                after(now, leftMetres.high() / metresPerDay));
    }

    private static Instant after(Instant now, double days) {
        return now.plus(Duration.ofMinutes(Math.round(Math.max(0, Math.min(days, 3 * HORIZON_DAYS)) * 24 * 60)));
    }
}
