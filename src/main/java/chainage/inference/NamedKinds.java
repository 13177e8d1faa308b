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
     * Kinds are told apart where more than one group has them, or somebody asks for them.
     *
     * @param asked names
     * @param own as in {@link ThreeLevel.Field}
     */
    public static NamedKinds of(List<Said> all, Set<String> asked, double own, double alike, int spread) {
        Map<String, Integer> times = new TreeMap<>();
        all.forEach(s -> times.merge(s.name(), 1, Integer::sum));
        List<String> names = times.entrySet().stream()
                .filter(e -> !e.getKey().isEmpty() && (e.getValue() > 1 || asked.contains(e.getKey())))
                .map(Map.Entry::getKey)
                .toList();
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
