package chainage.simulation;

import java.util.function.Consumer;

/** How a rider, the rider's things and the rider's ears differ from the table's. As they stand here they do not. */
final class Traits {
    /** How many times as long treatments last. */
    double lifeTimes = 1;
    /** How many times as fast chains wear. */
    double wearTimes = 1;
    /** Share of a life past its end at which that is heard, at least and at most; 0 at once. */
    double lateFrom = 0;

    double lateTo = 0;
    /** Share of the ends heard that are noted. */
    double noted = 1;
    /** Whether one noise is noted that belongs to something else. */
    boolean falseNoise = false;
    /** Of all readings, per cent of elongation. */
    double bias = 0;
    /** Share of readings that are far off. */
    double gross = 0;
    /** Whether a go/no-go gauge is all there is. */
    boolean gauge = false;
    /** Whether nothing is ridden from November to February. */
    boolean wintersOff = false;
    /** Whether rides are longer, fewer and wetter in the second half. */
    boolean habitChanged = false;
    /** How many times as hard a wet road is on treatments. */
    double wetTimes = 1;
    /** The same for dust and grit, which never spare a treatment. */
    double gritTimes = 1;
    /** Whether two products of one method are used in turn. */
    boolean twoProducts = false;
    /** How many times as long as the second the first of them lasts. */
    double firstTimes = 2;

    /** Number of the method that all treatments are of; any by chance where below 0. */
    int method = -1;

    Traits(Consumer<Traits> odd) {
        odd.accept(this);
    }
}
