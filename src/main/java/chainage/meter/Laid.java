package chainage.meter;

/** What came of laying two traces of power over each other. */
public sealed interface Laid {
    /**
     * Two traces that are of one ride.
     *
     * @param lagSeconds by how much the clock behind the chain is ahead of the one before it
     * @param correlation of the two by the minute, at that lag; at most 1
     * @param minutes that were compared: steady pedalling, recorded by both, in whole stretches
     * @param beforeWatts mean before the chain over these
     * @param behindWatts mean behind it over the same time
     * @param logRatio ln(behind ÷ before) of the energy
     * @param error what the minutes' own scatter leaves open of that, as a standard deviation
     */
    record Over(
            double lagSeconds,
            double correlation,
            int minutes,
            double beforeWatts,
            double behindWatts,
            double logRatio,
            double error)
            implements Laid {}

    /**
     * Two traces that cannot be compared.
     *
     * @param why the reason
     * @param figure that it rests on: minutes, a correlation, or a share
     */
    record Apart(Why why, double figure) implements Laid {}

    /** Why not. */
    enum Why {
        /** Hardly any minute was recorded by both; figure: minutes. */
        NOTHING_IN_COMMON,
        /** At no lag do they rise and fall together; figure: the best correlation. */
        UNLIKE,
        /** Too little steady pedalling; figure: minutes. */
        TOO_SHORT,
        /** Their ratio changed in the middle, as when a meter takes its zero anew; figure: by how much. */
        JUMPED,
        /** They differ by more than meters and a chain can; figure: behind ÷ before − 1. */
        FAR_APART,
        /** Imported before traces were kept; figure: 0. */
        NO_TRACE
    }
}
