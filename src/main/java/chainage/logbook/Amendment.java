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

    /**
     * A line to be written. Where it was struck it is brought back; else it comes behind the struck line in whose place it
     * stands, so that the order stays; else behind all others.
     *
     * @param behind the line in whose place it stands; null for none
     */
    record Added(String text, @Nullable String behind) {}

    /** What a line begins with that was taken back. */
    private static final String STRUCK = "# taken back: ";

    /**
     * Amends a logbook.
     *
     * @param content a logbook
     * @param strike lines that hold no more; what does not stand there is passed over
     * @param add lines to be written
     * @throws Refusal when the content is no text
     */
    public static Amendment of(byte[] content, Collection<String> strike, Collection<Added> add) throws Refusal {
        String text =
                Letters.of(content).orElseThrow(() -> new Refusal("the logbook is not in UTF-8", "save it as UTF-8"));
        Sheet sheet = new Sheet(text);
        boolean inPlace = false;
        for (String line : strike) {
            inPlace |= sheet.strike(line);
        }
        List<String> behind = new ArrayList<>();
        for (Added line : add) {
            if (sheet.bringBack(line.text()) || sheet.putBehind(line.behind(), line.text())) {
                inPlace = true;
            } else {
                behind.add(line.text());
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
            return replace(line, Sheet::struck, raw -> raw.substring(STRUCK.length()));
        }

        /** Puts a line behind one that was struck; false where there is none. */
        boolean putBehind(@Nullable String struck, String line) {
            int at = struck == null ? -1 : find(struck, Sheet::struck);
            if (at < 0) {
                return false;
            }
            String end = ends.get(at).isEmpty() ? ends.get(0) : ends.get(at);
            lines.add(at + 1, line);
            ends.add(at + 1, ends.get(at));
            ends.set(at, end);
            return true;
        }

        private static String struck(String raw) {
            return raw.startsWith(STRUCK) ? raw.substring(STRUCK.length()) : "";
        }

        private interface Turn {
            String of(String raw);
        }

        private boolean replace(String line, Turn read, Turn write) {
            int at = find(line, read);
            if (at >= 0) {
                lines.set(at, write.of(lines.get(at)));
            }
            return at >= 0;
        }

        /** The last one counts, as the last of equal lines is the one that is remembered no more. */
        private int find(String line, Turn read) {
            int i = lines.size() - 1;
            while (i > 0 && !line.equals(stated(read.of(lines.get(i))))) {
                i--;
            }
            return i > 0 ? i : -1;
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
