package chainage.inference;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/**
 * A field of {@link ThreeLevel} whose kinds have names.
 *
 * @param names of the kinds that are told apart, in their order
 */
public record NamedKinds(List<String> names, ThreeLevel.Field field) {
    /** What a group says of a kind; without a name it is a kind of its own. */
    public record Said(int group, String name, Witness witness) {}

    /**
     * A field of the kinds that are told {@link #apart}.
     *
     * @param asked names
     * @param own as in {@link ThreeLevel.Field}
     */
    public static NamedKinds of(List<Said> all, Set<String> asked, double own, double alike, int spread) {
        List<String> names = apart(all.stream().map(Said::name).toList(), asked);
        Map<String, Integer> places = new HashMap<>();
        names.forEach(n -> places.put(n, places.size()));
        List<ThreeLevel.Seen> seen = new ArrayList<>();
        for (Said s : all) {
            if (s.witness().precision() > 0) {
                seen.add(new ThreeLevel.Seen(
                        s.group(),
                        places.getOrDefault(s.name(), -1),
                        s.witness().mean(),
                        s.witness().precision()));
            }
        }
        return new NamedKinds(names, new ThreeLevel.Field(names.size(), own, alike, spread, seen));
    }

    /**
     * The kinds that are told apart, in their order: those that more than one group has, or somebody asks for.
     *
     * @param had a name for each group that has the kind; empty for one without, which is a kind of its own
     */
    public static List<String> apart(List<String> had, Set<String> asked) {
        Map<String, Integer> times = new TreeMap<>();
        had.forEach(name -> times.merge(name, 1, Integer::sum));
        return times.entrySet().stream()
                .filter(e -> !e.getKey().isEmpty() && (e.getValue() > 1 || asked.contains(e.getKey())))
                .map(Map.Entry::getKey)
                .toList();
    }

    /** One value alone, of which groups say something. */
    public static ThreeLevel.Field alone(List<Witness> byGroup, int spread) {
        List<ThreeLevel.Seen> seen = new ArrayList<>();
        for (int g = 0; g < byGroup.size(); g++) {
            Witness w = byGroup.get(g);
            if (w.precision() > 0) {
                seen.add(new ThreeLevel.Seen(g, -1, w.mean(), w.precision()));
            }
        }
        return new ThreeLevel.Field(0, 0, 1, spread, seen);
    }
}
