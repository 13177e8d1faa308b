package chainage.ride;

import java.util.List;

/**
 * How a ride's distance was pedalled: one row a gear, and what was rolled without pedalling. All that friction and load
 * need, for any drivetrain entered later.
 *
 * @param rows by gear; empty where the file has no cadence
 * @param coastingSeconds moving without pedalling
 * @param coastingMetres moved without pedalling
 */
public record Pedalling(List<Row> rows, double coastingSeconds, double coastingMetres) {
    /** No cadence in the file. */
    public static final Pedalling NONE = new Pedalling(List.of(), 0, 0);

    public Pedalling {
        rows = List.copyOf(rows);
    }

    /** Crank revolutions of the whole ride; 0 without cadence. */
    public double revolutions() {
        return rows.stream().mapToDouble(Row::revolutions).sum();
    }

    /**
     * One gear, or one band of development where the file names no gears.
     *
     * @param ring teeth of the chainring; 0 when not stated
     * @param cog teeth of the cog; 0 when not stated
     * @param development metres per crank turn, centre of a 0.25 m band; NaN when speed is unknown or a gear is stated
     * @param seconds time pedalled in it
     * @param revolutions of the crank
     * @param joules at the crank; NaN without a power meter
     * @param metres ridden in it
     */
    public record Row(
            int ring, int cog, double development, double seconds, double revolutions, double joules, double metres) {}
}
