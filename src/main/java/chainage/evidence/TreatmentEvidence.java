package chainage.evidence;

import chainage.exposure.Factors;
import chainage.exposure.Leaning;
import chainage.exposure.RideExposure;
import chainage.ledger.Cleaning;
import chainage.ledger.Event;
import chainage.ledger.Method;
import chainage.treatment.Life;
import chainage.treatment.Lived;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What one treatment of somebody's chain has shown.
 *
 * @param method how it was treated
 * @param product with what, in the rider's word; null where that is not told
 * @param cleaning before it
 * @param load mean over its kilometres, against the reference rider's; in tenths
 * @param km ridden on it
 * @param last of these, the ride in which it was heard; none where it was not
 * @param end why it was not seen to go further
 */
public record TreatmentEvidence(
        Method method,
        @Nullable String product,
        Cleaning cleaning,
        double load,
        RoadKilometres km,
        RoadKilometres last,
        Life.End end) {

    /** Of a treatment as its rider knows it. */
    static TreatmentEvidence of(Lived lived, boolean named) {
        List<RideExposure> rides = lived.rides();
        RoadKilometres km = RoadKilometres.of(rides);
        RoadKilometres last = lived.end() == Life.End.NOISY && !rides.isEmpty()
                ? RoadKilometres.of(rides.subList(rides.size() - 1, rides.size()))
                        .atMost(km)
                : RoadKilometres.NONE;
        double metres = rides.stream().mapToDouble(r -> r.metres().metres()).sum();
        double load = rides.stream()
                .mapToDouble(r -> r.load().value() * r.metres().metres())
                .sum();
        Method method = lived.product().method();
        String word = lived.product().product();
        return new TreatmentEvidence(
                method,
                named && !word.equals(method.word()) ? word : null,
                lived.treated().cleaning(),
                metres > 0 ? Math.rint(10 * load / metres) / 10 : 1,
                km,
                last,
                lived.end());
    }

    /** The same without the product's word: what makes a treatment the same, whoever wrote it how. */
    TreatmentEvidence unnamed() {
        return new TreatmentEvidence(method, null, cleaning, load, km, last, end);
    }

    /** How it ended, in the word of the files. */
    public String endWord() {
        return EvidenceLines.word(end);
    }

    /**
     * Its life.
     *
     * @param as the product's name where the reader knows it by one
     */
    public Life life(String as, Factors factors) {
        return new Life(
                "",
                new Event.ProductDescribed(as, method, null, null),
                Instant.EPOCH,
                km.minus(last).mix(method, factors),
                km.mix(method, factors),
                Leaning.NONE,
                end);
    }
}
