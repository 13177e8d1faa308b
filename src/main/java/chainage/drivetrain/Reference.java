package chainage.drivetrain;

/**
 * The rider that loads are compared with, and the bounds of what is believed.
 *
 * @param watts at the crank while pedalling
 * @param rpm cadence
 * @param gear ridden, also where a ride's own gear is not known
 * @param pedalled share of the distance pedalled
 * @param metresPerSecond speed while pedalling
 * @param leastLoad smallest load that is believed
 * @param mostLoad greatest load that is believed
 * @param lastingWatts power that can be held without end; with {@code spareJoules} the most a rider can do
 * @param spareJoules work that can be done above it
 */
public record Reference(
        double watts,
        double rpm,
        Gear gear,
        double pedalled,
        double metresPerSecond,
        double leastLoad,
        double mostLoad,
        double lastingWatts,
        double spareJoules) {
    /** Sliding work a metre: joules a metre at the crank × (1/ring + 1/cog). */
    public double slidingPerMetre() {
        return watts * pedalled / metresPerSecond * gear.bend();
    }

    /** The most mean power that anybody holds for so long: lasting power, and the spare work spread over the time. */
    public double mostWatts(double seconds) {
        return lastingWatts + spareJoules / seconds;
    }
}
