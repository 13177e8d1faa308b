package chainage.answer.beside;

import chainage.analysis.Analysis;
import chainage.attribution.AttributedRide;
import chainage.render.Formatter;
import java.util.List;

/** Rides in a few words. */
public final class NamedRides {
    private NamedRides() {}

    /** One by id, day and distance, several by number and distance. */
    public static String of(Analysis analysis, List<AttributedRide> rides, Formatter format) {
        double metres =
                rides.stream().mapToDouble(analysis.exposures()::metresOf).sum();
        if (rides.size() == 1) {
            AttributedRide r = rides.get(0);
            return "ride " + r.id() + " (" + format.date(r.filed().ride().start()) + ", " + format.distance(metres)
                    + ")";
        }
        return rides.size() + " rides (" + format.distance(metres) + ")";
    }
}
