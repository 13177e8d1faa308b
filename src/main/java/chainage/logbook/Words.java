package chainage.logbook;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * A line's words: parted by spaces, quoted as in a shell. Quotes and dashes that a phone has made beautiful are taken for
 * what was typed; an apostrophe within a word is one.
 */
final class Words {
    private static final String DOUBLE = "\"\u201c\u201d\u201e\u00ab\u00bb\u201f\uff02";
    private static final String SINGLE = "'\u2018\u2019\u201a\u2039\u203a\uff07";

    private static final String NOTE = "#\uff03";

    /** Marks without width that say which way a text runs or where it may break; they come along with what is pasted. */
    private static final Pattern UNSEEN =
            Pattern.compile("[\u00ad\u200b\u200e\u200f\u202a-\u202e\u2060\u2066-\u2069\ufeff]");

    private final String line;
    private final List<String> words = new ArrayList<>();
    private int at;

    private Words(String line) {
        this.line = line;
    }

    /**
     * Parts a line; a word that starts with # and all behind it is a note.
     *
     * @throws Refusal where a quote is not closed
     */
    static List<String> of(String line) throws Refusal {
        return new Words(line).parted();
    }

    private List<String> parted() throws Refusal {
        while (at < line.length()) {
            char c = line.charAt(at);
            if (isSpace(c)) {
                at++;
            } else if (isIn(NOTE, c)) {
                break;
            } else {
                word().ifPresent(words::add);
            }
        }
        return words;
    }

    /** Empty where it is made of what cannot be seen. */
    private Optional<String> word() throws Refusal {
        StringBuilder word = new StringBuilder();
        boolean quoted = false;
        while (at < line.length() && !isSpace(line.charAt(at))) {
            char c = line.charAt(at);
            boolean start = word.length() == 0 || word.charAt(word.length() - 1) == '=';
            if (isIn(DOUBLE, c) || (start && isIn(SINGLE, c))) {
                quoted |= word.length() == 0;
                quote(word, isIn(DOUBLE, c) ? DOUBLE : SINGLE);
            } else if (c == '\\' && at + 1 < line.length()) {
                word.append(line.charAt(at + 1));
                at += 2;
            } else {
                word.append(c);
                at++;
            }
        }
        String plain = quoted ? word.toString() : plain(word.toString());
        return quoted || !plain.isEmpty() ? Optional.of(plain) : Optional.empty();
    }

    private void quote(StringBuilder word, String marks) throws Refusal {
        int begun = at++;
        while (at < line.length()) {
            char c = line.charAt(at);
            if (isIn(marks, c) && !isApostrophe(marks)) {
                at++;
                return;
            }
            if (c == '\\'
                    && marks.equals(DOUBLE)
                    && at + 1 < line.length()
                    && isIn(DOUBLE + "\\", line.charAt(at + 1))) {
                at++;
            }
            word.append(line.charAt(at++));
        }
        throw new Refusal(
                "the quote at " + line.substring(begun, Math.min(line.length(), begun + 12)) + " is not closed",
                "write \"…\" around what belongs together");
    }

    /** Within single quotes a mark between two letters closes nothing. */
    private boolean isApostrophe(String marks) {
        return marks.equals(SINGLE)
                && at + 1 < line.length()
                && Character.isLetter(line.charAt(at - 1))
                && Character.isLetter(line.charAt(at + 1));
    }

    /** What a phone makes of two hyphens, of a hyphen, and of dots; figures and signs as other scripts write them. */
    private static String plain(String word) {
        if (isAscii(word)) {
            return word;
        }
        StringBuilder plain = new StringBuilder();
        UNSEEN.matcher(word).replaceAll("").codePoints().forEach(c -> plain.appendCodePoint(plain(c)));
        return plain.toString()
                .replaceFirst("^[\u2014\u2015](?=\\p{L})|^\u2013(?=\\p{L}{2})", "--")
                .replaceAll("[\u2010\u2011\u2012\u2013\u2212]", "-")
                .replace("\u2026", "..");
    }

    private static boolean isAscii(String word) {
        for (int i = 0; i < word.length(); i++) {
            if (word.charAt(i) >= 0x80) {
                return false;
            }
        }
        return true;
    }

    private static int plain(int c) {
        if (Character.isDigit(c)) {
            return '0' + Character.digit(c, 10);
        }
        // The block of wide forms has the signs of ASCII in their order.
        boolean wide = c > 0xff00 && c < 0xff5f && !Character.isLetter(c);
        return wide ? c - 0xfee0 : c;
    }

    /** The word as {@link #of} reads it back. */
    static String quoted(String word) {
        boolean plain =
                !word.isEmpty() && !isIn(NOTE, word.charAt(0)) && word.equals(plain(word)) && !needsQuotes(word);
        if (plain) {
            return word;
        }
        StringBuilder quoted = new StringBuilder("\"");
        for (int i = 0; i < word.length(); i++) {
            char c = word.charAt(i);
            quoted.append(isIn(DOUBLE + "\\", c) ? "\\" : "").append(c);
        }
        return quoted.append('"').toString();
    }

    private static boolean needsQuotes(String word) {
        for (int i = 0; i < word.length(); i++) {
            char c = word.charAt(i);
            if (isSpace(c) || c == '\\' || isIn(DOUBLE + SINGLE, c)) {
                return true;
            }
        }
        return false;
    }

    private static boolean isIn(String marks, char c) {
        return marks.indexOf(c) >= 0;
    }

    static boolean isSpace(char c) {
        return Character.isWhitespace(c) || Character.isSpaceChar(c);
    }
}
