package chainage.attribution;

import chainage.ride.FiledRide;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** A recording that may be one of several of its outing, made ready to be held against many others. */
final class Recording {
    /** One outing's recordings overlap by more than this share of the shorter; our guess for "most of it". */
    static final double OVERLAP_SHARE = 0.5;
    /** Clocks of two devices may be so many milliseconds apart; our guess. It matters only for outings of a few minutes. */
    static final long CLOCKS = 60_000;

    /** What it does not say, or what no rule says of it. */
    static final int UNSAID = 0;

    /** Rank of what stands for no outing that another may join. */
    static final int NONE = Integer.MAX_VALUE;

    final FiledRide ride;
    /** Place by fullness among all, from 0, the fullest. */
    final int rank;
    /** Milliseconds since 1970. */
    final long start;
    /** As {@code start}; a recording without duration still fills a second. */
    final long end;

    /** Each {@link #UNSAID}, or a number: by the first that two both say in different words they are two outings. */
    final int[] says;
    /** Said to be an outing of its own: nobody's twin, and with none but by the rider's word. */
    final boolean alone;

    /** Where it lies among others: what it says, its start, its end. */
    final double[] at;

    private @Nullable Recording twinOf;
    private final List<Recording> twins = new ArrayList<>(0);
    /** True when others may become its twin: it stands for its outing, or the rider said of what it is a recording. */
    private boolean stands;
    /** What it says, and where it says nothing, what its twins say. */
    private final int[] outingSays;

    private Crowd.@Nullable Node leaf;

    /**
     * @param kind number of its sport
     * @param tie number of the bike that evidence or its path ties it to
     * @param place number of the bike that its path ties it to, or that all are on whose path says nothing
     */
    Recording(FiledRide ride, int rank, int kind, int tie, int place, boolean alone) {
        this.ride = ride;
        this.rank = rank;
        this.start = ride.ride().start().toEpochMilli();
        this.end = end(ride);
        this.says = new int[] {kind, tie, place};
        this.outingSays = says.clone();
        this.alone = alone;
        this.at = new double[] {kind, tie, place, start, end};
    }

    static long end(FiledRide ride) {
        return Math.max(ride.ride().end().toEpochMilli(), ride.ride().start().toEpochMilli() + 1000);
    }

    /** Milliseconds. */
    static long length(FiledRide ride) {
        return end(ride) - ride.ride().start().toEpochMilli();
    }

    long length() {
        return end - start;
    }

    boolean isTwin() {
        return twinOf != null;
    }

    /** What its outing says, if it stands for one. */
    int outingSays(int way) {
        return outingSays[way];
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

    /** Rank of the outing that another may join by this; {@link #NONE} where none may. */
    int offered() {
        return !stands || alone || root().alone ? NONE : root().rank;
    }

    void in(Crowd.Node node) {
        leaf = node;
    }

    /** From now on others may become its twin. */
    void stand() {
        if (!stands) {
            stands = true;
            tell();
        }
    }

    /** Makes it the twin of another, and its own twins with it. */
    void join(Recording other) {
        twinOf = other;
        other.twins.add(this);
        Recording root = other.root();
        for (int i = 0; i < says.length; i++) {
            root.outingSays[i] = root.outingSays[i] == UNSAID ? outingSays[i] : root.outingSays[i];
        }
        // Those that followed it stand under another rank; a poorer one than before is found out when it is met.
        if (root.rank < rank) {
            List<Recording> all = new ArrayList<>(List.of(this));
            for (int i = 0; i < all.size(); i++) {
                all.get(i).tell();
                all.addAll(all.get(i).twins);
            }
        }
    }

    private void tell() {
        if (leaf != null && stands) {
            leaf.lower(offered());
        }
    }

    /**
     * True when the outing that this one stands for and that of another may be one: a bike cannot be ridden twice at one
     * time. What one file calls cycling and the other something else is not one outing, nor is what is on two bikes.
     */
    boolean agrees(Recording o) {
        return overlapsMostly(o) && goesWith(o.says) && goesWith(o.root().outingSays);
    }

    private boolean goesWith(int[] others) {
        for (int i = 0; i < says.length; i++) {
            if (outingSays[i] != UNSAID && others[i] != UNSAID && outingSays[i] != others[i]) {
                return false;
            }
        }
        return true;
    }

    private boolean overlapsMostly(Recording o) {
        long overlap = Math.min(end, o.end) - Math.max(start, o.start);
        double needed = OVERLAP_SHARE * Math.min(length(), o.length());
        return overlap > needed
                || (overlap + CLOCKS > needed
                        && !oneClock(ride, o.ride)
                        && Disagreement.of(ride, o.ride).isEmpty());
    }

    /** One device has one clock, and so has one file. */
    static boolean oneClock(FiledRide a, FiledRide b) {
        return a.ride().key().digest().equals(b.ride().key().digest())
                || a.ride().devices().stream()
                        .filter(d -> d.type().equals("head_unit"))
                        .anyMatch(b.ride().devices()::contains);
    }
}
