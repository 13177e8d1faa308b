package chainage.logbook;

import chainage.ledger.Event;
import chainage.quantity.ContentDigest;
import chainage.quantity.PlainText;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoField;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * A logbook's text. Its first line is {@code chainage logbook}; each other one is empty, a note that starts with #, or a
 * date, perhaps a time and its offset from UTC, and the words of a command.
 *
 * @param lines that may state something, by their numbers
 * @param refused that cannot, by their numbers
 */
public record LogbookText(List<Line> lines, List<Event.RefusedLine> refused) {
    /** The first line. */
    public static final String FIRST = "chainage logbook";

    /** Bytes; a rider's lifetime of notes is a tenth of it. Our choice. */
    public static final int LARGEST = 8 << 20;

    /** Characters of a line; our choice. */
    public static final int LONGEST = 4000;

    private static final int MOST_LINES = 100_000;

    static final Pattern LINE_END = Pattern.compile("\r\n|[\n\r\u2028\u2029\u0085]");

    private static final Pattern TIME = Pattern.compile(
            "(\\d{1,2})[:.](\\d\\d)(?:[:.](\\d\\d)(\\.\\d{1,9})?)?(Z|z|[+-]\\d\\d:?\\d\\d|(?i:[ap]\\.?m\\.?))?");
    private static final Pattern HALF = Pattern.compile("(?i)([ap])\\.?m\\.?");

    /** What an app for notes puts before each line of a list. */
    private static final Pattern BULLET =
            Pattern.compile("[-*+\u2013\u2014\u2022\u2023\u25aa\u25e6\u00b7\u2610-\u2612\u2713\u2714]");

    private static final Pattern OFFSET = Pattern.compile("Z|z|[+-]\\d\\d:?\\d\\d");
    private static final String EXAMPLE = "write it such as 2026-03-01 19:30 treat …";

    public LogbookText {
        lines = List.copyOf(lines);
        refused = List.copyOf(refused);
    }

    /** Whether a content that begins so is a logbook. */
    public static boolean promises(byte[] head) {
        // Without its NULs and its mark a text in UTF-16 reads like one in a one-byte code.
        String text = new String(head, 0, Math.min(head.length, 200), StandardCharsets.ISO_8859_1)
                .replace("\0", "")
                .replaceAll("\u00c2?\u00a0", " ")
                .replaceFirst("^(\u00ef\u00bb\u00bf|\u00fe\u00ff|\u00ff\u00fe)", "");
        return text.toLowerCase(Locale.ROOT).matches("(?s)\\s*chainage logbook[ \\t]*(#[^\\r\\n]*)?([\\r\\n].*)?");
    }

    /**
     * Reads a logbook.
     *
     * @throws Refusal when it is no text, or larger than any
     */
    public static LogbookText of(byte[] content) throws Refusal {
        if (content.length > LARGEST) {
            throw new Refusal("larger than " + (LARGEST >> 20) + " MB, as no logbook is", "cut it into years");
        }
        Optional<String> text = Letters.of(content);
        if (text.isEmpty()) {
            throw new Refusal("the logbook is not in UTF-8", "save it as UTF-8");
        }
        return of(text.get());
    }

    /** As {@link #of(byte[])}, of what is a text already. */
    public static LogbookText of(String text) throws Refusal {
        if (text.chars().anyMatch(c -> (c < ' ' && !Character.isWhitespace(c)) || c == 0x7f || c == 0x9b)) {
            throw new Refusal(
                    "the logbook holds characters that steer a terminal, so it is no plain text",
                    "save it as plain text");
        }
        List<Line> lines = new ArrayList<>();
        List<Event.RefusedLine> refused = new ArrayList<>();
        String[] all = LINE_END.split(text, -1);
        if (all.length > MOST_LINES) {
            throw new Refusal("the logbook has " + all.length + " lines, as none has", "cut it into years");
        }
        boolean begun = false;
        for (int i = 0; i < all.length; i++) {
            String line = all[i];
            if (!begun) {
                // The line that says what the file is.
                begun = !line.isBlank();
                continue;
            }
            if (line.length() > LONGEST) {
                throw new Refusal(
                        "line " + (i + 1) + " has " + line.length() + " characters, as none has",
                        "write one fact a line");
            }
            try {
                Line read = line(i + 1, line);
                if (read != null) {
                    lines.add(read);
                }
            } catch (Refusal e) {
                refused.add(new Event.RefusedLine(i + 1, shown(line), e.reason()));
            }
        }
        return new LogbookText(lines, refused);
    }

