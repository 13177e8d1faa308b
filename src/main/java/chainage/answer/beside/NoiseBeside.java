package chainage.answer.beside;

import chainage.analysis.Analysis;
import chainage.exposure.RideExposure;
import chainage.ledger.Event;
import chainage.render.Formatter;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;

/** What is said beside a noise that was heard. */
public final class NoiseBeside {
    private NoiseBeside() {}

    /** Where a noise does not fall in use: which ride it is taken to be of, or that it says nothing. */
    public static List<String> of(Analysis before, String chain, Instant at, Formatter format) {
        Optional<Instant> treated = before.facts().treatments(chain).stream()
                .map(Event.Treated::at)
                .filter(t -> !t.isAfter(at))
                .max(Comparator.naturalOrder());
        Optional<RideExposure> last = Objects.requireNonNull(
                        before.exposures().chains().get(chain))
                .rides()
                .stream()
                .filter(ride -> ride.start().isBefore(at))
                .reduce((a, b) -> b);
        if (last.isEmpty()
                || treated.filter(t -> last.get().start().isBefore(t)).isPresent()) {
            return List.of(chain + " had not been ridden " + (treated.isEmpty() ? "" : "since it was treated ")
                    + "by then: a noise there says nothing of how long a treatment lasts");
        }
        return before.facts().installationOf(chain, at).isPresent()
                ? List.of()
                : List.of(chain + " was on no bike then: taken as heard in its last ride before, of "
                        + format.date(last.get().start()));
    }
}
