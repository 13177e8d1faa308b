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
    public static final Expected NONE = new Expected(0, 0, 0, 0);

    /** Of dry clean roads alone. */
    public static Expected dry(double percent) {
        return new Expected(percent, 0, 0, 0);
    }

    /** Of one ride. */
    static Expected of(RideExposure ride, Factors factors) {
        return of(
                ride.cleanPercent(), factors.wetAddsToWear(ride.condition()), factors.gritAddsToWear(ride.condition()));
    }

    /**
     * Of a stretch.
     *
     * @param clean what is expected of it were it dry and clean, per cent
     * @param wetter what its wet shares add to that, as part of it
     * @param grittier what its grit adds
     */
    public static Expected of(double clean, double wetter, double grittier) {
        return new Expected(clean, clean * wetter, clean * grittier, clean * wetter * grittier);
    }

    /** Of many rides. */
    static Expected of(Collection<RideExposure> rides, Factors factors) {
        return rides.stream().map(r -> of(r, factors)).reduce(NONE, Expected::plus);
    }

    public Expected plus(Expected other) {
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
