package chainage.table;

import chainage.ledger.Event;
import chainage.logbook.Refusal;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * What a table that comes beside ride files says of the rides in them: a row names a file, and has a title, notes or a bike
 * for it.
 *
 * @param columns which column holds what, such as {@code title=Name}, to be remembered
 * @param mapping the same in words
 * @param rows of rides that are there, one a ride; of several rows of one ride the last counts
 * @param absent rows of files that are not there, by their lines
 * @param doubtful rows of names that several files have
 * @param strangers bikes that are none of the rider's, by how many rows name them
 */
public record RideTable(
        List<String> columns,
        List<String> mapping,
        List<Event.Told> rows,
        List<Long> absent,
        List<Long> doubtful,
        Map<String, Integer> strangers) {
    /** What its columns can hold. */
    public enum Holds {
        FILE,
        TITLE,
        NOTES,
        BIKE;

        /** As it is typed and told. */
        public String word() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /** A column is taken for one of files where so many of its cells name one; our choice. */
    private static final double ENOUGH = 0.2;

    public RideTable {
        columns = List.copyOf(columns);
        mapping = List.copyOf(mapping);
        rows = List.copyOf(rows);
        absent = List.copyOf(absent);
        doubtful = List.copyOf(doubtful);
        strangers = new TreeMap<>(strangers);
    }

    /** Rides by the names of their files, as tables write them: with folders or without, packed or not, with an ending or not. */
    public static final class Files {
        private final Map<String, Set<String>> pathsByName = new HashMap<>();
        private final Map<String, List<String>> rides;

        /** @param rides their ids by the paths of their files */
        public Files(Map<String, List<String>> rides) {
            this.rides = Map.copyOf(rides);
            for (String path : rides.keySet()) {
                for (String form : forms(path)) {
                    pathsByName
                            .computeIfAbsent(last(form), n -> new LinkedHashSet<>())
                            .add(path);
                }
            }
        }

        private static List<String> forms(String path) {
            String plain = plain(path);
            String unpacked = plain.endsWith(".gz") ? plain.substring(0, plain.length() - 3) : plain;
            int dot = unpacked.lastIndexOf('.');
            return Stream.of(plain, unpacked, dot > unpacked.lastIndexOf('/') + 1 ? unpacked.substring(0, dot) : plain)
                    .distinct()
                    .toList();
        }

        private static String plain(String path) {
            return path.strip()
                    .toLowerCase(Locale.ROOT)
                    .replace('\\', '/')
                    .replace("!/", "/")
                    .replaceFirst("^(\\./)+", "");
        }

        private static String last(String plain) {
            return plain.substring(plain.lastIndexOf('/') + 1);
        }

        /** The rides of each file that a cell can mean. */
        Set<List<String>> named(String cell) {
            String plain = plain(cell);
            Set<List<String>> fits = exactly(plain);
            // The rider may have unpacked what the table still calls packed.
            return fits.isEmpty() && plain.endsWith(".gz") ? exactly(plain.substring(0, plain.length() - 3)) : fits;
        }

        private Set<List<String>> exactly(String plain) {
            Set<List<String>> fits = new LinkedHashSet<>();
            for (String path : pathsByName.getOrDefault(last(plain), Set.of())) {
                if (forms(path).stream().anyMatch(f -> f.equals(plain) || f.endsWith("/" + plain))) {
                    fits.add(Objects.requireNonNull(rides.get(path)));
                }
            }
            return fits;
        }

        /** Whether a cell names a file. */
        public boolean names(String cell) {
            return !cell.isEmpty() && !named(cell).isEmpty();
        }
    }

    /**
     * Reads it.
     *
     * @param said columns by what they hold, as the rider named them or as they are remembered
     * @param bike the rider's bike of a name; null for none
     * @throws Refusal when its columns are not found
     */
    public static RideTable of(
            Table table, Map<Holds, String> said, Files files, Function<String, @Nullable String> bike) throws Refusal {
        Map<Holds, Integer> columns = columns(table, said, files, bike);
        Map<String, Event.Told> rows = new LinkedHashMap<>();
        List<Long> absent = new ArrayList<>();
        List<Long> doubtful = new ArrayList<>();
        Map<String, Integer> strangers = new TreeMap<>();
        for (Table.Row row : table.rows()) {
            String name = row.cell(columns.getOrDefault(Holds.FILE, -1));
            Set<List<String>> fits = name.isEmpty() ? Set.of() : files.named(name);
            if (fits.size() != 1) {
                (fits.isEmpty() ? absent : doubtful).add(row.line());
                continue;
            }
            String written = cell(row, columns, Holds.BIKE);
            String own = written == null ? null : bike.apply(written);
            if (written != null && own == null) {
                strangers.merge(written, 1, Integer::sum);
            }
            for (String ride : fits.iterator().next()) {
                rows.put(
                        ride,
                        new Event.Told(
                                ride, cell(row, columns, Holds.TITLE), cell(row, columns, Holds.NOTES), own, written));
            }
        }
        List<String> kept = new ArrayList<>();
        Map<Integer, String> words = new TreeMap<>();
        for (Holds h : Holds.values()) {
            Integer c = columns.get(h);
            if (c != null) {
                String name = table.names().get(c);
                boolean alone = !name.isEmpty()
                        && table.names().stream().filter(name::equalsIgnoreCase).count() == 1;
                kept.add(h.word() + "=" + (alone ? name : String.valueOf(c + 1)));
                words.put(c, h.word() + " = " + table.called(c));
            }
        }
        return new RideTable(
                kept, List.copyOf(words.values()), List.copyOf(rows.values()), absent, doubtful, strangers);
    }

    private static @Nullable String cell(Table.Row row, Map<Holds, Integer> columns, Holds what) {
        String cell = row.cell(columns.getOrDefault(what, -1));
        return cell.isEmpty() ? null : cell;
    }

    private static Map<Holds, Integer> columns(
            Table table, Map<Holds, String> said, Files files, Function<String, @Nullable String> bike) throws Refusal {
        Map<Holds, Integer> columns = new TreeMap<>();
        for (Map.Entry<Holds, String> s : said.entrySet()) {
            columns.put(s.getKey(), table.column(s.getValue()));
        }
        if (!columns.containsKey(Holds.FILE)) {
            int best = most(table, files::names, columns, Holds.FILE);
            if (best < 0) {
                throw new Refusal("no column names files that are in the folder", "say which does: --file-column NAME");
            }
            columns.put(Holds.FILE, best);
        }
        // What the rider named is all that is meant.
        if (said.keySet().stream().noneMatch(h -> h != Holds.FILE)) {
            for (Holds h : Set.of(Holds.TITLE, Holds.NOTES, Holds.BIKE)) {
                for (int c = 0; c < table.width() && !columns.containsKey(h); c++) {
                    if (isHeaded(table, c, h) && !columns.containsValue(c)) {
                        columns.put(h, c);
                    }
                }
            }
            if (!columns.containsKey(Holds.BIKE)) {
                int bikes = most(table, cell -> bike.apply(cell) != null, columns, Holds.BIKE);
                if (bikes >= 0) {
                    columns.put(Holds.BIKE, bikes);
                }
            }
        }
        if (columns.size() < 2) {
            throw new Refusal(
                    "no column of titles, notes or bikes is found",
                    "say which it is: --title-column, --notes-column" + " or --bike-column NAME");
        }
        return columns;
    }

    private static boolean isHeaded(Table table, int column, Holds what) {
        return Headings.words("column." + what.word())
                .contains(Headings.plain(table.names().get(column)));
    }

    /** The column most of whose cells are so, of equals the one that is headed so; −1 where it is true of few. */
    private static int most(Table table, Predicate<String> of, Map<Holds, Integer> taken, Holds what) {
        int best = -1;
        long most = 0;
        for (int c = 0; c < table.width(); c++) {
            int column = c;
            List<String> cells = table.rows().stream()
                    .map(r -> r.cell(column))
                    .filter(x -> !x.isEmpty())
                    .toList();
            long fits = 2 * cells.stream().filter(of).count();
            if (fits == 0 || fits < 2 * ENOUGH * cells.size() || taken.containsValue(c)) {
                continue;
            }
            fits += isHeaded(table, c, what) ? 1 : 0;
            if (fits > most) {
                best = c;
                most = fits;
            }
        }
        return best;
    }

    /**
     * What is new against an earlier reading.
     *
     * @param rows that say something else than before; those of rides that the table names no more say nothing
     * @param kept of how many rides it says nothing any more, and what it said stays since they are so many
     */
    public record Changes(List<Event.Told> rows, int kept) {
        public Changes {
            rows = List.copyOf(rows);
        }
    }

    /** More than one in so many rides do not go at once unasked, as of a logbook's lines. */
    private static final int SHARE = 3;

    /**
     * Holds it against an earlier reading.
     *
     * @param before what it said, by ride
     * @param all whether what is gone goes, however much it is
     */
    public Changes changed(Map<String, Event.Told> before, boolean all) {
        List<Event.Told> changed = new ArrayList<>();
        Set<String> here = new TreeSet<>();
        for (Event.Told now : rows) {
            here.add(now.ride());
            Event.Told was = before.get(now.ride());
            // A bike that was renamed since is called by its old name there; it is the same row.
            boolean same = was == null
                    ? now.title() == null && now.notes() == null && now.written() == null
                    : Objects.equals(was.title(), now.title())
                            && Objects.equals(was.notes(), now.notes())
                            && Objects.equals(was.written(), now.written())
                            && (was.bike() != null || now.bike() == null);
            if (!same) {
                changed.add(now);
            }
        }
        List<Event.Told> telling = before.values().stream()
                .filter(b -> b.title() != null || b.notes() != null || b.written() != null)
                .sorted(Comparator.comparing(Event.Told::ride))
                .toList();
        List<Event.Told> gone =
                telling.stream().filter(b -> !here.contains(b.ride())).toList();
        if (!all && SHARE * gone.size() > telling.size()) {
            return new Changes(changed, gone.size());
        }
        gone.forEach(b -> changed.add(new Event.Told(b.ride(), null, null, null, null)));
        return new Changes(changed, 0);
    }
}
