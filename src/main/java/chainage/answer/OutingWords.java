package chainage.answer;

import chainage.analysis.Analysis;
import chainage.attribution.AttributedRide;
import chainage.attribution.Disagreement;
import chainage.attribution.Overlap;
import chainage.render.Formatter;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** What is odd about the recordings of one outing, or of two that cannot be, in words. */
public final class OutingWords {
    private OutingWords() {}

    /** Two rides of one bike at one time, with what to do. */
    public static String of(Overlap o, Formatter format) {
        String bike = String.valueOf(o.second().bike());
        String id = o.second().id();
        String both = "rides " + o.first().id() + " and " + id + " on " + bike + " overlap by " + time(o.time())
                + " on " + format.date(o.second().filed().ride().start());
        return o.stated()
                ? both + ", and both count, as you say"
                : both + ", and both count, though one bike cannot be ridden twice at one time; if they are one outing:"
                        + " chainage assign " + id + " --duplicate-of "
                        + o.first().id() + "; if another bike was ridden:"
                        + " chainage assign " + id + " --bike BIKE; if all is right: chainage assign " + id
                        + " --not-a-duplicate";
    }

    /** Recordings of one outing whose distances are far apart; a line each. */
    public static List<String> disagreements(Analysis analysis, Formatter format) {
        List<String> found = new ArrayList<>();
        for (AttributedRide r : analysis.rides()) {
            r.twins()
                    .forEach(t -> Disagreement.of(r.filed(), t)
                            .ifPresent(d -> found.add("ride " + r.id() + " of "
                                    + format.date(r.filed().ride().start()) + " counts with "
                                    + format.distance(d.metres()) + ", its duplicate " + t.id() + " has "
                                    + format.distance(d.other())
                                    + "; the most complete one counts; to count the other in its place:"
                                    + " chainage assign " + r.id() + " --duplicate-of " + t.id())));
        }
        return found;
    }

    /** How a counted ride's recordings differ, in a phrase; empty where they do not. */
    public static Optional<String> differing(AttributedRide ride, Formatter format) {
        List<String> other = ride.twins().stream()
                .flatMap(t -> Disagreement.of(ride.filed(), t).stream()
                        .map(d -> t.id() + " has " + format.distance(d.other())))
                .toList();
        return other.isEmpty()
                ? Optional.empty()
                : Optional.of("of " + (ride.twins().size() + 1) + " recordings this one counts, though "
                        + String.join(", ", other));
    }

    private static String time(Duration time) {
        long minutes = Math.max(1, time.plusSeconds(30).toMinutes());
        return minutes < 60 ? minutes + " min" : minutes / 60 + " h " + minutes % 60 + " min";
    }
}
