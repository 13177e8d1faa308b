package chainage.attribution;

import chainage.ride.FiledRide;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** A recording that may be one of several of its outing, made ready to be held against many others. */
final class Recording {
    /** Distances of twins agree within this share of the longer; our guess, wide enough for a wheel size set wrong. */
    static final double DISTANCE_SHARE = 0.05;
    /** Twins overlap by more than this share of the shorter; our guess for "most of it". */
    static final double OVERLAP_SHARE = 0.5;
    /** Clocks of two devices may be so many milliseconds apart; our guess. It matters only for outings of a few minutes. */
    static final long CLOCKS = 60_000;

    /** No bike that a rule is certain of. */
    static final int UNTIED = 0;

    /** Rank of what stands for no outing that another may join. */
    static final int NONE = Integer.MAX_VALUE;

    final FiledRide ride;
    /** Place by richness among all, from 0, the richest. */
    final int rank;
    /** Milliseconds since 1970. */
    final long start;
    /** As {@code start}; a recording without duration still fills a second. */
    final long end;

    final double metres;
    /** Two that are 2 apart are of different sports. */
    final int kind;
    /** Number of the bike that it is tied to, or {@link #UNTIED}. */
    final int tie;
    /** Said to be an outing of its own: nobody's twin, and with none but by the rider's word. */
    final boolean alone;

    /** Where it lies among others: kind, tie, start, end, metres. */
    final double[] at;

    private @Nullable Recording twinOf;
    private final List<Recording> twins = new ArrayList<>(0);
    /** True when others may become its twin: it is richer than those to come, or one points to it already. */
    private boolean offered;

    private Crowd.@Nullable Node leaf;

    Recording(FiledRide ride, int rank, int kind, int tie, boolean alone) {
        this.ride = ride;
        this.rank = rank;
        this.start = ride.ride().start().toEpochMilli();
        this.end = end(ride);
        this.metres = ride.ride().distance().metres();
        this.kind = kind;
        this.tie = tie;
        this.alone = alone;
        this.at = new double[] {kind, tie, start, end, metres};
    }

    static long end(FiledRide ride) {
        return Math.max(ride.ride().end().toEpochMilli(), ride.ride().start().toEpochMilli() + 1000);
    }

    long length() {
        return end - start;
    }

    boolean isTwin() {
        return twinOf != null;
    }

    /** The recording that stands for the outing, as far as is known. */
    Recording root() {
        Recording root = this;
        for (Recording of = root.twinOf; of != null; of = root.twinOf) {
            root = of;
        }
        // The next one that asks has a short way.
        Recording at = this;
        while (at != root && at.twinOf != null) {
            Recording of = at.twinOf;
            at.twinOf = root;
            at = of;
        }
        return root;
    }

    /** Rank of what stands for its outing; {@link #NONE} where no other may join by itself. */
    int outing() {
        return alone || root().alone ? NONE : root().rank;
    }

    boolean offered() {
        return offered;
    }

    void in(Crowd.Node node) {
        leaf = node;
    }

    /** From now on others may become its twin. */
    void offer() {
        if (!offered) {
            offered = true;
            tell();
        }
    }

    /** Makes it the twin of another, and its own twins with it. */
    void join(Recording other) {
        twinOf = other;
        other.twins.add(this);
        other.offer();
        // Those that followed it stand under another rank; a poorer one than before is found out when it is met.
        if (other.root().rank < rank) {
            List<Recording> all = new ArrayList<>(List.of(this));
            for (int i = 0; i < all.size(); i++) {
                all.get(i).tell();
                all.addAll(all.get(i).twins);
            }
        }
    }

    private void tell() {
        if (leaf != null) {
            leaf.lower(outing(), offered);
        }
    }

    /** What one file calls cycling and the other something else is not one outing, unless the rider says otherwise. */
    private boolean sportsAgree(Recording o) {
        return Math.abs(kind - o.kind) < 2;
    }

    boolean bikesAgree(Recording o) {
        return tie == UNTIED || o.tie == UNTIED || tie == o.tie;
    }

    /** True when the two may record one outing. */
    boolean agrees(Recording o) {
        return sportsAgree(o) && bikesAgree(o) && overlapsMostly(o) && distancesAgree(o);
    }

    /** True when this is a salvaged recording of which the other holds more: a copy that was cut short, say. */
    boolean brokeOff(Recording whole) {
        return isPart()
                && metres < whole.metres
                && start >= whole.start - CLOCKS
                && end <= whole.end + CLOCKS
                && sportsAgree(whole)
                && bikesAgree(whole)
                && !agrees(whole);
    }

    boolean isPart() {
        return ride.ride().salvaged() != null;
    }

    private boolean overlapsMostly(Recording o) {
        long overlap = Math.min(end, o.end) - Math.max(start, o.start);
        double needed = OVERLAP_SHARE * Math.min(length(), o.length());
        return overlap > needed || (overlap + CLOCKS > needed && !oneClock(o));
    }

    /** One device has one clock, and so has one file. */
    private boolean oneClock(Recording o) {
        return ride.ride().key().digest().equals(o.ride.ride().key().digest())
                || ride.ride().devices().stream()
                        .filter(d -> d.type().equals("head_unit"))
                        .anyMatch(o.ride.ride().devices()::contains);
    }

    /** A device that logged no distance at all disagrees with none. */
    private boolean distancesAgree(Recording o) {
        double longer = Math.max(metres, o.metres);
        double shorter = Math.min(metres, o.metres);
        return shorter == 0 || longer - shorter <= DISTANCE_SHARE * longer;
    }
}
