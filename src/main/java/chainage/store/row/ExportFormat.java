package chainage.store.row;

import chainage.quantity.PlainText;
import chainage.quantity.UtcText;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.regex.Pattern;

/**
 * What the two directions of an export share. A field may be added, never renamed.
 */
public final class ExportFormat {
    public static final String NAME = "chainage-export";

    /** Of the format, not of the ledger's tables. */
    public static final int VERSION = 1;

    private static final Pattern HEAD =
            Pattern.compile("\\s*\\{\\s*\"format\"\\s*:\\s*\"" + NAME + "\".*", Pattern.DOTALL);

    private ExportFormat() {}

    /** True when these first bytes of a file promise an export. */
    public static boolean promises(byte[] head) {
        return HEAD.matcher(new String(head, StandardCharsets.ISO_8859_1)).matches();
    }

    public static String time(long millis) {
        return UtcText.of(Instant.ofEpochMilli(millis));
    }

    public static long millis(String time) {
        return UtcText.read(time).toEpochMilli();
    }

    /** One line: the kind of fact and its fields. */
    public static void line(Appendable out, String kind, JsonRow fields) throws IOException {
        out.append(PlainText.escaped(new JsonRow().with(kind, fields).toString()))
                .append('\n');
    }
}
