package chainage.drivetrain;

/**
 * One chainring with one cog.
 *
 * @param ring teeth in front
 * @param cog teeth at the back
 */
public record Gear(int ring, int cog) {
    public Gear {
        if (ring < 1 || cog < 1) {
            throw new IllegalArgumentException(ring + "x" + cog + " is no gear");
        }
    }

    /** 1/ring + 1/cog: what a joule at the crank is multiplied by to give the sliding in the joints. */
    public double bend() {
        return 1.0 / ring + 1.0 / cog;
    }

    /** Metres a crank turn. */
    public double development(double circumferenceMetres) {
        return circumferenceMetres * ring / cog;
    }

    /** As the trade writes it, such as 52x15. */
    @Override
    public String toString() {
        return ring + "x" + cog;
    }
}
