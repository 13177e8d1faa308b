package chainage.ledger;

import java.util.function.Predicate;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * How rides that match are treated.
 *
 * @param when what they must show
 * @param bike the bike they were on; null when the rule says only whether they count
 * @param counts whether they are rides at all; null when the rule says only the bike
 */
public record Rule(
        When when, @Nullable String bike, @Nullable Boolean counts) {

    /** The condition of a rule. */
    public sealed interface When {
        /** In words, as the rider would type it. */
        String words();
    }

    /** A sensor or device of this type and serial took part. */
    public record Sensor(String type, String serial) implements When {
        @Override
        public String words() {
            return "sensor " + type + ":" + serial;
        }
    }

    /**
     * A folder or file name.
     *
     * @param pattern matched against the path's folders and file name, without regard to case; {@code *} stands for any
     *     characters within one name; a pattern without {@code /} matches any one of them, one with {@code /} a run of
     *     them
     */
    public record Path(String pattern) implements When {
        @Override
        public String words() {
            return "path " + pattern;
        }

        /** Tells whether a path matches. */
        public Predicate<String> matcher() {
            StringBuilder regex = new StringBuilder("(?:^|[/!])");
            for (char c : pattern.strip().toCharArray()) {
                if (c == '*') {
                    regex.append("[^/!]*");
                } else if (c == '?') {
                    regex.append("[^/!]");
                } else {
                    regex.append(Pattern.quote(String.valueOf(c)));
                }
            }
            String end = pattern.endsWith("/") ? "" : "(?:$|[/!])";
            return Pattern.compile(regex + end, Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE)
                    .asPredicate();
        }
    }

    /** The file's sub-sport, as stated, lower case. */
    public record SubSport(String word) implements When {
        @Override
        public String words() {
            return "sub-sport " + word;
        }
    }

    /** Any ride that nothing else speaks for. */
    public record Otherwise() implements When {
        @Override
        public String words() {
            return "default";
        }
    }
}
