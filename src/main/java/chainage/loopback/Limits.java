package chainage.loopback;

import java.time.Duration;

/**
 * How much is borne.
 *
 * @param unused for how long nobody may ask before it ends
 * @param body bytes of a form
 */
public record Limits(Duration unused, int body) {
    /** An hour; a form that names four hundred rides; our choice. */
    public static final Limits USUAL = new Limits(Duration.ofHours(1), 64 * 1024);
}
