package chainage.evidence;

import chainage.exposure.Exposures;
import chainage.ledger.Ledger;
import chainage.treatment.Life;
import chainage.treatment.Lived;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * What one rider's treatments have shown.
 *
 * @param treatments in the order of their lines' letters, which tells nothing of when they were
 */
public record RiderEvidence(List<TreatmentEvidence> treatments) {
    public RiderEvidence {
        // A line is made once for each, not at every comparison.
        treatments = treatments.stream()
                .map(t -> Map.entry(EvidenceLines.line(t), t))
                .sorted(Map.Entry.comparingByKey())
                .map(Map.Entry::getValue)
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

    /** What tells this rider from others. */
    public Marks marks() {
        return Marks.of(treatments.stream().map(t -> EvidenceLines.line(t.unnamed())));
    }

    /** The words for products, each once. */
    public Stream<String> products() {
        return treatments.stream()
                .flatMap(t -> Stream.ofNullable(t.product()))
                .distinct()
                .sorted();
    }
}
