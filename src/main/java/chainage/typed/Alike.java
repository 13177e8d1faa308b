package chainage.typed;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;

/**
 * Words that may be meant by one that is none of them. They are told by the fewest letters put in, left out, exchanged, or
 * turned round with the next (Damerau, A technique for computer detection and correction of spelling errors, 1964).
 */
public final class Alike {
    /** Of so many letters one may be wrong; our choice. */
    private static final int LETTERS = 3;

    private Alike() {}

    /** The words nearest to what was typed, also those it begins or stands in; none where nothing is near. */
    static List<String> to(String typed, Collection<String> words) {
        String t = typed.toLowerCase(Locale.ROOT);
        List<String> near = new ArrayList<>();
        int least = Math.max(1, t.length() / LETTERS);
        for (String word : new LinkedHashSet<>(words)) {
            String w = word.toLowerCase(Locale.ROOT);
            int steps = steps(t, w);
            if (steps <= least && steps < Math.max(t.length(), w.length())) {
                if (steps < least) {
                    near.clear();
                    least = steps;
                }
                near.add(word);
            }
        }
        if (near.isEmpty() && t.length() > 1) {
            words.stream()
                    .filter(w -> w.toLowerCase(Locale.ROOT).contains(t))
                    .limit(4)
                    .forEach(near::add);
        }
        return near;
    }

    /** The question to ask, or what else to say where nothing is near. */
    public static String hint(String typed, Collection<String> words, String otherwise) {
        List<String> near = to(typed, words);
        return near.isEmpty() ? otherwise : question(near);
    }

    /** Asks whether one of these is meant. */
    public static String question(List<String> meant) {
        return "did you mean " + String.join(", ", meant).replaceFirst(", ([^,]*)$", " or $1") + "?";
    }

    /** How many steps lead from one word to the other, each letter moved at most once. */
    static int steps(String from, String to) {
        int[] before = new int[0];
        int[] last = new int[to.length() + 1];
        for (int j = 0; j <= to.length(); j++) {
            last[j] = j;
        }
        for (int i = 1; i <= from.length(); i++) {
            int[] now = new int[to.length() + 1];
            now[0] = i;
            for (int j = 1; j <= to.length(); j++) {
                boolean same = from.charAt(i - 1) == to.charAt(j - 1);
                now[j] = Math.min(Math.min(now[j - 1], last[j]) + 1, last[j - 1] + (same ? 0 : 1));
                if (i > 1
                        && j > 1
                        && from.charAt(i - 1) == to.charAt(j - 2)
                        && from.charAt(i - 2) == to.charAt(j - 1)) {
                    now[j] = Math.min(now[j], before[j - 2] + 1);
                }
            }
            before = last;
            last = now;
        }
        return last[to.length()];
    }
}
