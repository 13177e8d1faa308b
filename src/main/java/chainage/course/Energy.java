package chainage.course;

/**
 * Where the energy of a ride came from and went to, joules. What was pedalled equals the sum of all the rest.
 *
 * @param pedalled at the wheel
 * @param air lost to it
 * @param rolling lost in the tyres
 * @param bearings lost in the wheels' bearings
 * @param climbing stored in height; negative when the end lies lower
 * @param kinetic stored in speed
 * @param brakes lost in them
 */
public record Energy(
        double pedalled, double air, double rolling, double bearings, double climbing, double kinetic, double brakes) {
    static final Energy NOTHING = new Energy(0, 0, 0, 0, 0, 0, 0);

    Energy plus(Energy o) {
        return new Energy(
                pedalled + o.pedalled,
                air + o.air,
                rolling + o.rolling,
                bearings + o.bearings,
                climbing + o.climbing,
                kinetic + o.kinetic,
                brakes + o.brakes);
    }

    /** What does not add up, joules; only rounding. */
    public double residual() {
        return pedalled - (air + rolling + bearings + climbing + kinetic + brakes);
    }
}
