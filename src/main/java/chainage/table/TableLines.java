package chainage.table;

import chainage.ledger.Event;
import chainage.ledger.Method;
import chainage.logbook.Days;
import chainage.logbook.Line;
import chainage.logbook.LogbookText;
import chainage.logbook.Refusal;
import chainage.quantity.PlainText;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * A table of things done, as lines of a logbook: a row becomes the command that states it. What a row holds beside goes
 * into a note behind the line, so that nothing of it is lost.
 *
 * @param mapping which column holds what, a column a line
 * @param lines of the logbook, in the order of the table; those that add what the table speaks of come first
 * @param refused rows that say nothing that is understood, by their lines in the table
 */
public record TableLines(List<String> mapping, List<String> lines, List<Event.RefusedLine> refused) {
    private static final Pattern LENGTH = Pattern.compile("[+-]?\\d+([.,]\\d+)?(mm|in)");
    /** Options that hold what was read. */
    private static final Set<String> READ = Set.of("gauge", "length");

    private static final Set<String> YES = Set.of("yes", "y", "x", "true", "1", "ja", "oui", "si", "sim");
    private static final Set<String> NO = Set.of("", "no", "n", "false", "0", "nein", "non", "nao");

    public TableLines {
        mapping = List.copyOf(mapping);
        lines = List.copyOf(lines);
        refused = List.copyOf(refused);
    }

    /**
     * What the rider said of a table.
     *
     * @param columns by what they hold; −1 for what none holds
     * @param chain that all rows speak of where no column says so; null for none
     * @param order of day and month where dates do not tell
     * @param meanings of words of the rider's own, in lower case
     */
    public record Said(
            Map<Part, Integer> columns, @Nullable String chain, Days.Order order, Map<String, Deed> meanings) {
        public Said {
            columns = Map.copyOf(columns);
            meanings = meanings.entrySet().stream()
                    .collect(Collectors.toUnmodifiableMap(e -> Headings.plain(e.getKey()), Map.Entry::getValue));
        }
    }

    /** Whether a cell is of the kind that no heading is. */
    public static boolean isData(String cell) {
        return When.isDate(cell);
    }

    /**
     * Makes the lines.
     *
     * @throws Refusal when the table has no column of dates, or none of chains
     */
    public static TableLines of(Table table, Said said, Known known) throws Refusal {
        Mapping mapping = Mapping.of(table, said.columns(), known);
        if (said.chain() == null && !mapping.parts().containsKey(Part.CHAIN)) {
            throw new Refusal(
                    "no column of chains is found",
                    "say which it is: --chain-column NAME, or of which chain the" + " table is: --chain NAME");
        }
        return new Work(table, mapping, said, known).done();
    }

    /** The whole text of the logbook. */
    public String text(String of) {
        StringBuilder text = new StringBuilder(LogbookText.FIRST)
                .append("\n# made of ")
                .append(of)
                .append("; look it over, then import it\n");
        mapping.forEach(m -> text.append("# ").append(m).append('\n'));
        text.append('\n');
        lines.forEach(l -> text.append(l).append('\n'));
        refused.forEach(r -> text.append("# line ")
                .append(r.number())
                .append(" of the table, left out: ")
                .append(r.text())
                .append('\n'));
        return text.toString();
    }

    private static final class Work {
        private final Table table;
        private final Mapping mapping;
        private final Said said;
        private final Known known;
        private final Days.Order order;
        private final List<String> lines = new ArrayList<>();
        private final List<Event.RefusedLine> refused = new ArrayList<>();
        private final Set<String> chains = new TreeSet<>(String.CASE_INSENSITIVE_ORDER);
        private final Map<Part, Set<String>> named = new EnumMap<>(Part.class);
        private final Map<Part, Set<String>> added = new EnumMap<>(Part.class);
        private @Nullable LocalDate first;

        Work(Table table, Mapping mapping, Said said, Known known) {
            this.table = table;
            this.mapping = mapping;
            this.said = said;
            this.known = known;
            List<String> dates =
                    table.rows().stream().map(r -> mapping.cell(r, Part.DATE)).toList();
            this.order = said.order() == Days.Order.UNKNOWN ? When.order(dates) : said.order();
            chains.addAll(known.chains());
            table.rows().forEach(r -> chains.add(mapping.cell(r, Part.CHAIN)));
        }

