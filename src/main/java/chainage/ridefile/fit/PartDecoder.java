package chainage.ridefile.fit;

import com.garmin.fit.Decode;
import com.garmin.fit.MesgListener;
import java.io.ByteArrayInputStream;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** Runs the SDK over one part and keeps what it delivered before it stopped. */
final class PartDecoder {
    /** The SDK reads ahead, so only its message says where it stopped. */
    private static final Pattern PLACE = Pattern.compile("at byte: (\\d{1,9})");

    private static final String WRONG_SIZE = "the FIT header states a wrong size";

    private PartDecoder() {}

    static PartMessages decode(byte[] content, FitParts.Part part) {
        PartMessages messages = new PartMessages();
        String broken = run(content, part, messages);
        messages.ended(broken, !part.sizeHolds() && part.to() == content.length);
        return messages;
    }

    /**
     * Pushes the part's messages into {@code listener}; answers what went wrong, or null. The SDK signals broken data by
     * unchecked exceptions of many classes, thrown after the messages before them: this is where they end.
     */
    static @Nullable String run(byte[] content, FitParts.Part part, MesgListener listener) {
        byte[] data = FitParts.withSize(content, part);
        if (part.sizeHolds()) {
            data = java.util.Arrays.copyOfRange(content, part.from(), part.to());
        }
        ByteArrayInputStream in = new ByteArrayInputStream(data);
        try {
            new Decode().read(in, listener);
        } catch (RuntimeException e) {
            return reason(e, content, part, data.length);
        }
        return part.sizeHolds() ? null : WRONG_SIZE;
    }

    private static String reason(RuntimeException e, byte[] content, FitParts.Part part, int length) {
        Matcher place = PLACE.matcher(String.valueOf(e.getMessage()));
        long at = place.find() ? Long.parseLong(place.group(1)) : length;
        if (at < length - 2) {
            return text("the FIT data breaks at byte %d of %d", part.from() + at, content.length);
        }
        if (!part.sizeHolds() && part.to() < content.length) {
            return WRONG_SIZE;
        }
        return part.sizeHolds()
                ? text("the FIT data fails its checksum (bytes %d to %d)", part.from(), part.to())
                : text("the FIT data ends too early, at byte %d", part.to());
    }

    private static String text(String pattern, Object... values) {
        return String.format(Locale.ROOT, pattern, values);
    }
}
