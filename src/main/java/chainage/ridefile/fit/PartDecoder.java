package chainage.ridefile.fit;

import org.jspecify.annotations.Nullable;

/**
 * Decodes one part: by our own reader where the part is whole and plain, as nearly all are, and by the SDK where it is
 * not. Both deliver the same messages, so it never shows which one it was.
 */
final class PartDecoder {
    private PartDecoder() {}

    static PartMessages decode(byte[] content, FitParts.Part part) {
        PartMessages messages = new PartMessages();
        String broken = run(content, part, messages);
        String newer = FitParts.newerProtocol(content, part);
        if (!newer.isEmpty()) {
            String said = "FIT protocol " + newer + " is newer than this program knows";
            messages.remark(said + ": read as far as it does");
            broken = broken == null ? null : said + "; " + broken;
        }
        messages.ended(broken, !part.sizeHolds() && part.to() == content.length);
        return messages;
    }

    /** Pushes the part's messages into {@code listener}; answers what went wrong, or null. */
    static @Nullable String run(byte[] content, FitParts.Part part, Message.Listener listener) {
        PlainPart plain = PlainPart.of(content, part);
        if (plain == null) {
            return SdkPart.run(content, part, listener);
        }
        plain.run(listener);
        return null;
    }
}
