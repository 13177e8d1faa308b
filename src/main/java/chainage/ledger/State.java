package chainage.ledger;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/** All that is stated, while the facts are taken in one after the other. */
final class State {
    final SortedMap<String, Event.BikeDescribed> bikes = new TreeMap<>();
    final SortedMap<String, Event.ChainDescribed> chains = new TreeMap<>();
    final SortedMap<String, Event.ProductDescribed> products = new TreeMap<>();

    /** Treatments and remarks of a chain, by time. */
    final Map<String, List<Event>> stories = new HashMap<>();

    final Map<String, List<Event.Treated>> treatments = new HashMap<>();
    final Map<String, List<Event.Bought>> purchases = new HashMap<>();
    final Map<String, List<Event.Measured>> readings = new HashMap<>();
    final Map<String, List<Event.Remarked>> remarks = new HashMap<>();
    final Map<String, Flags> flags = new HashMap<>();
    final Map<String, String> bikeOfRide = new HashMap<>();
    final Map<String, Event.Told> told = new HashMap<>();
    final Map<String, Boolean> counts = new HashMap<>();
    final Map<String, String> twins = new HashMap<>();
    final Map<Rule.When, Rule> rules = new LinkedHashMap<>();
    final SortedMap<String, Event.MeterPlaced> meters = new TreeMap<>();
    final SortedMap<String, Event.FactorSet> factors = new TreeMap<>();
    final SortedMap<String, List<String>> settings = new TreeMap<>();
    final Map<String, Event.RoadWordSet> roadWords = new LinkedHashMap<>();
    final SortedMap<String, List<String>> evidence = new TreeMap<>();
    final Set<Event.ProductsSame> same = new LinkedHashSet<>();
    Event.SpeedBandSet speeds = Event.SpeedBandSet.USUAL;

    /** All of it, to be held against another: what is listed in the order in which it was taken in is so here. */
    List<Object> all() {
        return List.of(
                bikes,
                chains,
                products,
                stories,
                treatments,
                purchases,
                readings,
                remarks,
                flags,
                bikeOfRide,
                told,
                counts,
                twins,
                List.copyOf(rules.values()),
                meters,
                factors,
                settings,
                List.copyOf(roadWords.values()),
                evidence,
                same,
                speeds);
    }

    static <E> void add(Map<String, List<E>> lists, String key, E fact) {
        lists.computeIfAbsent(key, k -> new ArrayList<>()).add(fact);
    }

    static <V> void set(Map<String, V> map, String key, @Nullable V value) {
        if (value == null) {
            map.remove(key);
        } else {
            map.put(key, value);
        }
    }
}
