package chainage.logbook;

import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.regex.Matcher;
import org.jspecify.annotations.Nullable;

/**
 * What a program changes in a logbook that a rider writes: lines are put behind all others, in the file's own letters and
 * line ends, and lines that hold no more become notes where they stand. All else stays byte by byte.
 */
public final class Amendment {
    private final byte[] content;
    private final int same;

    private Amendment(byte[] content, int same) {
        this.content = content;
        this.same = same;
    }

    /** The whole of it. */
    public byte[] content() {
        return content.clone();
    }

    /** How many bytes at its beginning are as they were. */
    public int same() {
        return same;
    }

    /** What a line begins with that was taken back. */
    private static final String STRUCK = "# taken back: ";

    /**
     * Amends a logbook.
     *
     * @param content a logbook
     * @param strike lines that hold no more; what does not stand there is passed over
     * @param add lines to be written; one that was struck is brought back where it stands
     * @throws Refusal when the content is no text
     */
    public static Amendment of(byte[] content, Collection<String> strike, Collection<String> add) throws Refusal {
        String text =
                Letters.of(content).orElseThrow(() -> new Refusal("the logbook is not in UTF-8", "save it as UTF-8"));
        Sheet sheet = new Sheet(text);
        boolean inPlace = false;
        for (String line : strike) {
            inPlace |= sheet.strike(line);
        }
        List<String> behind = new ArrayList<>();
        for (String line : add) {
            if (sheet.bringBack(line)) {
                inPlace = true;
            } else {
                behind.add(line);
            }
        }
        String amended = sheet.with(behind);
        Letters.Writing writing = Letters.Writing.of(content);
        return inPlace
                ? new Amendment(joined(Arrays.copyOf(content, writing.mark()), amended.getBytes(writing.code())), 0)
                : new Amendment(
                        joined(content, amended.substring(text.length()).getBytes(writing.code())), content.length);
    }

    private static byte[] joined(byte[] first, byte[] then) {
        return ByteBuffer.allocate(first.length + then.length)
                .put(first)
                .put(then)
                .array();
    }

    /** The number of the line that would come behind all others. */
    static int next(byte[] content) {
        String[] lines = LogbookText.LINE_END.split(Letters.of(content).orElse(""), -1);
        return lines[lines.length - 1].isEmpty() ? lines.length : lines.length + 1;
    }

    /** The lines with their ends. */
    private static final class Sheet {
        private final List<String> lines = new ArrayList<>();
        private final List<String> ends = new ArrayList<>();

        Sheet(String text) {
            Matcher end = LogbookText.LINE_END.matcher(text);
            int from = 0;
            while (end.find()) {
                lines.add(text.substring(from, end.start()));
                ends.add(end.group());
                from = end.end();
            }
            lines.add(text.substring(from));
            ends.add("");
        }

        boolean strike(String line) {
            return replace(line, raw -> raw, raw -> STRUCK + raw);
        }

        boolean bringBack(String line) {
            return replace(
                    line,
                    raw -> raw.startsWith(STRUCK) ? raw.substring(STRUCK.length()) : "",
                    raw -> raw.substring(STRUCK.length()));
        }

        private interface Turn {
            String of(String raw);
        }

        /** The last one counts, as the last of equal lines is the one that is remembered no more. */
        private boolean replace(String line, Turn read, Turn write) {
            for (int i = lines.size() - 1; i > 0; i--) {
                if (line.equals(stated(read.of(lines.get(i))))) {
                    lines.set(i, write.of(lines.get(i)));
                    return true;
                }
            }
            return false;
        }

        private static @Nullable String stated(String raw) {
            try {
                Line line = LogbookText.line(1, raw);
                return line == null ? null : line.text();
            } catch (Refusal e) {
                return null;
            }
        }

        String with(List<String> behind) {
            StringBuilder text = new StringBuilder();
            for (int i = 0; i < lines.size(); i++) {
                text.append(lines.get(i)).append(ends.get(i));
            }
            String end = ends.get(0).isEmpty() ? "\n" : ends.get(0);
            if (!behind.isEmpty() && !lines.get(lines.size() - 1).isEmpty()) {
                text.append(end);
            }
            behind.forEach(line -> text.append(line).append(end));
            return text.toString();
        }
    }
}
