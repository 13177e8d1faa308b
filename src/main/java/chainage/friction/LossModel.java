package chainage.friction;

import chainage.drivetrain.ChainGeometry;
import chainage.drivetrain.Gear;

/**
 * Friction in the joints of a chain. Every joint bends as it runs onto a sprocket and straightens as it leaves, by the
 * angle α = 2π/N, against the pull T of its span: the work is W = κ·μ·r·T·α. Joints pass at f = ring · rpm/60 a second;
 * ring and cog bend each joint once under the tight span, whose pull is P/v + Ts, and once under the slack one, Ts; the
 * jockey wheels bend it four times under the slack one.
 *
 * <p>The term under the tight span is source 1 of Spicer et al., J. Mech. Des. 123 (2001) 598, and the offset term its
 * source 2, both seen as quoted by González Oneto (Universidad de los Andes). Tension on the slack side is an estimate.
 *
 * @param kappa how the pressure is spread over the pin: π/2 evenly (the published factor), 4/π like a cosine, 1 on a
 *     line
 * @param pinMetres radius of the pin (1.83 mm from memory of ISO 606; 1.76 mm in a published example)
 * @param slackNewtons pull of the slack span, 5 to 20 N (estimate)
 * @param upperJockey teeth; 0 for a drive without
 * @param lowerJockey teeth; 0 for a drive without
 * @param offsetDegrees angle by which the chain runs aslant
 * @param toothMetres depth of the tooth that a slanting link rubs on (the published study's roller radius)
 */
public record LossModel(
        double kappa,
        double pinMetres,
        double slackNewtons,
        int upperJockey,
        int lowerJockey,
        double offsetDegrees,
        double toothMetres) {
    /** The defaults, with two jockey wheels of 11 teeth and a straight chain. */
    public static final LossModel USUAL = new LossModel(Math.PI / 2, 1.83e-3, 10, 11, 11, 0, 3.74e-3);

    /** The loss at a coefficient of friction, to which it is proportional. */
    public Loss loss(Effort e, double mu) {
        Gear gear = e.gear();
        double passing = ChainGeometry.jointsPerSecond(gear.ring(), e.rpm());
        double speed = ChainGeometry.chainSpeed(gear.ring(), e.rpm(), ChainGeometry.PITCH_METRES);
        double tight = ChainGeometry.tension(e.watts(), speed) + slackNewtons;
        double angles = ChainGeometry.articulation(gear.ring()) + ChainGeometry.articulation(gear.cog());
        double jockeys = bend(upperJockey) + bend(lowerJockey);
        return new Loss(
                e.watts(),
                passing * articulation(tight, angles, mu),
                passing * articulation(slackNewtons, angles, mu),
                passing * articulation(slackNewtons, 2 * jockeys, mu),
                passing * mu * toothMetres * Math.sin(Math.toRadians(offsetDegrees)) * tight * angles);
    }

    /** Work of one joint bending once, joules. */
    public double articulation(double newtons, double radians, double mu) {
        return kappa * mu * pinMetres * newtons * radians;
    }

    private static double bend(int teeth) {
        return teeth == 0 ? 0 : ChainGeometry.articulation(teeth);
    }
}
