package chainage.table;

import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Stream;

/**
 * What a table's reader knows beside the table.
 *
 * @param chains names of the rider's
 * @param bikes names of the rider's
 * @param products names of the rider's, and of methods
 * @param options of commands, by command: their names without hyphens, and whether each takes a value
 */
public record Known(
        Set<String> chains, Set<String> bikes, Set<String> products, Map<String, Map<String, Boolean>> options) {
    public Known {
        chains = Set.copyOf(chains);
        bikes = Set.copyOf(bikes);
        products = Set.copyOf(products);
        options = Map.copyOf(options);
    }

    /** Names of one kind of thing; none for a part that names nothing. */
    Set<String> names(Part part) {
        return switch (part) {
            case CHAIN -> chains;
            case BIKE -> bikes;
            case PRODUCT -> products;
            default -> Set.of();
        };
    }

    static boolean holds(Set<String> names, String typed) {
        return names.stream().anyMatch(n -> n.equalsIgnoreCase(typed));
    }

    /** Options of all commands, without hyphens, by the headings that name them. */
    Map<String, String> headings() {
        Map<String, String> all = new TreeMap<>();
        options.values().stream().flatMap(o -> o.keySet().stream()).forEach(o -> all.put(Headings.plain(o), o));
        // What a line begins with says when it was.
        all.remove("on");
        return all;
    }

    Map<String, Boolean> of(Deed deed) {
        return options.getOrDefault(deed.command(), Map.of());
    }

    /** The deeds' commands, whose options are asked for. */
    public static List<String> commands() {
        return Stream.of(Deed.values()).map(Deed::command).distinct().toList();
    }
}