        TableLines done() {
            for (Table.Row row : table.rows()) {
                try {
                    String line = new RowWords(row).line();
                    if (line.length() > LogbookText.LONGEST) {
                        throw new Refusal("it holds more than " + LogbookText.LONGEST + " letters", "shorten its note");
                    }
                    lines.add(line);
                } catch (Refusal e) {
                    String text = row.cells().stream().filter(c -> !c.isEmpty()).collect(Collectors.joining(" | "));
                    refused.add(new Event.RefusedLine(
                            (int) row.line(), text.length() > 200 ? text.substring(0, 200) + "…" : text, e.reason()));
                }
            }
            List<String> all = new ArrayList<>(additions());
            all.addAll(lines);
            List<String> told = new ArrayList<>(mapping.words(table));
            if (said.order() == Days.Order.UNKNOWN && order != Days.Order.UNKNOWN) {
                told.add("dates: the " + (order == Days.Order.DAY_FIRST ? "day" : "month")
                        + " comes first, as some of them can only be read so");
            }
            return new TableLines(told, all, refused);
        }

        /** What the rows speak of and nothing has added yet. */
        private List<String> additions() {
            List<String> adding = new ArrayList<>();
            LocalDate day = first;
            if (day == null) {
                return adding;
            }
            for (Part p : List.of(Part.BIKE, Part.CHAIN, Part.PRODUCT)) {
                for (String name : named.getOrDefault(p, Set.of())) {
                    if (!Known.holds(known.names(p), name)
                            && !added.getOrDefault(p, Set.of()).contains(name.toLowerCase(Locale.ROOT))) {
                        List<String> words = new ArrayList<>(List.of(p.word(), "add", name));
                        if (p == Part.PRODUCT) {
                            // Only the rider knows; as it stands the line is refused with the methods that there are.
                            words.addAll(List.of("--method", "METHOD"));
                        }
                        adding.add(new Line(1, day, null, null, words).text());
                    }
                }
            }
            return adding;
        }

        /** One row, becoming a line. */
        private final class RowWords {
            private final Table.Row row;
            private final Map<Part, String> cells = new EnumMap<>(Part.class);
            private final List<String> words = new ArrayList<>();
            private final List<String> notes = new ArrayList<>();

            RowWords(Table.Row row) {
                this.row = row;
                for (Part p : Part.values()) {
                    String cell = mapping.cell(row, p);
                    if (!cell.isEmpty()) {
                        cells.put(p, cell);
                    }
                }
                String chain = said.chain();
                if (chain != null) {
                    cells.putIfAbsent(Part.CHAIN, chain);
                }
            }

            String line() throws Refusal {
                When when = When.of(taken(Part.DATE), taken(Part.TIME), order);
                Deed deed = deed();
                words.addAll(List.of(deed.command().split(" ", -1)));
                for (Part p : deed.parts()) {
                    positional(deed, p);
                }
                List<String> behind = new ArrayList<>();
                options(deed, behind);
                if (deed == Deed.INSTALL) {
                    // A table says what went on, and means that it took the other's place.
                    behind.add("--swap");
                }
                words.addAll(behind);
                String note = cells.remove(Part.NOTE);
                if (note != null) {
                    notes.add(0, note);
                }
                cells.forEach((p, c) -> notes.add(p.word() + ": " + c));
                for (int c : mapping.others(table)) {
                    if (!row.cell(c).isEmpty()) {
                        String name = table.names().get(c);
                        notes.add((name.isEmpty() ? "" : name + ": ") + row.cell(c));
                    }
                }
                LocalDate day = when.day();
                LocalDate before = first;
                first = before == null || day.isBefore(before) ? day : before;
                return new Line(1, day, when.time(), null, words).text()
                        + (notes.isEmpty() ? "" : "  # " + String.join("; ", notes));
            }

            private String taken(Part part) {
                String cell = cells.remove(part);
                return cell == null ? "" : cell;
            }

            private Deed deed() throws Refusal {
                String what = taken(Part.WHAT);
                if (what.isEmpty()) {
                    return implied();
                }
                Deed own = said.meanings().get(Headings.plain(what));
                if (own != null) {
                    notes.add(what);
                    return own;
                }
                Set<Deed> deeds = Deed.in(what);
                if (deeds.size() > 1) {
                    throw new Refusal(
                            "\"" + what + "\" says several things ("
                                    + deeds.stream().map(Deed::word).collect(Collectors.joining(", "))
                                    + ")",
                            "write a row for each");
                }
                if (deeds.isEmpty()) {
                    throw new Refusal(
                            "\"" + what + "\" is no word for what was done",
                            "teach it with --means " + PlainText.typed(what + "=treat")
                                    + ", or install, remove, measure, noisy, damaged, retired, note, tag, buy");
                }
                Deed deed = deeds.iterator().next();
                if (deed == Deed.TREAT && !cells.containsKey(Part.PRODUCT)) {
                    method(what).ifPresent(m -> cells.put(Part.PRODUCT, m));
                }
                if (!Headings.words(deed.word()).contains(Headings.plain(what))) {
                    notes.add(what);
                }
                return deed;
            }

