package chainage.drivetrain;

import chainage.ledger.Reading;

/**
 * Geometry of a roller chain on its sprockets. Formulae of engineering handbooks (Bhandari, "Design of Machine
 * Elements", chapter 14); lengths come out in the unit that the pitch goes in with.
 */
public final class ChainGeometry {
    /** The pitch of every bicycle chain, metres. */
    public static final double PITCH_METRES = Reading.PITCH_MILLIMETRES / 1000;

    private ChainGeometry() {}

    /** Angle that a joint turns by when it runs onto the sprocket, and again when it leaves, radians. */
    public static double articulation(int teeth) {
        return 2 * Math.PI / teeth;
    }

    /** Chain speed in pitch units a second, by the teeth that pass. */
    public static double chainSpeed(int ring, double rpm, double pitch) {
        return ring * pitch * rpm / 60;
    }

    /** Joints that run onto the chainring in a second. */
    public static double jointsPerSecond(int ring, double rpm) {
        return ring * rpm / 60;
    }

    /** Pull of the tight span above that of the slack one, newtons. */
    public static double tension(double watts, double metresPerSecond) {
        return watts / metresPerSecond;
    }
}
