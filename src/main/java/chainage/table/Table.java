package chainage.table;

import chainage.logbook.Letters;
import chainage.logbook.Refusal;
import chainage.quantity.PlainText;
import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import de.siegmar.fastcsv.reader.FieldMismatchStrategy;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.IntStream;

/**
 * A table as a spreadsheet saves it: cells parted by commas, semicolons, tabs or bars, in UTF-8, UTF-16 with its mark, or
 * the Western code of older programs (Windows-1252).
 *
 * @param names of the columns; empty texts where the table has none
 * @param rows below them
 */
public record Table(List<String> names, List<Row> rows) {
    /** Bytes; a lifetime of rides is a tenth of it. Our choice. */
    public static final int LARGEST = 8 << 20;

    private static final int MOST_ROWS = 100_000;

    /** Letters of a cell; our choice. What is longer is a cell whose quotation mark is not closed. */
    private static final int LONGEST = 4000;

    /** So many rows tell what parts the cells; our choice. */
    private static final int LOOK = 100;

    private static final Pattern STATED = Pattern.compile("sep=(.)");
    private static final String AS_CSV =
            "open it in the spreadsheet program and save a copy as text with separators (CSV), in UTF-8";

    /**
     * A row.
     *
     * @param line of the text that it begins in
     */
    public record Row(long line, List<String> cells) {
        public Row {
            cells = List.copyOf(cells);
        }

        /** What stands in a column; empty where nothing does. */
        public String cell(int column) {
            return column >= 0 && column < cells.size() ? cells.get(column) : "";
        }
    }

    public Table {
        names = List.copyOf(names);
        rows = List.copyOf(rows);
    }

    /**
     * Reads a table. Titles above it, of one cell each, are passed over.
     *
     * @param data whether a cell is of the kind that no heading is: where the first row holds one, there are no headings
     * @throws Refusal when it is no table in text, or larger than any
     */
    public static Table of(byte[] content, Predicate<String> data) throws Refusal {
        String text = text(content);
        char parts = ',';
        Matcher stated = STATED.matcher(text.lines().findFirst().orElse(""));
        int line = 1;
        if (stated.matches()) {
            // A line by which some programs say what parts the cells.
            parts = stated.group(1).charAt(0);
            int end = text.indexOf('\n') + 1;
            text = end == 0 ? "" : text.substring(end);
            line++;
        } else {
            parts = parting(text);
        }
        List<Row> rows = rows(text, parts, line, MOST_ROWS + 1);
        if (rows.size() > MOST_ROWS) {
            throw new Refusal("it has more than " + MOST_ROWS + " rows, as no such table has", "cut it into years");
        }
        int widest = rows.stream().mapToInt(Table::filled).max().orElse(0);
        if (widest < 2) {
            throw new Refusal("it has no two columns", AS_CSV);
        }
        List<Row> all = new ArrayList<>(rows);
        while (filled(all.get(0)) < 2) {
            all.remove(0);
        }
        int width = all.stream().mapToInt(r -> r.cells().size()).max().orElseThrow();
        Row first = all.get(0);
        boolean headed = first.cells().stream().noneMatch(c -> !c.isEmpty() && data.test(c));
        List<String> names = IntStream.range(0, width)
                .mapToObj(i -> headed ? first.cell(i) : "")
                .toList();
        return new Table(names, headed ? all.subList(1, all.size()) : all);
    }

    private static int filled(Row row) {
        return (int) row.cells().stream().filter(c -> !c.isEmpty()).count();
    }

    private static String text(byte[] content) throws Refusal {
        String head = new String(content, 0, Math.min(content.length, 4096), StandardCharsets.ISO_8859_1);
        if (head.startsWith("PK\3\4")) {
            boolean ods = head.contains("opendocument");
            if (ods || head.contains("[Content_Types].xml") || head.contains("xl/")) {
                throw new Refusal(
                        "it is a spreadsheet's own file (" + (ods ? "ODS" : "XLSX") + "), which is not read", AS_CSV);
            }
            throw new Refusal("it is an archive", "unpack it, and name the table that is in it");
        }
        if (head.startsWith("\u00d0\u00cf\u0011\u00e0")) {
            throw new Refusal("it is an older spreadsheet's own file (XLS), which is not read", AS_CSV);
        }
        if (content.length > LARGEST) {
            throw new Refusal("it is larger than " + (LARGEST >> 20) + " MB, as no such table is", "cut it into years");
        }
        String text = Letters.of(content).orElseGet(() -> new String(content, Charset.forName("windows-1252")));
        if (text.chars().anyMatch(c -> (c < ' ' && !Character.isWhitespace(c)) || c == 0x7f)) {
            throw new Refusal("it holds characters that no text holds, so it is no table in text", AS_CSV);
        }
        return text;
    }

