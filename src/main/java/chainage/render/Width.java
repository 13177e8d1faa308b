package chainage.render;

import java.lang.Character.UnicodeScript;
import java.util.Set;

/**
 * How many columns of a terminal a text takes: two for the wide letters of East Asian scripts and for pictures (Unicode
 * Standard Annex 11), none for marks set upon the letter before.
 */
public final class Width {
    private static final Set<UnicodeScript> WIDE = Set.of(
            UnicodeScript.HAN,
            UnicodeScript.HIRAGANA,
            UnicodeScript.KATAKANA,
            UnicodeScript.HANGUL,
            UnicodeScript.BOPOMOFO,
            UnicodeScript.YI);

    private Width() {}

    /** Columns that a text takes. */
    public static int of(String text) {
        // Most texts are plain, and every word of every answer comes by here.
        for (int i = 0; i < text.length(); i++) {
            if (text.charAt(i) > 0x2ff) {
                return text.codePoints().map(Width::of).sum();
            }
        }
        return text.length();
    }

    private static int of(int letter) {
        return switch (Character.getType(letter)) {
            case Character.NON_SPACING_MARK, Character.ENCLOSING_MARK, Character.FORMAT -> 0;
            default -> isWide(letter) ? 2 : 1;
        };
    }

    private static boolean isWide(int letter) {
        if (letter < 0x1100) {
            return false;
        }
        boolean half = letter >= 0xff61 && letter <= 0xffdc;
        return !half
                && ((letter >= 0x3000 && letter <= 0x303e)
                        || (letter >= 0xff01 && letter <= 0xffe6)
                        || (letter >= 0x1f300 && letter <= 0x1faff)
                        || WIDE.contains(UnicodeScript.of(letter)));
    }

    /** The beginning of a text that takes no more than so many columns. */
    public static String cut(String text, int columns) {
        int taken = 0;
        for (int i = 0; i < text.length(); i += Character.charCount(text.codePointAt(i))) {
            taken += of(text.codePointAt(i));
            if (taken > columns) {
                return text.substring(0, i);
            }
        }
        return text;
    }

    /** The text cut or filled up with spaces, so that it takes just so many columns. */
    public static String fitted(String text, int columns) {
        String cut = cut(text, columns);
        return cut + " ".repeat(columns - of(cut));
    }
}
