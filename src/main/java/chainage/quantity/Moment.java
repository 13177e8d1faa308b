package chainage.quantity;

import java.time.Instant;
import java.time.LocalDate;

/**
 * A point in time as people say when something was.
 *
 * @param instant what it stands for; of a bare date the start of that local day
 * @param day the local day
 * @param bareDate true when no time of day was given, so that rides of that day may fall on either side
 */
public record Moment(Instant instant, LocalDate day, boolean bareDate) {}
