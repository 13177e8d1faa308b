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

    /** Diameter of the circle that the joints run on. Not pitch × teeth / π: a chain lies on its sprocket as a polygon. */
    public static double pitchDiameter(int teeth, double pitch) {
        return pitch / Math.sin(Math.PI / teeth);
    }

    /** Angle that a joint turns by when it runs onto the sprocket, and again when it leaves, radians. */
    public static double articulation(int teeth) {
        return 2 * Math.PI / teeth;
    }

    /** By what share the chain slows and quickens as each tooth passes. */
    public static double chordalDip(int teeth) {
        return 1 - Math.cos(Math.PI / teeth);
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

    /** Links that reach around two sprockets, before rounding up to an even number. */
    public static double links(int teeth1, int teeth2, double centres, double pitch) {
        double k = (teeth2 - teeth1) / (2 * Math.PI);
        return 2 * centres / pitch + (teeth1 + teeth2) / 2.0 + k * k * pitch / centres;
    }

    /** Distance of the centres that so many links span. */
    public static double centres(int teeth1, int teeth2, double links, double pitch) {
        double a = links - (teeth1 + teeth2) / 2.0;
        double k = (teeth2 - teeth1) / (2 * Math.PI);
        return pitch / 4 * (a + Math.sqrt(a * a - 8 * k * k));
    }

    /**
     * How often each joint runs over the cog in a kilometre.
     *
     * @param circumferenceMetres of the wheel
     * @param links of the chain
     */
    public static double passesPerKilometre(int cog, double circumferenceMetres, int links) {
        return cog * 1000 / (circumferenceMetres * links);
    }
}
