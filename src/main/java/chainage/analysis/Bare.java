package chainage.analysis;

import chainage.attribution.AttributedRide;
import chainage.exposure.Exposures;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Counted rides of one bike, or of none, that lack a chain.
 *
 * @param bike null for none
 * @param rides how many, more than none
 * @param metres as they would count
 * @param first when the first of them began
 * @param id of that one
 */
public record Bare(@Nullable String bike, int rides, double metres, Instant first, String id) {
    /** Those of every bike, in the order of their first. */
    static List<Bare> of(Exposures exposures) {
        Map<Optional<String>, List<AttributedRide>> byBike = new LinkedHashMap<>();
        exposures
                .unattributed()
                .forEach(r -> byBike.computeIfAbsent(Optional.ofNullable(r.bike()), b -> new ArrayList<>())
                        .add(r));
        List<Bare> all = new ArrayList<>();
        byBike.forEach((bike, rides) -> {
            AttributedRide first = rides.get(0);
            double metres = rides.stream().mapToDouble(exposures::metresOf).sum();
            all.add(new Bare(
                    bike.orElse(null),
                    rides.size(),
                    metres,
                    first.filed().ride().start(),
                    first.id()));
        });
        return List.copyOf(all);
    }
}
