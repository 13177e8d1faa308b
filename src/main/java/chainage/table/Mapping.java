package chainage.table;

import chainage.logbook.Refusal;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import java.util.stream.IntStream;

/**
 * Which column of a table holds what.
 *
 * @param parts by what they hold
 * @param options columns whose headings are options of commands, by column
 */
public record Mapping(Map<Part, Integer> parts, Map<Integer, String> options) {
    /** So many rows tell what a column holds; our choice. */
    private static final int LOOK = 300;

    /** From so much on a column is taken for what it looks like; our choice, as are all weights here. */
    private static final double ENOUGH = 0.25;

    static final Pattern TIME = Pattern.compile("\\d{1,2}[:.]\\d\\d([:.]\\d\\d)?( ?[AaPp]\\.?[Mm]\\.?)?");
    private static final Pattern MEASURED = Pattern.compile(
            "([+-]?\\d+([.,]\\d+)? ?(%|mm|in|inch|\")|stays[- ]in|stays[- ]out|drops[- ]in)", Pattern.CASE_INSENSITIVE);
    private static final Pattern NUMBER = Pattern.compile("[+-]?\\d+([.,]\\d+)*");

    public Mapping {
        parts = Map.copyOf(parts);
        options = Map.copyOf(options);
    }

    /**
     * Finds the columns.
     *
     * @param said columns that the rider named; −1 for what no column holds
     * @throws Refusal when none holds dates
     */
    public static Mapping of(Table table, Map<Part, Integer> said, Known known) throws Refusal {
        Map<Part, Integer> parts = new EnumMap<>(Part.class);
        said.forEach((p, c) -> {
            if (c >= 0) {
                parts.put(p, c);
            }
        });
        Map<String, String> headings = known.headings();
        Map<Integer, String> options = new TreeMap<>();
        for (int c = 0; c < table.width(); c++) {
            String option = headings.get(Headings.plain(table.names().get(c)));
            if (option != null
                    && !parts.containsValue(c)
                    && !isPart(table.names().get(c))) {
                options.put(c, option);
            }
        }
        List<Score> scores = new ArrayList<>();
        for (int c = 0; c < table.width(); c++) {
            if (!parts.containsValue(c) && !options.containsKey(c)) {
                Column column = new Column(table, c);
                for (Part p : Part.values()) {
                    if (!said.containsKey(p)) {
                        scores.add(new Score(p, c, column.score(p, known)));
                    }
                }
            }
        }
        scores.sort(Comparator.comparingDouble((Score s) -> -s.score)
                .thenComparing(s -> s.column)
                .thenComparing(s -> s.part));
        Set<Integer> used = new HashSet<>(parts.values());
        for (Score s : scores) {
            if (s.score >= ENOUGH && !parts.containsKey(s.part) && used.add(s.column)) {
                parts.put(s.part, s.column);
            }
        }
        if (!parts.containsKey(Part.DATE)) {
            throw new Refusal("no column of dates is found", "say which it is: --date-column NAME");
        }
        return new Mapping(parts, options);
    }

    private record Score(Part part, int column, double score) {}

    private static boolean isPart(String heading) {
        for (Part p : Part.values()) {
            if (Headings.words("column." + p.word()).contains(Headings.plain(heading))) {
                return true;
            }
        }
        return false;
    }

    /** One column, looked at. */
    private static final class Column {
        private final String heading;
        private final List<String> cells;
        private final int rows;
        private final Set<String> different;

        Column(Table table, int column) {
            heading = Headings.plain(table.names().get(column));
            List<Table.Row> look = table.rows().stream().limit(LOOK).toList();
            rows = look.size();
            cells = look.stream()
                    .map(r -> r.cell(column))
                    .filter(c -> !c.isEmpty())
                    .toList();
            different = new HashSet<>(cells);
        }

        private double share(Predicate<String> of) {
            return cells.isEmpty() ? 0 : (double) cells.stream().filter(of).count() / cells.size();
        }

        /** How much it looks like it, by its cells and its heading. */
        double score(Part part, Known known) {
            if (cells.isEmpty()) {
                return 0;
            }
            boolean headed = Headings.words("column." + part.word()).contains(heading);
            double content = content(part, known);
            // A heading counts as much as the clearest cells, but makes no date of what is none.
            boolean possible = content > 0 || !(part == Part.DATE || part == Part.TIME);
            return content + (headed && possible ? 1 : 0);
        }

        private double content(Part part, Known known) {
            double dates = share(When::isDate);
            return switch (part) {
                case DATE -> 2 * dates;
                case TIME -> share(c -> TIME.matcher(c).matches());
                case WHAT -> dates > 0 ? 0 : 1.4 * share(c -> !Deed.in(c).isEmpty()) - named(known);
                case VALUE ->
                    share(c -> MEASURED.matcher(c).matches())
                            + 0.3 * share(c -> NUMBER.matcher(c).matches());
                case CHAIN, BIKE, PRODUCT -> 1.3 * share(c -> Known.holds(known.names(part), c)) + alike(part);
                case NOTE -> prose();
            };
        }

        private double named(Known known) {
            return share(c -> Known.holds(known.chains(), c) || Known.holds(known.bikes(), c));
        }

        /** Short words that come again and again are names; chains are in most rows, and stand first. */
        private double alike(Part part) {
            double length = cells.stream().mapToInt(String::length).average().orElse(0);
            boolean names = length <= 24
                    && different.size() <= Math.max(3, cells.size() / 2)
                    && share(c -> When.isDate(c)
                                    || NUMBER.matcher(c).matches()
                                    || MEASURED.matcher(c).matches()
                                    || TIME.matcher(c).matches()
                                    || !Deed.in(c).isEmpty())
                            < 0.5;
            double most = switch (part) {
                case CHAIN -> 0.33;
                case PRODUCT -> 0.31;
                default -> 0.28;
            };
            return names ? most + 0.1 * cells.size() / Math.max(1, rows) : 0;
        }

        private double prose() {
            double several = share(c -> c.indexOf(' ') > 0 && !When.isDate(c));
            return several > 0.5 && different.size() > cells.size() / 2 ? 0.3 : 0;
        }
    }

    /** As it is told: {@code date = column 1 "Date"}, in the order of the columns. */
    public List<String> words(Table table) {
        Map<Integer, String> all = new TreeMap<>();
        parts.forEach((p, c) -> all.put(c, p.word() + " = " + table.called(c)));
        options.forEach((c, o) -> all.put(c, "--" + o + " = " + table.called(c)));
        return List.copyOf(all.values());
    }

    /** Columns that hold none of these; what stands in them is kept as a note. */
    List<Integer> others(Table table) {
        return IntStream.range(0, table.width())
                .filter(c -> !parts.containsValue(c) && !options.containsKey(c))
                .boxed()
                .toList();
    }

    /** What stands in a row; empty where no column holds it. */
    String cell(Table.Row row, Part part) {
        return row.cell(parts.getOrDefault(part, -1));
    }
}