            /** What is meant where no cell says so: what the other cells are for. */
            private Deed implied() throws Refusal {
                if (cells.containsKey(Part.PRODUCT) && cells.containsKey(Part.CHAIN)) {
                    return Deed.TREAT;
                } else if (cells.containsKey(Part.VALUE)) {
                    return Deed.MEASURE;
                } else if (cells.containsKey(Part.BIKE) && cells.containsKey(Part.CHAIN)) {
                    return Deed.INSTALL;
                } else if (cells.containsKey(Part.NOTE) && cells.containsKey(Part.CHAIN)) {
                    return Deed.NOTE;
                }
                throw new Refusal("it does not say what was done", "name it, such as treated, installed or measured");
            }

            private Optional<String> method(String what) {
                String words = " " + Headings.plain(what) + " ";
                return Method.allWords().stream()
                        .filter(m -> words.contains(" " + Headings.plain(m) + " "))
                        .max(Comparator.comparingInt(String::length));
            }

            private void positional(Deed deed, Part part) throws Refusal {
                String cell = taken(part);
                switch (part) {
                    case CHAIN, BIKE, PRODUCT -> {
                        if (cell.isEmpty()) {
                            throw new Refusal("it names no " + part.word(), "write which");
                        }
                        List<String> several = part == Part.CHAIN && deed == Deed.TREAT ? chains(cell) : List.of(cell);
                        words.addAll(several);
                        remember(deed, part, several);
                        if (part == Part.CHAIN && deed.remarks()) {
                            words.add(deed.word());
                        }
                    }
                    case VALUE -> value(deed, cell);
                    case NOTE -> {
                        if (!cell.isEmpty()) {
                            words.addAll(cell.startsWith("-") ? List.of("--", cell) : List.of(cell));
                        }
                    }
                    default -> throw new AssertionError(part);
                }
            }

            private void remember(Deed deed, Part part, List<String> names) {
                boolean adds = deed == Deed.BIKE || deed == Deed.CHAIN || deed == Deed.PRODUCT;
                if (adds) {
                    names.forEach(n -> added.computeIfAbsent(part, p -> new LinkedHashSet<>())
                            .add(n.toLowerCase(Locale.ROOT)));
                } else {
                    named.computeIfAbsent(part, p -> new LinkedHashSet<>()).addAll(names);
                }
            }

            /** Chains that were treated together, where each of them is named elsewhere too. */
            private List<String> chains(String cell) {
                List<String> parts = List.of(cell.split(" ?[,;+&/] ?| and | und | et | y ", -1));
                return !chains.isEmpty() && parts.size() > 1 && chains.containsAll(parts) ? parts : List.of(cell);
            }

            private void value(Deed deed, String cell) throws Refusal {
                boolean elsewhere = mapping.options().entrySet().stream()
                        .anyMatch(o -> READ.contains(o.getValue())
                                && !row.cell(o.getKey()).isEmpty());
                if (cell.isEmpty() && !elsewhere) {
                    throw new Refusal("there is nothing in it that was read", "write it such as 0.31%");
                }
                String joined = cell.replaceAll("(?<=\\d) (?=%|mm\\b|in\\b)", "")
                        .replaceAll("(?i)\\b(drops|stays) (in|out)\\b", "$1-$2");
                for (String word : joined.split(" ", -1)) {
                    if (deed == Deed.MEASURE && LENGTH.matcher(word).matches()) {
                        words.addAll(List.of("--length", word));
                    } else if (!word.isEmpty()) {
                        words.add(word);
                    }
                }
            }

            private void options(Deed deed, List<String> behind) throws Refusal {
                Map<String, Boolean> its = known.of(deed);
                for (Part p : List.of(Part.CHAIN, Part.BIKE, Part.PRODUCT)) {
                    if (cells.containsKey(p) && its.getOrDefault(p.word(), false)) {
                        String name = taken(p);
                        behind.addAll(List.of("--" + p.word(), name));
                        remember(deed, p, List.of(name));
                    }
                }
                for (Map.Entry<Integer, String> o : new TreeMap<>(mapping.options()).entrySet()) {
                    String cell = row.cell(o.getKey());
                    Boolean takes = its.get(o.getValue());
                    if (takes == null) {
                        if (!cell.isEmpty()) {
                            notes.add(o.getValue() + ": " + cell);
                        }
                    } else if (takes) {
                        if (!cell.isEmpty()) {
                            behind.addAll(List.of("--" + o.getValue(), cell));
                        }
                    } else if (YES.contains(Headings.plain(cell))
                            || Headings.plain(cell).equals(Headings.plain(o.getValue()))) {
                        behind.add("--" + o.getValue());
                    } else if (!NO.contains(Headings.plain(cell))) {
                        throw new Refusal(
                                "\"" + cell + "\" is neither yes nor no",
                                "write one of them in " + table.called(o.getKey()));
                    }
                }
            }
        }
    }
}
