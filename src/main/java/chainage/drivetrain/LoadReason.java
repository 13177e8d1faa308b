package chainage.drivetrain;

/** One of the things that a ride's load rests on. Shares are of the ride's, 0 to 1. */
public sealed interface LoadReason {
    /**
     * The file holds no power.
     *
     * @param cadence whether it holds cadence, which does not say how hard
     */
    record NoPower(boolean cadence) implements LoadReason {}

    /** Power without the time that it was held. */
    record NoTime() implements LoadReason {}

    /** Nothing to spread the work over. */
    record NoDistance() implements LoadReason {}

    /**
     * Power without cadence: the mean power in one gear.
     *
     * @param only true when the bike has no other gear
     */
    record MeanPower(Gear gear, boolean only) implements LoadReason {}

    /**
     * Power and cadence whose gears are not known: all in the reference gear.
     *
     * @param entered whether the bike's rings and cogs are, so that none of its gears fits
     */
    record ReferenceGear(Gear gear, boolean entered) implements LoadReason {}

    /** Power and cadence, by gear. */
    record ByGear(Gears gears) implements LoadReason {}

    /** How the gears are known. */
    enum Gears {
        /** The file names them. */
        STATED,
        /** Speed and cadence tell them. */
        BY_DEVELOPMENT,
        /** Some so, some so. */
        BOTH
    }

    /** A share of the energy that fits no gear of the bike, and the gear taken for it. */
    record Unfitting(double share, Gear as) implements LoadReason {}

    /** A share of the energy that several gears fit, the straighter chain taken. */
    record Several(double share) implements LoadReason {}

    /** A share of the energy without cadence, or with one of nought, taken as in the same gears. */
    record WithoutCadence(double share) implements LoadReason {}

    /** A share of the time that has no cadence, taken to be like the rest. */
    record Uncovered(double share) implements LoadReason {}

    /** More power than anybody holds so long, cut to the most. */
    record Cut(double watts, double most) implements LoadReason {}

    /** A load beyond what is believed, and what it is taken as. */
    record Bound(double exact, double value) implements LoadReason {}

    /**
     * A motor pulls on the chain too.
     *
     * @param mark where the figure is from, as the factor table says
     */
    record Motor(double times, String mark) implements LoadReason {}
}
