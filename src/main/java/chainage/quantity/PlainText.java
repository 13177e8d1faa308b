package chainage.quantity;

import java.util.Locale;
import java.util.regex.Pattern;

/**
 * Text from files, file names and riders, made harmless for a terminal: control characters, escape sequences, direction
 * overrides and breaks of lines would be obeyed rather than shown.
 */
public final class PlainText {
    private static final Pattern BARE = Pattern.compile("[\\p{L}\\p{N}_.:/][\\p{L}\\p{N}_.:/-]*");
    /** Between double quotes a shell still runs $(…) and `…`, and takes \\ and ! for its own. */
    private static final Pattern BETWEEN_QUOTES = Pattern.compile("[^\"$`\\\\!]*");

    private PlainText() {}

    /** The text with a visible mark in place of each such character. */
    public static String marked(String text) {
        StringBuilder b = new StringBuilder(text.length());
        text.codePoints().forEach(c -> b.appendCodePoint(isObeyed(c) ? '\uFFFD' : c));
        return b.toString();
    }

    /**
     * The same JSON with each such character spelt out, as {@code \}{@code u202e}. Those below space are left alone: a
     * writer of JSON spells them out itself, and what is left of them stands between the values.
     */
    public static String escaped(String json) {
        StringBuilder b = new StringBuilder(json.length());
        json.codePoints().forEach(c -> {
            if (c < ' ' || !isObeyed(c)) {
                b.appendCodePoint(c);
                return;
            }
            for (char half : Character.toChars(c)) {
                b.append(String.format(Locale.ROOT, "\\u%04x", (int) half));
            }
        });
        return b.toString();
    }

    private static boolean isObeyed(int c) {
        int type = Character.getType(c);
        return type == Character.CONTROL
                || type == Character.FORMAT
                || type == Character.LINE_SEPARATOR
                || type == Character.PARAGRAPH_SEPARATOR
                || type == Character.SURROGATE;
    }

    /** A name as it may be pasted into a shell: quoted where it holds more than letters, digits and a few marks. */
    public static String typed(String name) {
        if (BARE.matcher(name).matches()) {
            return name;
        }
        return BETWEEN_QUOTES.matcher(name).matches() ? "\"" + name + "\"" : "'" + name.replace("'", "'\\''") + "'";
    }
}
