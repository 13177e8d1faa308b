package chainage.weather;

/**
 * A line that could not be used; the lines around it were.
 *
 * @param line its number in the text, from 1
 * @param what what is wrong, with the value quoted, one line
 * @param hint what the rider can do, one line
 */
public record BadLine(long line, String what, String hint) {
    private static final int LONGEST_QUOTE = 40;

    /** A piece of foreign text, fit to be quoted in a message. */
    static String quote(String text) {
        return '"' + plain(text) + '"';
    }

    /** A piece of foreign text on one line, without control characters, not endless. */
    static String plain(String text) {
        String plain = text.strip().replaceAll("[\\p{Cntrl}\\p{Cf}]", "?");
        return plain.length() > LONGEST_QUOTE ? plain.substring(0, LONGEST_QUOTE - 1) + "…" : plain;
    }
}
