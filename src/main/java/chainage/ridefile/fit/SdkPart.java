package chainage.ridefile.fit;

import com.garmin.fit.Decode;
import java.io.ByteArrayInputStream;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** Runs the SDK over one part and keeps what it delivered before it stopped. */
final class SdkPart {
    /** The SDK reads ahead, so only its message says where it stopped. */
    private static final Pattern PLACE = Pattern.compile("at byte: (\\d{1,9})");

    private static final String WRONG_SIZE = "the FIT header states a wrong size";

    private SdkPart() {}

    /**
     * Pushes the part's messages into {@code listener}; answers what went wrong, or null. The SDK signals broken data by
     * unchecked exceptions of many classes, thrown after the messages before them: this is where they end.
     */
    static @Nullable String run(byte[] content, FitParts.Part part, Message.Listener listener) {
        ByteArrayInputStream in = new ByteArrayInputStream(FitParts.decodable(content, part));
        try {
            new Decode().read(in, m -> listener.on(new Message.OfSdk(m)));
        } catch (RuntimeException e) {
            return reason(e, content, part);
        }
        return part.sizeHolds() ? null : sizeReason(content, part);
    }

    private static String reason(RuntimeException e, byte[] content, FitParts.Part part) {
        int length = part.to() - part.from();
        Matcher place = PLACE.matcher(String.valueOf(e.getMessage()));
        long at = place.find() ? Long.parseLong(place.group(1)) : length;
        if (at < length - 2) {
            return text("the FIT data breaks at byte %d of %d", part.from() + at, content.length);
        }
        return part.sizeHolds()
                ? text("the FIT data fails its checksum (bytes %d to %d)", part.from(), part.to())
                : sizeReason(content, part);
    }

    private static String sizeReason(byte[] content, FitParts.Part part) {
        if (part.to() < content.length || (part.statedTo() >= 0 && part.statedTo() < part.to())) {
            return WRONG_SIZE;
        }
        return text(
                part.lacksChecksum()
                        ? "the FIT data lacks its checksum, at byte %d"
                        : "the FIT data ends too early, at byte %d",
                part.to());
    }

    private static String text(String pattern, Object... values) {
        return String.format(Locale.ROOT, pattern, values);
    }
}
