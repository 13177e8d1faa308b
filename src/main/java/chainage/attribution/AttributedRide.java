package chainage.attribution;

import chainage.ledger.Installation;
import chainage.ledger.Ledger;
import chainage.ledger.Rule;
import chainage.ride.FiledRide;
import java.time.Instant;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * An activity and the verdict on it.
 *
 * @param filed the activity
 * @param verdict whether it counts
 * @param because why it does or does not
 * @param guessed true when only its speed makes it a ride, the file stating no sport and the rider nothing
 * @param twinOf id of the ride it repeats; null unless it is a twin
 * @param twins the recordings that repeat it, richest first; empty for most
 * @param bike null when unknown
 * @param bikeFrom what named the bike; null when unknown
 * @param installation the chain on that bike then; null when none was
 * @param others the chains then on bikes that follow that one, which ran as well
 * @param wantsChain false where the rider says that a ride on that bike then counts for no chain
 */
public record AttributedRide(
        FiledRide filed,
        Verdict verdict,
        Because because,
        boolean guessed,
        @Nullable String twinOf,
        List<FiledRide> twins,
        @Nullable String bike,
        @Nullable BikeFrom bikeFrom,
        @Nullable Installation installation,
        List<Installation> others,
        boolean wantsChain) {
    public AttributedRide {
        others = List.copyOf(others);
        twins = List.copyOf(twins);
    }

    /** One that does not count. */
    static AttributedRide uncounted(FiledRide filed, Verdict verdict, Because because, @Nullable String twinOf) {
        return new AttributedRide(
                filed, verdict, because, false, twinOf, List.of(), null, null, null, List.of(), false);
    }

    /** True when it was on one of these bikes, or one of them followed with a chain of its own; for none, always. */
    public boolean wasOn(Set<String> bikes) {
        return bikes.isEmpty()
                || bikes.contains(String.valueOf(bike))
                || others.stream().anyMatch(o -> bikes.contains(o.bike()));
    }

    /** As the chain of a bike that follows has it. */
    public AttributedRide with(Installation other) {
        return on(other.bike(), new BikeFrom.Follows(String.valueOf(bike)), other, List.of(), true);
    }

    /** The same with the chains that its bike then has by what is stated. */
    AttributedRide chained(Ledger ledger) {
        Instant start = filed.ride().start();
        return bike == null
                ? this
                : on(
                        bike,
                        bikeFrom,
                        ledger.installedOn(bike, start).orElse(null),
                        ledger.followers(bike, start),
                        ledger.wantsChain(bike, start));
    }

    private AttributedRide on(
            String thatBike,
            @Nullable BikeFrom from,
            @Nullable Installation chain,
            List<Installation> more,
            boolean wants) {
        return new AttributedRide(filed, verdict, because, guessed, twinOf, twins, thatBike, from, chain, more, wants);
    }

    /** True when it counts, and no chain is known that it ran on, though one is wanted. */
    public boolean lacksChain() {
        return counted() && installation == null && wantsChain;
    }

    /** Whether an activity's metres count. */
    public enum Verdict {
        COUNTED,
        TWIN,
        NOT_A_RIDE
    }

    public String id() {
        return filed.id();
    }

    public boolean counted() {
        return verdict == Verdict.COUNTED;
    }

    /** True when nothing names its bike but that all else is on it. */
    public boolean byDefault() {
        return bikeFrom instanceof BikeFrom.ByRule r && r.when() instanceof Rule.Otherwise;
    }

    /** The chain it was ridden on; null when unknown. */
    public @Nullable String chain() {
        return installation == null ? null : installation.chain();
    }
}
