package chainage.loopback;

import java.time.Duration;

/**
 * How much is borne.
 *
 * @param unused for how long nobody may ask before it ends
 * @param body bytes of a form
 * @param files bytes of a form with files in it
 */
public record ServingLimits(Duration unused, int body, int files) {
    private static final int KB = 1024;

    /** An hour; a form that names three thousand rides; three of the largest ride files met. Our choice. */
    public static final ServingLimits USUAL = new ServingLimits(Duration.ofHours(1), 64 * KB, 64 * KB * KB);
}
