package chainage.logbook;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.Optional;

/** Texts as phones, editors and spreadsheets write them. */
public final class Letters {
    private Letters() {}

    /** The text in UTF-8, or in UTF-16 with its mark; without the mark. Empty where it is neither. */
    public static Optional<String> of(byte[] bytes) {
        Charset code = StandardCharsets.UTF_8;
        int from = 0;
        if (starts(bytes, 0xEF, 0xBB, 0xBF)) {
            from = 3;
        } else if (starts(bytes, 0xFE, 0xFF)) {
            code = StandardCharsets.UTF_16BE;
            from = 2;
        } else if (starts(bytes, 0xFF, 0xFE)) {
            code = StandardCharsets.UTF_16LE;
            from = 2;
        }
        try {
            return Optional.of(code.newDecoder()
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
