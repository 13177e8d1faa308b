package chainage.analysis;

import chainage.evidence.Marks;
import chainage.meter.OtherLoss;
import chainage.meter.RiderLoss;
import chainage.quantity.ContentDigest;
import chainage.treatment.OtherRiders;
import chainage.treatment.RiderLives;
import chainage.wear.OtherWear;
import chainage.wear.RiderWear;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * What other riders' chains have shown, in so few figures that a new answer follows from them without a look at the
 * evidence: making them of a thousand riders takes seconds.
 *
 * @param riders each once, those that show most first
 * @param own places in that list of whom this ledger is itself, and who are not weighed
 * @param weighed what the treatments of all others together say
 * @param wear what their readings do
 * @param loss what their rides with two power meters do
 */
public record Gleaned(List<Rider> riders, List<Integer> own, OtherRiders weighed, OtherWear wear, OtherLoss loss) {
    public Gleaned {
        riders = List.copyOf(riders);
        own = List.copyOf(own);
    }

    /** Riders without those at some places. */
    public static List<Rider> but(List<Rider> riders, List<Integer> places) {
        return IntStream.range(0, riders.size())
                .filter(r -> !places.contains(r))
                .mapToObj(riders::get)
                .toList();
    }

    /**
     * One rider.
     *
     * @param marks that tell the rider from others
     * @param lives what the rider's treatments alone say
     * @param wear what the rider's readings do
     * @param loss what the rider's rides with two power meters do
     */
    public record Rider(Marks marks, RiderLives lives, RiderWear wear, RiderLoss loss) {}

    /** Where such figures are kept, by the content that they follow from: evidence, names of products and factors. */
    public interface Kept {
        /** Nowhere. */
        Kept NOWHERE = new Kept() {
            @Override
            public Optional<Gleaned> of(ContentDigest content) {
                return Optional.empty();
            }

            @Override
            public void keep(ContentDigest content, Gleaned gleaned) {
                // They are worked out again.
            }
        };

        /** What was kept of that content. */
        Optional<Gleaned> of(ContentDigest content);

        /** Keeps it in place of what was kept before. */
        void keep(ContentDigest content, Gleaned gleaned);
    }
}
