package chainage.ridefile.xml;

import java.io.ByteArrayInputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The characters of an XML document: by its byte-order mark, else by its declaration, else UTF-8.
 *
 * <p>Decoded here and not by the parser, for two reasons. A byte that fits no character, such as one letter of a title
 * in another encoding, becomes U+FFFD and costs no ride. And the parser of the JDK prints such bytes to the standard
 * error itself (seen with 17.0.15), which belongs to the program.
 */
final class XmlText {
    private static final Pattern DECLARED =
            Pattern.compile("^\\s*<\\?xml[^>]{0,200}?encoding\\s*=\\s*[\"']([A-Za-z0-9._-]{1,40})[\"']");

    private XmlText() {}

    /**
     * Begins after the mark and after leading space, which is an error to a parser before a declaration, and common.
     * Ends before the zeros that a device may pad a file with.
     */
    static Reader reader(byte[] content) {
        int from = 0;
        Charset charset;
        if (begins(content, 0xEF, 0xBB, 0xBF)) {
            from = 3;
            charset = StandardCharsets.UTF_8;
        } else if (begins(content, 0xFE, 0xFF)) {
            from = 2;
            charset = StandardCharsets.UTF_16BE;
        } else if (begins(content, 0xFF, 0xFE)) {
            from = 2;
            charset = StandardCharsets.UTF_16LE;
        } else if (begins(content, 0, '<')) {
            charset = StandardCharsets.UTF_16BE;
        } else if (begins(content, '<', 0)) {
            charset = StandardCharsets.UTF_16LE;
        } else {
            charset = declared(content);
        }
        while (from < content.length && (content[from] == ' ' || (content[from] >= '\t' && content[from] <= '\r'))) {
            from++;
        }
        int to = content.length;
        while (to > from && content[to - 1] == 0) {
            to--;
        }
        if (charset.equals(StandardCharsets.UTF_16LE) && (to - from) % 2 == 1) {
            to++; // the second byte of its last letter
        }
        return new InputStreamReader(
                new ByteArrayInputStream(content, from, to - from),
                charset.newDecoder()
                        .onMalformedInput(CodingErrorAction.REPLACE)
                        .onUnmappableCharacter(CodingErrorAction.REPLACE));
    }

    private static Charset declared(byte[] content) {
        String head = new String(content, 0, Math.min(400, content.length), StandardCharsets.ISO_8859_1);
        Matcher name = DECLARED.matcher(head);
        try {
            // A declaration that reads as single bytes cannot be of UTF-16, whatever it says.
            return name.find()
                            && !name.group(1).toUpperCase(java.util.Locale.ROOT).startsWith("UTF-16")
                    ? Charset.forName(name.group(1))
                    : StandardCharsets.UTF_8;
        } catch (IllegalArgumentException e) {
            return StandardCharsets.UTF_8;
        }
    }

    private static boolean begins(byte[] content, int... bytes) {
        for (int i = 0; i < bytes.length; i++) {
            if (i >= content.length || (content[i] & 0xFF) != bytes[i]) {
                return false;
            }
        }
        return true;
    }
}
