package chainage.friction;

import java.util.List;

/**
 * Losses of several rides added up, with how many could not be told.
 *
 * @param rides how many
 * @param counted how many of them tell the power
 * @param seconds pedalled in those
 * @param crankJoules energy at the crank in those
 * @param usable share of that energy whose gear is known; 1 where there is none
 * @param lostJoules turned into heat
 * @param freshJoules what it would have been freshly treated
 */
public record LossSum(
        int rides,
        int counted,
        double seconds,
        double crankJoules,
        double usable,
        double lostJoules,
        double freshJoules) {

    public static LossSum of(List<RideLoss> losses) {
        List<RideLoss> counted = losses.stream().filter(RideLoss::counted).toList();
        double joules = counted.stream().mapToDouble(l -> l.pedalled().joules()).sum();
        double known = counted.stream()
                .mapToDouble(l -> l.pedalled().joules() * l.pedalled().usable())
                .sum();
        return new LossSum(
                losses.size(),
                counted.size(),
                counted.stream().mapToDouble(l -> l.pedalled().seconds()).sum(),
                joules,
                joules > 0 ? known / joules : 1,
                counted.stream().mapToDouble(RideLoss::joules).sum(),
                counted.stream().mapToDouble(RideLoss::freshJoules).sum());
    }

    /** Mean loss while pedalling, watts; NaN without power. */
    public double watts() {
        return lostJoules / seconds;
    }

    /** Low end of its band, watts. */
    public double wattsLow() {
        return Math.max(0, lostJoules - Loss.BAND * crankJoules) / seconds;
    }

    /** High end of its band, watts. */
    public double wattsHigh() {
        return (lostJoules + Loss.BAND * crankJoules) / seconds;
    }

    /** Watts more than freshly treated. */
    public double wattsOverFresh() {
        return (lostJoules - freshJoules) / seconds;
    }

    /** Share of the power that was lost. */
    public double share() {
        return lostJoules / crankJoules;
    }
}
