package chainage.weather;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.regex.Pattern;

/**
 * Reads a table of amounts in mm, hourly or finer, one row a line, with temperature and humidity where it has them.
 * Cells may be quoted and separated by comma, semicolon or tab; decimals may have a comma.
 *
 * <p>An amount is for the time between rows: the most common step of some hundred rows around it, so that a table whose
 * step changes over the years, or that has holes, is read right. Memory does not grow with the table.
 */
public final class PrecipitationCsv {
    /** Rows held back to find their step. */
    private static final int CHUNK = 512;

    /** Titles and notes may stand before the header. */
    private static final int HEADER_WITHIN = 40;

    /** A header may stand in a note. */
    private static final Pattern MARKED = Pattern.compile("^#\\s*");

    private static final int AN_HOUR = 3600;
    /** Coarser amounts say too little about when it rained. */
    private static final int COARSEST = 3 * AN_HOUR;

    private final CsvHeader header;
    private final CsvOptions options;
    private final Consumer<Observation> out;
    private final Consumer<BadLine> bad;
    private final TableTime times;
    private final CsvReader.CsvReaderBuilder cells;
    private final List<TableRow> chunk = new ArrayList<>(CHUNK);

    /** Seconds; until a step is seen an hour is assumed. */
    private int step = AN_HOUR;

    private long read;
    private long kept;
    private long refused;

    private PrecipitationCsv(CsvHeader header, CsvOptions options, Consumer<Observation> out, Consumer<BadLine> bad) {
        this.header = header;
        this.options = options;
        this.out = out;
        this.bad = bad;
        this.times = new TableTime(options.zone());
        this.cells = CsvReader.builder().fieldSeparator(header.delimiter());
    }

    /**
     * Reads all rows.
     *
     * @param lines of the text
     * @param out takes each observation, in the order of the table
     * @param bad takes each line that cannot be used
     * @throws WeatherException when no header with a column of times and one of amounts is found
     */
    public static Tally read(
            Iterator<String> lines, CsvOptions options, Consumer<Observation> out, Consumer<BadLine> bad)
            throws WeatherException {
        long number = 0;
        String first = "";
        while (lines.hasNext() && number < HEADER_WITHIN) {
            String line = lines.next();
            number++;
            String stripped = line.startsWith("\uFEFF") ? line.substring(1) : line;
            if (stripped.isBlank()) {
                continue;
            }
            CsvHeader header = CsvHeader.of(MARKED.matcher(stripped).replaceFirst(""), options);
            if (header != null) {
                PrecipitationCsv csv = new PrecipitationCsv(header, options, out, bad);
                while (lines.hasNext()) {
                    csv.line(++number, lines.next());
                }
                csv.flush();
                return new Tally(csv.read, csv.kept, csv.refused);
            }
            first = first.isEmpty() ? stripped : first;
        }
        throw new WeatherException(
                "no columns of time and precipitation found in " + BadLine.quote(first),
                "name the columns, as in time,precipitation,temperature, or say which they are");
    }

    private void line(long number, String line) {
        if (line.isBlank() || line.startsWith("#")) {
            return;
        }
        read++;
        try {
            chunk.add(TableRow.of(number, cells.ofSingleCsvRecord(line).getFields(), header, options, times));
        } catch (WeatherException e) {
            refuse(number, e.what(), e.hint());
        } catch (CsvParseException e) {
            refuse(number, "cells do not end in " + BadLine.quote(line), "close its quotation marks on the same line");
        }
        if (chunk.size() == CHUNK) {
            flush();
        }
    }

    private void refuse(long number, String what, String hint) {
        refused++;
        bad.accept(new BadLine(number, what, hint));
    }

    private void flush() {
        step = commonStep();
        for (TableRow row : chunk) {
            if (step > COARSEST && !Double.isNaN(row.millimetres())) {
                refuse(
                        row.line(),
                        "amounts are for " + Duration.ofSeconds(step).toHours() + " hours",
                        "use a table with hourly amounts");
            } else if (row.tells()) {
                kept++;
                out.accept(row.observation(Math.min(step, COARSEST), options.stampedAtStart()));
            }
        }
        chunk.clear();
    }

    /** The most common step between rows of one station, the smaller of equals; the last known where there is none. */
    private int commonStep() {
        Map<String, TableRow> last = new HashMap<>();
        Map<Long, Integer> counts = new HashMap<>();
        long best = step;
        int most = 0;
        for (TableRow row : chunk) {
            TableRow before = last.put(row.station(), row);
            long seconds = before == null
                    ? 0
                    : Math.abs(Duration.between(before.at(), row.at()).toSeconds());
            if (seconds > 0) {
                int count = counts.merge(seconds, 1, Integer::sum);
                if (count > most || (count == most && seconds < best)) {
                    most = count;
                    best = seconds;
                }
            }
        }
        return (int) Math.min(best, Integer.MAX_VALUE);
    }
}
