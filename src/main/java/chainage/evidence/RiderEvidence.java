package chainage.evidence;

import chainage.exposure.Exposures;
import chainage.exposure.Factors;
import chainage.ledger.Ledger;
import chainage.ledger.Method;
import chainage.treatment.Life;
import chainage.treatment.Lived;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * What one rider's chains have shown.
 *
 * @param treatments in the order of their lines' letters, which tells nothing of when they were
 * @param chains with readings, in the same order
 */
public record RiderEvidence(List<TreatmentEvidence> treatments, List<ChainEvidence> chains) {
    public RiderEvidence {
        treatments = sorted(treatments, EvidenceLines::line);
        chains = sorted(chains, EvidenceLines::line);
    }

    /** A line is made once for each, not at every comparison. */
    private static <T> List<T> sorted(List<T> all, Function<T, String> line) {
        return all.stream()
                .map(t -> Map.entry(line.apply(t), t))
                .sorted(Map.Entry.comparingByKey())
                .map(Map.Entry::getValue)
                .toList();
    }

    /**
     * Of a ledger's treatments that were ridden on, and of its chains that were read.
     *
     * @param factors the table, with this rider's own values
     * @param named whether products are told by their names
     * @param least treatments of a product, of a method where products are not told; those with fewer are left out, and
     *     are not named where a chain was ridden on them
     */
    public static RiderEvidence of(Ledger ledger, Exposures exposures, Factors factors, boolean named, int least) {
        List<TreatmentEvidence> all = Lived.of(ledger, exposures).stream()
                .map(l -> TreatmentEvidence.of(l, named))
                .filter(t -> t.km().total() > 0)
                .toList();
        Map<String, Long> count =
                all.stream().collect(Collectors.groupingBy(t -> what(t.method(), t.product()), Collectors.counting()));
        List<TreatmentEvidence> told = all.stream()
                .filter(t -> Objects.requireNonNull(count.get(what(t.method(), t.product()))) >= least)
                .toList();
        Set<String> names =
                told.stream().flatMap(t -> Stream.ofNullable(t.product())).collect(Collectors.toSet());
        return new RiderEvidence(told, ChainEvidence.of(ledger, exposures, names::contains, factors));
    }

    private static String what(Method method, @Nullable String product) {
        return method.word() + " " + (product == null ? "" : ProductWord.of(product));
    }

    /** Lines as they are kept. */
    public String text() {
        return Stream.concat(
                        treatments.stream().map(EvidenceLines::line),
                        chains.stream().map(EvidenceLines::line))
                .collect(Collectors.joining("\n"));
    }

    /**
     * What was kept.
     *
     * @throws IllegalArgumentException when a line is not what {@link #text} writes
     */
    public static RiderEvidence parse(String text) {
        List<TreatmentEvidence> treatments = new ArrayList<>();
        List<ChainEvidence> chains = new ArrayList<>();
        text.lines().map(EvidenceLines::parse).forEach(line -> {
            if (line.treatment() != null) {
                treatments.add(line.treatment());
            }
            if (line.chain() != null) {
                chains.add(line.chain());
            }
        });
        return new RiderEvidence(treatments, chains);
    }

    /** Whether nothing is shown. */
    public boolean isEmpty() {
        return treatments.isEmpty() && chains.isEmpty();
    }

    /** How many treatments were seen to their end. */
    public long ended() {
        return treatments.stream().filter(t -> t.end() == Life.End.NOISY).count();
    }

    /** How many readings there are. */
    public int readings() {
        return chains.stream().mapToInt(c -> c.readings().size()).sum();
    }

    /** The same without the products' words. */
    public RiderEvidence unnamed() {
        return new RiderEvidence(
                treatments.stream().map(TreatmentEvidence::unnamed).toList(),
                chains.stream().map(ChainEvidence::unnamed).toList());
    }

    /** What tells this rider from others. */
    public Marks marks() {
        return Marks.of(Stream.concat(
                treatments.stream().map(t -> EvidenceLines.line(t.unnamed())),
                chains.stream().flatMap(c -> c.readings().stream()).map(ReadingEvidence::mark)));
    }

    /** The words for products, each once. */
    public Stream<String> products() {
        return Stream.concat(
                        treatments.stream().flatMap(t -> Stream.ofNullable(t.product())),
                        chains.stream()
                                .flatMap(c -> c.readings().stream())
                                .flatMap(r -> r.ridden().stream())
                                .flatMap(r -> Stream.ofNullable(r.product())))
                .distinct()
                .sorted();
    }
}
