package chainage.evidence;

import chainage.exposure.Exposures;
import chainage.ledger.Ledger;
import chainage.treatment.Life;
import chainage.treatment.Lived;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * What one rider's treatments have shown.
 *
 * @param treatments in the order of their lines' letters, which tells nothing of when they were
 */
public record RiderEvidence(List<TreatmentEvidence> treatments) {
    /** From so many treatments on two riders are held against each other. */
    private static final int LEAST_ALIKE = 5;

    /** From this share of the shorter one's treatments on they are the same rider; our choice. */
    private static final double ALIKE = 0.75;

    public RiderEvidence {
        treatments = treatments.stream()
                .sorted(Comparator.comparing(EvidenceLines::line))
                .toList();
    }

    /**
     * Of a ledger's treatments that were ridden on.
     *
     * @param named whether products are told by their names
     * @param least treatments of a product, of a method where products are not told; those with fewer are left out
     */
    public static RiderEvidence of(Ledger ledger, Exposures exposures, boolean named, int least) {
        List<TreatmentEvidence> all = Lived.of(ledger, exposures).stream()
                .map(l -> TreatmentEvidence.of(l, named))
                .filter(t -> t.km().total() > 0)
                .toList();
        Map<String, Long> count =
                all.stream().collect(Collectors.groupingBy(RiderEvidence::what, Collectors.counting()));
        return new RiderEvidence(all.stream()
                .filter(t -> Objects.requireNonNull(count.get(what(t))) >= least)
                .toList());
    }

    private static String what(TreatmentEvidence t) {
        return t.method().word() + " " + (t.product() == null ? "" : ProductWord.of(t.product()));
    }

    /** Lines as they are kept. */
    public String text() {
        return treatments.stream().map(EvidenceLines::line).collect(Collectors.joining("\n"));
    }

    /**
     * What was kept.
     *
     * @throws IllegalArgumentException when a line is not what {@link #text} writes
     */
    public static RiderEvidence parse(String text) {
        return new RiderEvidence(
                text.lines().map(line -> EvidenceLines.parse(line).treatment()).toList());
    }

    /** How many treatments were seen to their end. */
    public long ended() {
        return treatments.stream().filter(t -> t.end() == Life.End.NOISY).count();
    }

    /** The same without the products' words. */
    public RiderEvidence unnamed() {
        return new RiderEvidence(
                treatments.stream().map(TreatmentEvidence::unnamed).toList());
    }

    /** Everything that a treatment showed but the product's word, and how often. */
    Map<TreatmentEvidence, Long> shown() {
        return treatments.stream()
                .map(TreatmentEvidence::unnamed)
                .collect(Collectors.groupingBy(Function.identity(), HashMap::new, Collectors.counting()));
    }

    /**
     * True when the two can hardly be two riders: most of what the shorter one shows the other shows as well. A file made
     * later holds what the earlier one held; chance does not make five treatments alike in kilometres, roads and end.
     */
    public boolean isSameRider(RiderEvidence other) {
        int shorter = Math.min(treatments.size(), other.treatments.size());
        if (shorter < LEAST_ALIKE) {
            return shown().equals(other.shown());
        }
        Map<TreatmentEvidence, Long> there = other.shown();
        long both = shown().entrySet().stream()
                .mapToLong(e -> Math.min(e.getValue(), there.getOrDefault(e.getKey(), 0L)))
                .sum();
        return both >= ALIKE * shorter;
    }

    /** The words for products, each once. */
    public Stream<String> products() {
        return treatments.stream()
                .flatMap(t -> Stream.ofNullable(t.product()))
                .distinct()
                .sorted();
    }
}
