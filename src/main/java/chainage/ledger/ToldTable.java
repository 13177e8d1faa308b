package chainage.ledger;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * What is remembered of a table that tells of rides.
 *
 * @param folder where the ride files are, absolute
 * @param table where it is, absolute
 * @param columns which of its columns holds what
 * @param missed whether it was missing when it was last looked for, and that was told
 * @param followed false where all readings of it were taken back: then it is not read again unasked
 * @param read what was read last of each ride, by its id, taken back or not
 * @param inForce the same of what was not taken back
 */
public record ToldTable(
        String folder,
        String table,
        List<String> columns,
        boolean missed,
        boolean followed,
        Map<String, Event.Told> read,
        Map<String, Event.Told> inForce) {
    public ToldTable {
        columns = List.copyOf(columns);
        read = Map.copyOf(read);
        inForce = Map.copyOf(inForce);
    }

    /** One of which nothing is remembered. */
    public static ToldTable fresh(String folder, String table) {
        return new ToldTable(folder, table, List.of(), false, false, Map.of(), Map.of());
    }

    /**
     * All that were read, in the order in which they first were.
     *
     * @param entries in order of their numbers
     */
    public static List<ToldTable> of(List<Entry> entries) {
        Set<Long> inForce = new HashSet<>();
        Ledger.inForce(entries).forEach(e -> inForce.add(e.number()));
        Map<List<String>, ToldTable> all = new LinkedHashMap<>();
        for (Entry e : entries) {
            if (e.event() instanceof Event.RidesTold told) {
                ToldTable before =
                        all.getOrDefault(List.of(told.folder(), told.table()), fresh(told.folder(), told.table()));
                boolean stands = inForce.contains(e.number());
                boolean read = !told.isMissing();
                all.put(
                        List.of(told.folder(), told.table()),
                        new ToldTable(
                                told.folder(),
                                told.table(),
                                read && (stands || before.columns().isEmpty()) ? told.columns() : before.columns(),
                                !read,
                                (read && stands) || before.followed(),
                                with(before.read(), told.rows()),
                                stands ? with(before.inForce(), told.rows()) : before.inForce()));
            }
        }
        return new ArrayList<>(all.values());
    }

    /** What is to be remembered of it once it was told that it is missing. */
    public Event.RidesTold missing() {
        return Event.RidesTold.missing(folder, table);
    }

    private static Map<String, Event.Told> with(Map<String, Event.Told> before, List<Event.Told> rows) {
        Map<String, Event.Told> after = new HashMap<>(before);
        rows.forEach(r -> after.put(r.ride(), r));
        return after;
    }
}
