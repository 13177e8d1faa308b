package chainage.analysis;

import chainage.quantity.RideKey;
import chainage.ride.FiledRide;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Ids for the rides of one ledger: ten digits of the full id, and more where two begin alike, so that each is the
 * beginning of one ride's alone.
 *
 * <p>An id in a fact means the first ride kept that begins with it. That is certain: when the fact was stated, its id
 * was the beginning of one ride's alone, rides are never deleted, and what is imported later is kept behind. So facts
 * hold the id that was shown, which no later ride can take over, and those of ten digits stay as they are.
 */
final class RideNames {
    /** Rides whose ten digits are another's too, by those, in the order in which they are kept. */
    private final Map<String, List<RideKey>> alike = new HashMap<>();

    /** @param kept in the order in which they are kept */
    RideNames(List<FiledRide> kept) {
        Set<String> seen = new HashSet<>();
        for (FiledRide r : kept) {
            String shortest = r.ride().key().shortestId();
            if (!seen.add(shortest)) {
                alike.put(shortest, new ArrayList<>());
            }
        }
        if (alike.isEmpty()) {
            return;
        }
        for (FiledRide r : kept) {
            List<RideKey> others = alike.get(r.ride().key().shortestId());
            if (others != null) {
                others.add(r.ride().key());
            }
        }
        alike.replaceAll((shortest, keys) -> {
            List<String> ids = unique(keys.stream().map(RideKey::fullId).toList());
            List<RideKey> named = new ArrayList<>();
            for (int i = 0; i < ids.size(); i++) {
                named.add(RideKey.named(keys.get(i).digest(), keys.get(i).session(), ids.get(i)));
            }
            return named;
        });
    }

    /** The shortest beginnings, of ten digits or more, that are no other's. */
    static List<String> unique(List<String> full) {
        List<String> sorted = full.stream().sorted().toList();
        Map<String, String> ids = new HashMap<>();
        for (int i = 0; i < sorted.size(); i++) {
            String id = sorted.get(i);
            int before = i == 0 ? 0 : common(sorted.get(i - 1), id);
            int after = i == sorted.size() - 1 ? 0 : common(id, sorted.get(i + 1));
            ids.put(id, id.substring(0, Math.max(RideKey.SHORTEST, Math.max(before, after) + 1)));
        }
        return full.stream().map(ids::get).toList();
    }

    private static int common(String a, String b) {
        int n = 0;
        while (a.charAt(n) == b.charAt(n)) {
            n++;
        }
        return n;
    }

    /** The ride under its id in this ledger. */
    FiledRide name(FiledRide ride) {
        RideKey key = ride.ride().key();
        for (RideKey named : alike.getOrDefault(key.shortestId(), List.of())) {
            if (named.equals(key)) {
                return new FiledRide(ride.ride().withKey(named), ride.paths());
            }
        }
        return ride;
    }

    /** The id in this ledger of the ride that a fact's id means. */
    String meant(String stated) {
        if (stated.length() < RideKey.SHORTEST) {
            return stated;
        }
        return alike.getOrDefault(stated.substring(0, RideKey.SHORTEST), List.of()).stream()
                .filter(k -> k.begins(stated))
                .map(RideKey::id)
                .findFirst()
                .orElse(stated);
    }

    boolean isPlain() {
        return alike.isEmpty();
    }
}
