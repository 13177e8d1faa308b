package chainage.quantity;

import java.time.Instant;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeFormatterBuilder;
import java.util.Locale;

/** Instants as they are kept: UTC texts with milliseconds; anything finer is cut off. */
public final class UtcText {
    private static final DateTimeFormatter FORM =
            new DateTimeFormatterBuilder().appendInstant(3).toFormatter(Locale.ROOT);

    private UtcText() {}

    public static String of(Instant at) {
        return FORM.format(at);
    }

    /**
     * The instant that a text stands for.
     *
     * @throws java.time.DateTimeException when the text is none of ours
     */
    public static Instant read(String text) {
        return FORM.parse(text, Instant::from);
    }
}
