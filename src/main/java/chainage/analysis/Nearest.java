package chainage.analysis;

import chainage.standing.Standing;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * The chain that an answer names, of several.
 *
 * @param chain the nearest its limit of those on a bike, else of those on the shelf
 * @param shelfAhead chains on the shelf that are due and further gone than that one, nearest first: each needs its
 *     treatment, or its end, before it goes back on
 */
public record Nearest(Standing chain, List<Standing> shelfAhead) {
    /**
     * Chooses.
     *
     * @param standings nearest its limit first
     * @return empty where there are none
     */
    public static Optional<Nearest> of(List<Standing> standings) {
        return Stream.concat(
                        standings.stream().filter(s -> s.bike() != null),
                        standings.stream().filter(s -> s.bike() == null))
                .findFirst()
                .map(chain -> new Nearest(
                        chain,
                        standings.stream()
                                .filter(s -> chain.bike() != null && s.bike() == null)
                                .filter(s -> s.due() && s.used() > chain.used())
                                .toList()));
    }
}
