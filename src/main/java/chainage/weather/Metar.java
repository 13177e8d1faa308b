package chainage.weather;

import java.time.Instant;
import java.time.YearMonth;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Reads airfield reports, METAR and SPECI, from text: plain, ended by {@code =} or not, continued over lines, with
 * timestamps in front or on a line before, or as a column of a table. Only what a road feels is taken.
 *
 * <p>An amount is for the hour before a routine report. That of a SPECI is part of the next routine report's, so it is
 * left to that one. Memory does not grow with the text.
 */
public final class Metar {
    private static final Pattern START = Pattern.compile(
            "(?<![A-Z0-9])(?:(METAR|SPECI)\\s+)?(?:COR\\s+)?([A-Z][A-Z0-9]{3})\\s+(\\d{2})(\\d{2})(\\d{2})Z(?![A-Z0-9])");

    private static final Pattern CONTINUED = Pattern.compile("[A-Z0-9/+\\-$.\\s]+");
    private static final Pattern BULLETIN = Pattern.compile("[A-Z]{4}\\d{0,2} [A-Z]{4} \\d{6}.*|\\d{1,5}|METAR|SPECI");
    private static final Pattern FORECAST_SPAN = Pattern.compile("\\d{4}/\\d{4}");
    private static final int AN_HOUR = 3600;
    /** The longest report seen in the code form's examples has some 400 characters. */
    private static final int LONGEST = 4000;

    private final ReportTime time;
    private final Place place;
    private final Consumer<Observation> out;
    private final Consumer<BadLine> bad;

    private final StringBuilder open = new StringBuilder();
    private long openLine;
    private @Nullable Instant openStamp;
    private @Nullable Instant stamp;
    private long read;
    private long kept;
    private long refused;

    private Metar(@Nullable YearMonth month, Place place, Consumer<Observation> out, Consumer<BadLine> bad) {
        this.time = new ReportTime(month);
        this.place = place;
        this.out = out;
        this.bad = bad;
    }

    /**
     * Reads all reports.
     *
     * @param lines of the text
     * @param month of reports that carry only day and hour and have no timestamp before them; null when not known
     * @param place of the station; {@link Place#UNKNOWN} when the rider did not say
     * @param out takes each observation, in the order of the text
     * @param bad takes each line that cannot be used
     */
    public static Tally read(
            Iterator<String> lines,
            @Nullable YearMonth month,
            Place place,
            Consumer<Observation> out,
            Consumer<BadLine> bad) {
        Metar metar = new Metar(month, place, out, bad);
        long number = 0;
        while (lines.hasNext()) {
            metar.line(++number, lines.next());
        }
        metar.close();
        return new Tally(metar.read, metar.kept, metar.refused);
    }

    /** The month that a file's name holds, as in {@code metar-2026-03.txt}; empty when it holds none, or several. */
    public static Optional<YearMonth> monthIn(String fileName) {
        return ReportTime.monthIn(fileName);
    }

    /** True when the line holds the start of a report: what tells such a text from a table of amounts. */
    public static boolean isReport(String line) {
        return START.matcher(line).find();
    }

    private void line(long number, String line) {
        Matcher m = START.matcher(line);
        int at = 0;
        boolean started = false;
        // A second report on a line stands after an end sign or says its kind: words of a remark may look like one.
        while (m.find()) {
            String between = line.substring(at, m.start());
            if (started && m.group(1) == null && !between.contains("=")) {
                continue;
            }
            if (started) {
                more(between);
            }
            close();
            Instant here = ReportTime.stampIn(between);
            openStamp = here != null ? here : stamp;
            stamp = null;
            openLine = number;
            if (between.stripTrailing().endsWith("TAF")) {
                open.append("TAF ");
            }
            at = m.start();
            started = true;
        }
        String rest = line.substring(at);
        if (started) {
            more(rest);
        } else if (line.isBlank()) {
            close();
        } else if (open.length() > 0 && CONTINUED.matcher(endless(line)).matches()) {
            more(line);
        } else {
            close();
            unused(number, line.strip());
        }
    }

    private static String endless(String line) {
        return line.replace('=', ' ');
    }

    /** Adds to the open report; an end sign, a quote or a column's end closes it. */
    private void more(String text) {
        int end = 0;
        while (end < text.length() && "=\",;".indexOf(text.charAt(end)) < 0) {
            end++;
        }
        if (open.length() < LONGEST) {
            open.append(text, 0, end).append(' ');
        }
        if (end < text.length()) {
            close();
        }
    }

    private void unused(long number, String line) {
        Instant here = ReportTime.stampIn(line);
        if (here != null && line.length() <= "2026-03-04T11:53:00Z".length()) {
            stamp = here;
            return;
        }
        boolean heading =
                line.startsWith("#") || BULLETIN.matcher(line).matches() || (number == 1 && line.contains(","));
        if (!heading) {
            refuse(
                    number,
                    "no report in " + BadLine.quote(line),
                    "remove the line, or put METAR, station and time first");
        }
    }

    private void refuse(long number, String what, String hint) {
        refused++;
        bad.accept(new BadLine(number, what, hint));
    }

    private void close() {
        if (open.length() == 0) {
            return;
        }
        String report = open.toString().strip();
        open.setLength(0);
        read++;
        Matcher m = START.matcher(report);
        if (!m.find()) {
            throw new AssertionError(report);
        }
        String after = report.substring(m.end()).strip();
        List<String> groups = after.isEmpty() ? List.of() : List.of(after.split("\\s+", -1));
        if (report.startsWith("TAF ")
                || (!groups.isEmpty() && FORECAST_SPAN.matcher(groups.get(0)).matches())) {
            refuse(openLine, "a forecast: " + BadLine.quote(report), "only reports of what was seen count");
            return;
        }
        if (groups.isEmpty()) {
            refuse(openLine, "nothing after the time in " + BadLine.quote(report), "complete or remove the report");
            return;
        }
        MetarReport r = MetarReport.of(groups);
        if (r.nil()) {
            return;
        }
        try {
            Instant at = time.of(m.group(2), number(m, 3), number(m, 4), number(m, 5), openStamp);
            observe(m.group(2), at, "SPECI".equals(m.group(1)), r);
        } catch (WeatherException e) {
            refuse(openLine, m.group(2) + ": " + e.what(), e.hint());
        }
    }

    private static int number(Matcher m, int group) {
        return Integer.parseInt(m.group(group));
    }

    private void observe(String station, Instant at, boolean special, MetarReport r) {
        boolean amount = !special && !Double.isNaN(r.millimetres());
        Observation o = new Observation(
                station,
                place,
                at,
                amount ? AN_HOUR : 0,
                amount ? r.millimetres() : Double.NaN,
                new Seen(r.weather() == null ? Fall.UNSTATED : r.weather().fall(), r.recent(), amount && r.trace()),
                r.air());
        if (o.tellsOfRain() || !Double.isNaN(o.air().celsius())) {
            kept++;
            out.accept(o);
        }
    }
}