    /** Of the lines in their order. */
    public String digest() {
        StringBuilder all = new StringBuilder();
        lines.forEach(l -> all.append(l.text()).append('\n'));
        return ContentDigest.of(all.toString().getBytes(StandardCharsets.UTF_8)).hex();
    }

    static String shown(String line) {
        String plain = PlainText.marked(line.strip());
        return plain.length() > 200 ? plain.substring(0, 200) + "…" : plain;
    }

    /**
     * Reads one line.
     *
     * @return null where it states nothing and is not meant to
     * @throws Refusal when it is neither a note nor a date with words
     */
    static @Nullable Line line(int number, String line) throws Refusal {
        List<String> words = new ArrayList<>(Words.of(line));
        if (words.isEmpty()) {
            return null;
        }
        if (words.size() > 1 && BULLET.matcher(words.get(0)).matches()) {
            words.remove(0);
        }
        String date = date(words);
        Matcher joined =
                Pattern.compile("(\\d{4}.\\d\\d.\\d\\d)[Tt](\\d\\d:.*)").matcher(date);
        if (joined.matches()) {
            date = joined.group(1);
            words.add(0, joined.group(2));
        }
        LocalDate day = day(date);
        LocalTime time = null;
        ZoneOffset offset = null;
        Matcher m = TIME.matcher(words.isEmpty() ? "" : words.get(0));
        if (m.matches()) {
            String zone = m.group(5);
            String half = zone != null && HALF.matcher(zone).matches() ? zone : "";
            String typed = words.remove(0);
            if (zone == null && !words.isEmpty() && HALF.matcher(words.get(0)).matches()) {
                half = words.remove(0);
            }
            time = time((typed + " " + half).strip(), m, half);
            if (zone != null && half.isEmpty()) {
                offset = offset(zone);
            } else if (!words.isEmpty() && OFFSET.matcher(words.get(0)).matches()) {
                offset = offset(words.remove(0));
            }
        }
        if (!words.isEmpty() && words.get(0).equals("chainage")) {
            words.remove(0); // pasted from a terminal
        }
        if (words.isEmpty()) {
            throw new Refusal("nothing follows the date", EXAMPLE + ", or put # before a note");
        }
        return new Line(number, day, time, offset, words);
    }

    /** Takes the words of a date: one, or three as in 1 March 2026, with what parts it from the rest. */
    private static String date(List<String> words) {
        String first = words.get(0);
        if (words.size() > 3 && Days.of(first, Days.Order.UNKNOWN).isEmpty()) {
            String three = String.join(" ", words.subList(0, 3)).replaceFirst("[,:;]$", "");
            if (!Days.of(three, Days.Order.UNKNOWN).isEmpty()) {
                words.subList(0, 3).clear();
                return three;
            }
        }
        return words.remove(0).replaceFirst("[,:;]$", "");
    }

    private static LocalDate day(String word) throws Refusal {
        List<LocalDate> days = Days.of(word, Days.Order.UNKNOWN);
        if (days.size() == 1) {
            return days.get(0);
        }
        throw days.isEmpty()
                ? new Refusal(
                        "\"" + shown(word) + "\" is no date",
                        "begin with one such as 2026-03-01, or put # before a note")
                : new Refusal(
                        "\"" + word + "\" can be " + days.get(0) + " or " + days.get(1), "write the one that it was");
    }

    /** @param half of the day, such as pm; empty where hours go to 24 */
    private static LocalTime time(String word, Matcher m, String half) throws Refusal {
        try {
            int hour = Integer.parseInt(m.group(1));
            if (!half.isEmpty()) {
                ChronoField.CLOCK_HOUR_OF_AMPM.checkValidValue(hour);
                hour = hour % 12 + (half.toLowerCase(Locale.ROOT).startsWith("p") ? 12 : 0);
            }
            return LocalTime.of(
                    hour,
                    Integer.parseInt(m.group(2)),
                    m.group(3) == null ? 0 : Integer.parseInt(m.group(3)),
                    m.group(4) == null
                            ? 0
                            : new BigDecimal(m.group(4)).movePointRight(9).intValue());
        } catch (DateTimeException e) {
            throw new Refusal("\"" + word + "\" is no time of day", EXAMPLE);
        }
    }

    private static ZoneOffset offset(String word) throws Refusal {
        try {
            return ZoneOffset.of(word.toUpperCase(Locale.ROOT));
        } catch (DateTimeException e) {
            throw new Refusal("\"" + word + "\" is no offset from UTC", "write it such as +02:00 or Z");
        }
    }
}
