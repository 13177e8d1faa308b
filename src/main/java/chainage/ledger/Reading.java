package chainage.ledger;

/**
 * An elongation reading: a length turned into per cent, or the two outcomes of a go/no-go gauge.
 */
public sealed interface Reading {
    /**
     * A measured elongation.
     *
     * @param percent elongation, −0.3 to 3
     * @param tool what it was read with
     * @param pitches how many pitches were spanned; 1 or more
     */
    record Elongation(double percent, Tool tool, int pitches) implements Reading {}

    /**
     * A gauge's answer: whether its edge drops into the chain.
     *
     * @param edgePercent elongation at which it is made to drop
     * @param drops true when it does, so that the chain is at least that long
     */
    record Gauge(double edgePercent, boolean drops) implements Reading {}

    /** What a length is read with. */
    enum Tool {
        RULER,
        CALLIPER
    }
}