    /** What parts the cells: that by which most rows have equally many. */
    private static char parting(String text) {
        char best = ',';
        long most = 0;
        for (char c : new char[] {'\t', ';', ',', '|'}) {
            Map<Integer, Integer> widths = new HashMap<>();
            try {
                for (Row r : rows(text, c, 1, LOOK)) {
                    widths.merge(r.cells().size(), 1, Integer::sum);
                }
            } catch (Refusal e) {
                // Quotation marks that do not fit together: it is not this.
                continue;
            }
            long score = widths.entrySet().stream()
                    .filter(w -> w.getKey() > 1)
                    .mapToLong(w -> 1000L * w.getValue() + Math.min(999, w.getKey()))
                    .max()
                    .orElse(0);
            if (score > most) {
                most = score;
                best = c;
            }
        }
        return best;
    }

    private static List<Row> rows(String text, char parts, int firstLine, int most) throws Refusal {
        List<Row> rows = new ArrayList<>();
        long line = firstLine;
        try {
            for (CsvRecord r : CsvReader.builder()
                    .fieldSeparator(parts)
                    .extraFieldStrategy(FieldMismatchStrategy.IGNORE)
                    .missingFieldStrategy(FieldMismatchStrategy.IGNORE)
                    .allowExtraCharsAfterClosingQuote(true)
                    .ofCsvRecord(text)) {
                line = firstLine - 1 + r.getStartingLineNumber();
                List<String> cells = r.getFields().stream().map(Table::plain).toList();
                for (String c : cells) {
                    if (c.length() > LONGEST) {
                        throw new Refusal(
                                "line " + line + " holds a cell of " + c.length() + " letters, as none is",
                                "close its quotation mark, or shorten it");
                    }
                }
                if (cells.stream().anyMatch(c -> !c.isEmpty())) {
                    rows.add(new Row(line, cells));
                }
                if (rows.size() == most) {
                    break;
                }
            }
        } catch (CsvParseException e) {
            throw new Refusal("the cells below line " + line + " do not end", "close the quotation marks there");
        }
        return rows;
    }

    /** On one line, without what a terminal would obey. */
    private static String plain(String cell) {
        return PlainText.marked(cell.replaceAll("[\\s\\p{Z}]+", " ").strip());
    }

    /** How many columns there are. */
    public int width() {
        return names.size();
    }

    /** A column as people call it. */
    public String called(int column) {
        return "column " + (column + 1) + (names.get(column).isEmpty() ? "" : " \"" + names.get(column) + "\"");
    }

    /**
     * The column that is meant by its heading or its number, from 1.
     *
     * @throws Refusal when there is none, or more than one
     */
    public int column(String typed) throws Refusal {
        String asked = typed.strip();
        List<Integer> fits = IntStream.range(0, width())
                .filter(i -> !asked.isEmpty() && names.get(i).equalsIgnoreCase(asked))
                .boxed()
                .toList();
        if (fits.size() > 1) {
            throw new Refusal(
                    "several columns are called \"" + PlainText.marked(asked) + "\"",
                    "give the number of one: "
                            + String.join(
                                    " or ",
                                    fits.stream()
                                            .map(i -> String.valueOf(i + 1))
                                            .toList()));
        }
        if (fits.size() == 1) {
            return fits.get(0);
        }
        if (asked.matches("\\d{1,4}") && Integer.parseInt(asked) >= 1 && Integer.parseInt(asked) <= width()) {
            return Integer.parseInt(asked) - 1;
        }
        List<String> named = names.stream().filter(n -> !n.isEmpty()).toList();
        throw new Refusal(
                "there is no column \"" + PlainText.marked(asked) + "\"",
                (named.isEmpty() ? "" : "there are " + String.join(", ", named) + "; ")
                        + "give a name, or a number from 1 to " + width());
    }
}
