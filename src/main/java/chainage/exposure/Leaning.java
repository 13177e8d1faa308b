package chainage.exposure;

/**
 * How much harder, or softer, wet and dirty roads are on this rider's treatments than the table has it. A factor f of the
 * table becomes 1 + (f − 1) times the one or the other: dry clean road always counts 1, damp never more than wet.
 *
 * @param wet for damp and wet roads; above 0
 * @param grit for dusty and gritty ones; above 0
 */
public record Leaning(double wet, double grit) {
    /** As the table has it. */
    public static final Leaning NONE = new Leaning(1, 1);
}
