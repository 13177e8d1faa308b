package chainage.condition;

import java.text.Normalizer;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * A text cut into words: runs of letters and digits, and each pictograph and each Chinese or Japanese sign by itself. In names, digits and capitals cut
 * too ("wetRide2", "GPXRain").
 */
final class RoadText {
    /** What stands between a word and the one before, weakest first. */
    enum Gap {
        /** A hyphen, apostrophe or slash alone, or nothing. */
        JOIN,
        SPACE,
        COMMA,
        /** The clause ends. */
        BREAK
    }

    /**
     * A word.
     *
     * @param key lower case, composed (NFC)
     * @param shown as written, composed
     * @param joint the character of a JOIN gap before it, else a space
     * @param asked whether its clause ends with a question mark
     */
    record Token(String key, String shown, Gap gap, char joint, boolean asked) {}

    /** Of Katakana, though it counts as a letter of several scripts. */
    private static final int LONG_VOWEL = 0x30FC;

    private RoadText() {}

    /** The words in their order; empty where there are none. */
    static List<Token> of(String text, boolean name) {
        String composed = Normalizer.normalize(text, Normalizer.Form.NFC);
        List<Token> tokens = new ArrayList<>();
        int clause = 0;
        int gapFrom = 0;
        int i = 0;
        while (i < composed.length()) {
            int c = composed.codePointAt(i);
            if (!isWord(c, name)) {
                if (!name
                        && c == '?'
                        && !(tokens.isEmpty() || tokens.get(tokens.size() - 1).asked())) {
                    ask(tokens, clause);
                }
                i += Character.charCount(c);
                continue;
            }
            int end = wordEnd(composed, i, name);
            String between = composed.substring(gapFrom, i);
            Gap gap = tokens.isEmpty() ? Gap.BREAK : gap(between, name);
            if (gap == Gap.BREAK) {
                clause = tokens.size();
            }
            String shown = composed.substring(i, end);
            char joint = gap == Gap.JOIN && !between.isEmpty() ? between.charAt(0) : ' ';
            tokens.add(new Token(shown.toLowerCase(Locale.ROOT), shown, gap, joint, false));
            i = end;
            gapFrom = end;
        }
        return tokens;
    }

    /** What a word or phrase is listed under: the keys of its words, joined by spaces. */
    static String key(String phrase) {
        return String.join(" ", of(phrase, false).stream().map(Token::key).toList());
    }

    private static void ask(List<Token> tokens, int clause) {
        for (int k = clause; k < tokens.size(); k++) {
            Token t = tokens.get(k);
            tokens.set(k, new Token(t.key(), t.shown(), t.gap(), t.joint(), true));
        }
    }

    private static int wordEnd(String s, int from, boolean name) {
        int first = s.codePointAt(from);
        int i = from + Character.charCount(first);
        if (isPictograph(first) || unspaced(first)) {
            return i;
        }
        int before = first;
        while (i < s.length()) {
            int c = s.codePointAt(i);
            if (unspaced(c)) {
                break;
            }
            if (!isLetterOrMark(c) && (name || !Character.isDigit(c))) {
                break;
            }
            if (name && Character.isUpperCase(c)) {
                int next = i + Character.charCount(c);
                boolean lowerNext = next < s.length() && Character.isLowerCase(s.codePointAt(next));
                if (Character.isLowerCase(before) || (Character.isUpperCase(before) && lowerNext)) {
                    break;
                }
            }
            before = c;
            i += Character.charCount(c);
        }
        return i;
    }

    private static boolean isWord(int c, boolean name) {
        return Character.isLetter(c) || isPictograph(c) || (!name && Character.isDigit(c));
    }

    /** True for a sign of a script whose words stand without spaces; each is a word, and phrases are listed. */
    static boolean unspaced(int c) {
        Character.UnicodeScript script = Character.UnicodeScript.of(c);
        return script == Character.UnicodeScript.HAN
                || script == Character.UnicodeScript.HIRAGANA
                || script == Character.UnicodeScript.KATAKANA
                || c == LONG_VOWEL;
    }

    private static boolean isPictograph(int c) {
        return Character.getType(c) == Character.OTHER_SYMBOL;
    }

    /** A mark that no composed letter takes up stays with its letter, so that the word is not cut there. */
    private static boolean isLetterOrMark(int c) {
        return Character.isLetter(c) || Character.getType(c) == Character.NON_SPACING_MARK;
    }

    private static Gap gap(String between, boolean name) {
        if (between.isEmpty()) {
            return Gap.JOIN;
        }
        if (name) {
            return between.indexOf('/') >= 0 || between.indexOf('\\') >= 0 ? Gap.BREAK : Gap.SPACE;
        }
        if (between.length() == 1 && "-'/\u2019\u2010\u2011".indexOf(between.charAt(0)) >= 0) {
            return Gap.JOIN;
        }
        Gap gap = Gap.SPACE;
        for (int i = 0; i < between.length(); i++) {
            char c = between.charAt(i);
            if (c == ',') {
                gap = gap == Gap.BREAK ? gap : Gap.COMMA;
            } else if (".;:!?()[]{}/|+\n\r\u2013\u2014\u2026-=>\u2192".indexOf(c) >= 0) {
                gap = Gap.BREAK;
            }
        }
        return gap;
    }
}
