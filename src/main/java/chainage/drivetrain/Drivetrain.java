package chainage.drivetrain;

import chainage.ledger.Event;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/** The sprockets and the wheel of one bike, and which gear a development stands for. Immutable. */
public final class Drivetrain {
    /** Half of the band of development that rides are kept in, metres a turn. */
    private static final double HALF_BAND_METRES = 0.125;

    /** A development farther than this from every gear is none of them: slip of the sensors, soft pedalling (our guess). */
    private static final double FARTHEST_SHARE = 0.08;

    // Only to compare chain lines with each other, so that rough figures serve (our guesses).
    private static final double RINGS_APART_MM = 8;
    private static final double CASSETTE_MM = 40;

    private static final int SMALLEST_COG = 11;
    private static final int LARGEST_COG = 34;

    private final List<Integer> rings;
    private final List<Integer> cogs;
    private final double circumferenceMetres;
    private final List<Integer> jockeys;
    private final List<Gear> gears = new ArrayList<>();
    // Of each gear; every ride asks for them many times.
    private final double[] developments;
    private final double[] chainLines;

    /**
     * @param rings chainring teeth, ascending; empty when not entered
     * @param cogs cog teeth, ascending; empty when not entered
     * @param circumferenceMetres of the wheel
     * @param jockeys teeth of the jockey wheels; empty when not entered
     */
    public Drivetrain(List<Integer> rings, List<Integer> cogs, double circumferenceMetres, List<Integer> jockeys) {
        this.rings = List.copyOf(rings);
        this.cogs = List.copyOf(cogs);
        this.circumferenceMetres = circumferenceMetres;
        this.jockeys = List.copyOf(jockeys);
        for (int cog : cogs) {
            for (int ring : rings) {
                gears.add(new Gear(ring, cog));
            }
        }
        developments = gears.stream()
                .mapToDouble(g -> g.development(circumferenceMetres))
                .toArray();
        chainLines = gears.stream().mapToDouble(this::chainLine).toArray();
    }

    /**
     * What the rider told of a bike.
     *
     * @param bike null when the ride is on none
     * @param usualCircumference of a bike that states none, metres
     */
    public static Drivetrain of(Event.@Nullable BikeDescribed bike, double usualCircumference) {
        if (bike == null) {
            return new Drivetrain(List.of(), List.of(), usualCircumference, List.of());
        }
        Double wheel = bike.circumferenceMetres();
        return new Drivetrain(bike.rings(), bike.cogs(), wheel == null ? usualCircumference : wheel, bike.jockeys());
    }

    /** True when both rings and cogs are entered. */
    public boolean entered() {
        return !rings.isEmpty() && !cogs.isEmpty();
    }

    /** True for one entered cog: no derailleur, so no jockey wheels. */
    public boolean singleCog() {
        return cogs.size() == 1 && jockeys.isEmpty();
    }

    /** How a gear was found. */
    public enum How {
        /** The file names it. */
        STATED,
        /** The one gear of the bike near the development. */
        NEAREST,
        /** The straightest of several that the development cannot tell apart. */
        STRAIGHTEST,
        /** No gear of the bike is near. */
        NONE
    }

    /**
     * A gear and how sure it is.
     *
     * @param gear null when none is near
     */
    public record Match(@Nullable Gear gear, How how) {}

    /** All gears, rings within cogs. Empty unless entered. */
    public List<Gear> gears() {
        return List.copyOf(gears);
    }

    public double circumferenceMetres() {
        return circumferenceMetres;
    }

    /** Teeth of the jockey wheels; empty when not entered. */
    public List<Integer> jockeys() {
        return jockeys;
    }

    /**
     * The gear that a development stands for: of those inside its band, else as near as the nearest, the one with the
     * straightest chain.
     *
     * @param development metres a crank turn, the centre of a 0.25 m band; NaN matches none
     */
    public Match match(double development) {
        double nearest = Double.POSITIVE_INFINITY;
        for (double d : developments) {
            double away = Math.abs(d - development);
            nearest = away < nearest ? away : nearest;
        }
        if (!(nearest <= HALF_BAND_METRES + FARTHEST_SHARE * development)) {
            return new Match(null, How.NONE);
        }
        double within = Math.max(nearest, HALF_BAND_METRES);
        int straightest = -1;
        int near = 0;
        for (int i = 0; i < developments.length; i++) {
            if (Math.abs(developments[i] - development) <= within) {
                near++;
                straightest = straightest < 0 || chainLines[i] < chainLines[straightest] ? i : straightest;
            }
        }
        return new Match(gears.get(straightest), near > 1 ? How.STRAIGHTEST : How.NEAREST);
    }

    /**
     * The gear with the nearest development, of two as near the one with the larger cog. Cogs that were not entered are all
     * from 11 to 34 teeth (our guess).
     *
     * @param development metres a crank turn
     * @param usualRing of a bike whose rings were not entered
     */
    public Gear nearest(double development, int usualRing) {
        List<Integer> front = rings.isEmpty() ? List.of(usualRing) : rings;
        List<Integer> back = cogs.isEmpty()
                ? IntStream.rangeClosed(SMALLEST_COG, LARGEST_COG).boxed().toList()
                : cogs;
        return front.stream()
                .flatMap(ring -> back.stream().map(cog -> new Gear(ring, cog)))
                .min(Comparator.comparingDouble((Gear g) -> Math.abs(g.development(circumferenceMetres) - development))
                        .thenComparing(Gear::cog, Comparator.reverseOrder()))
                .orElseThrow();
    }

    /** How far the chain runs aslant, millimetres: big rings lie outside, big cogs inside. */
    double chainLine(Gear gear) {
        double ring = (rings.indexOf(gear.ring()) - (rings.size() - 1) / 2.0) * RINGS_APART_MM;
        double cog = ((cogs.size() - 1) / 2.0 - cogs.indexOf(gear.cog())) * CASSETTE_MM / cogs.size();
        return Math.abs(ring - cog);
    }
}
