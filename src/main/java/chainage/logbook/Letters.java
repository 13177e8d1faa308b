package chainage.logbook;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.Optional;

/** Texts as phones, editors and spreadsheets write them. */
public final class Letters {
    private Letters() {}

    /** How a text is written. */
    enum Writing {
        UTF_8(StandardCharsets.UTF_8, 0),
        UTF_8_MARKED(StandardCharsets.UTF_8, 3),
        BIG_UTF_16(StandardCharsets.UTF_16BE, 2),
        LITTLE_UTF_16(StandardCharsets.UTF_16LE, 2);

        private final Charset code;
        private final int mark;

        Writing(Charset code, int mark) {
            this.code = code;
            this.mark = mark;
        }

        Charset code() {
            return code;
        }

        /** How many bytes say so before the text begins. */
        int mark() {
            return mark;
        }

        static Writing of(byte[] bytes) {
            if (starts(bytes, 0xEF, 0xBB, 0xBF)) {
                return UTF_8_MARKED;
            } else if (starts(bytes, 0xFE, 0xFF)) {
                return BIG_UTF_16;
            }
            return starts(bytes, 0xFF, 0xFE) ? LITTLE_UTF_16 : UTF_8;
        }
    }

    /** The text in UTF-8, or in UTF-16 with its mark; without the mark. Empty where it is neither. */
    public static Optional<String> of(byte[] bytes) {
        Writing writing = Writing.of(bytes);
        int from = writing.mark();
        try {
            return Optional.of(writing.code()
                    .newDecoder()
                    .decode(ByteBuffer.wrap(bytes, from, bytes.length - from))
                    .toString());
        } catch (CharacterCodingException e) {
            return Optional.empty();
        }
    }

    private static boolean starts(byte[] bytes, int... mark) {
        for (int i = 0; i < mark.length; i++) {
            if (i >= bytes.length || (bytes[i] & 0xFF) != mark[i]) {
                return false;
            }
        }
        return true;
    }
}
