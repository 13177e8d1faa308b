package chainage.wear;

import chainage.exposure.Factors;
import chainage.exposure.RideExposure;
import java.util.Collection;

/**
 * Elongation that the table expects of some rides, per cent, parted by what of it is owed to wet and to grit: with the
 * wet counting w times what the table says it does beyond a dry road, and grit g times, it is dry + w wet + g grit + w g
 * both. So more wet never counts less, and a dry clean road always the same.
 *
 * @param dry as if all of it had been dry and clean
 * @param wet what wet roads add to that, were they clean
 * @param grit what grit adds, were it dry
 * @param both what wet and grit add together beside these
 */
public record Expected(double dry, double wet, double grit, double both) {
    static final Expected NONE = new Expected(0, 0, 0, 0);

    /** Of dry clean roads alone. */
    public static Expected dry(double percent) {
        return new Expected(percent, 0, 0, 0);
    }

    /** Of one ride. */
    static Expected of(RideExposure ride, Factors factors) {
        double clean = ride.cleanPercent();
        double wetter = factors.wetAddsToWear(ride.condition());
        double grittier = factors.gritAddsToWear(ride.condition());
        return new Expected(clean, clean * wetter, clean * grittier, clean * wetter * grittier);
    }

    /** Of many rides. */
    static Expected of(Collection<RideExposure> rides, Factors factors) {
        return rides.stream().map(r -> of(r, factors)).reduce(NONE, Expected::plus);
    }

    Expected plus(Expected other) {
        return plus(other, 1);
    }

    Expected plus(Expected other, double times) {
        return new Expected(
                dry + times * other.dry, wet + times * other.wet, grit + times * other.grit, both + times * other.both);
    }

    Expected times(double many) {
        return NONE.plus(this, many);
    }

    /** As the table has it, per cent. */
    public double percent() {
        return percent(1, 1);
    }

    /** With wet and grit counting so many times what the table has them add, per cent. */
    double percent(double wetter, double grittier) {
        return dry + wetter * wet + grittier * (grit + wetter * both);
    }

    /** Whether any of it was wet or damp. */
    public boolean hasWet() {
        return wet != 0 || both != 0;
    }

    /** Whether any of it was dusty or gritty. */
    public boolean hasGrit() {
        return grit != 0 || both != 0;
    }
}
