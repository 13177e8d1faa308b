package chainage.evidence;

import chainage.exposure.Exposures;
import chainage.exposure.Factors;
import chainage.ledger.Ledger;
import chainage.ledger.Method;
import chainage.meter.RidePair;
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
 * @param pairs of power meters, in the same order
 */
public record RiderEvidence(List<TreatmentEvidence> treatments, List<ChainEvidence> chains, List<PairEvidence> pairs) {
    public RiderEvidence {
        treatments = sorted(treatments, EvidenceLines::line);
        chains = sorted(chains, EvidenceLines::line);
        pairs = sorted(pairs, EvidenceLines::line);
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
     * Of a ledger's treatments that were ridden on, of its chains that were read, and of rides with two power meters.
     *
     * @param paired the rides with two power meters
     * @param factors the table, with this rider's own values
     * @param named whether products are told by their names
     * @param least treatments of a product, of a method where products are not told; those with fewer are left out, and
     *     are not named where a chain was ridden on them
     */
    public static RiderEvidence of(
            Ledger ledger, Exposures exposures, List<RidePair> paired, Factors factors, boolean named, int least) {
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
        Set<String> kinds =
                told.stream().map(t -> what(t.method(), t.product())).collect(Collectors.toSet());
        return new RiderEvidence(
                told,
                ChainEvidence.of(ledger, exposures, names::contains, factors),
                PairEvidence.of(paired, (method, product) -> kinds.contains(what(method, product)), named));
    }

    private static String what(Method method, @Nullable String product) {
        return method.word() + " " + (product == null ? "" : ProductWord.of(product));
    }

    /** Lines as they are kept. */
    public String text() {
        return Stream.of(
                        treatments.stream().map(EvidenceLines::line),
                        chains.stream().map(EvidenceLines::line),
                        pairs.stream().map(EvidenceLines::line))
                .flatMap(lines -> lines)
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
        List<PairEvidence> pairs = new ArrayList<>();
        text.lines().map(EvidenceLines::parse).forEach(line -> {
            if (line.treatment() != null) {
                treatments.add(line.treatment());
            }
            if (line.chain() != null) {
                chains.add(line.chain());
            }
            if (line.pair() != null) {
                pairs.add(line.pair());
            }
        });
        return new RiderEvidence(treatments, chains, pairs);
    }

    /** Whether nothing is shown. */
    public boolean isEmpty() {
        return treatments.isEmpty() && chains.isEmpty() && pairs.isEmpty();
    }

    /** How many treatments were seen to their end. */
    public long ended() {
        return treatments.stream().filter(t -> t.end() == Life.End.NOISY).count();
    }

    /** How many readings there are. */
    public int readings() {
        return chains.stream().mapToInt(c -> c.readings().size()).sum();
    }

    /** How many rides with two power meters there are. */
    public int paired() {
        return pairs.stream().mapToInt(p -> p.rides().size()).sum();
    }

    /** The same without the products' words. */
    public RiderEvidence unnamed() {
        return new RiderEvidence(
                treatments.stream().map(TreatmentEvidence::unnamed).toList(),
                chains.stream().map(ChainEvidence::unnamed).toList(),
                pairs.stream().map(PairEvidence::unnamed).toList());
    }

    /**
     * What tells this rider from others. Rides with two power meters do only where nothing else is shown: whoever holds this
     * rider against the rides themselves would have to lay them over each other first.
     */
    public Marks marks() {
        if (treatments.isEmpty() && chains.isEmpty()) {
            return Marks.of(
                    pairs.stream().flatMap(p -> p.unnamed().rides().stream()).map(EvidenceLines::line));
        }
        return Marks.of(Stream.concat(
                treatments.stream().map(t -> EvidenceLines.line(t.unnamed())),
                chains.stream().flatMap(c -> c.readings().stream()).map(ReadingEvidence::mark)));
    }

    /** The words for products, each once. */
    public Stream<String> products() {
        return Stream.of(
                        treatments.stream().map(TreatmentEvidence::product),
                        chains.stream()
                                .flatMap(c -> c.readings().stream())
                                .flatMap(r -> r.ridden().stream())
                                .map(ReadingEvidence.Ridden::product),
                        pairs.stream().flatMap(p -> p.rides().stream()).map(PairEvidence.Ride::product))
                .flatMap(words -> words)
                .filter(Objects::nonNull)
                .distinct()
                .sorted();
    }
}
