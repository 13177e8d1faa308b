package chainage.answer;

import chainage.attribution.Because;
import chainage.attribution.BikeFrom;
import chainage.attribution.Disagreement;
import chainage.condition.Condition;
import chainage.condition.Reason;
import chainage.exposure.ChainMetres;
import chainage.render.Formatter;
import chainage.ride.Ride;
import chainage.weather.FilmReason;
import java.util.stream.Collectors;

/** What verdicts and roads rest on, in words. */
public final class Reasons {
    private Reasons() {}

    public static String of(Because because, Formatter format) {
        if (because instanceof Because.Rider) {
            return "the rider says so";
        }
        if (because instanceof Because.ByRule r) {
            return "rule: " + r.when().words();
        }
        if (because instanceof Because.Sport s) {
            return "the file says " + s.sport();
        }
        if (because instanceof Because.Still) {
            return "no sport stated, and nothing moved";
        }
        if (because instanceof Because.SameOuting o) {
            Disagreement d = o.disagreement();
            return "the same outing as " + o.counted()
                    + (d == null
                            ? ""
                            : ", which has " + format.distance(d.other()) + " against " + format.distance(d.metres())
                                    + " here");
        }
        if (because instanceof Because.Speed s) {
            return "no sport stated; median moving speed " + format.speed(s.metresPerSecond())
                    + (s.cyclist() ? " is a cyclist's" : " is not a cyclist's");
        }
        throw new AssertionError(because);
    }

    /** What named a ride's bike, as a rule is typed. */
    public static String of(BikeFrom from) {
        if (from instanceof BikeFrom.Rider) {
            return "rider";
        }
        if (from instanceof BikeFrom.Table) {
            return "table";
        }
        if (from instanceof BikeFrom.ByRule r) {
            return r.when().words();
        }
        if (from instanceof BikeFrom.Follows f) {
            return "follows " + f.bike();
        }
        throw new AssertionError(from);
    }

    /** What the metres of a chain rest on. */
    public static String of(ChainMetres metres, Ride ride) {
        return switch (metres.from()) {
            case RIDE -> ride.distance().from().words();
            case GEARS -> "crank turns, by gear";
            case REFERENCE_GEAR -> "crank turns, reference gear";
        };
    }

    /** What a road rests on, in one phrase. */
    public static String of(Condition road, Formatter format) {
        return road.from().stream().map(r -> of(r, format)).collect(Collectors.joining("; "));
    }

    public static String of(Reason reason, Formatter format) {
        if (reason instanceof Reason.Nothing) {
            return "nothing says otherwise";
        }
        if (reason instanceof Reason.Tag) {
            return "your tag";
        }
        if (reason instanceof Reason.Kind k) {
            return k.activity().named();
        }
        if (reason instanceof Reason.Weather w) {
            return "weather in the file: " + String.join(", ", w.words()).replace('_', ' ');
        }
        if (reason instanceof Reason.Word w) {
            return "word \"" + w.finding().word() + "\" in the "
                    + w.finding().where().words();
        }
        if (reason instanceof Reason.SaltedByRule) {
            return "snow or ice, and by your rule such roads are salted";
        }
        if (reason instanceof Reason.Film f) {
            return of(f.film(), format);
        }
        throw new AssertionError(reason);
    }

    /** For example {@code 0.0 mm of rain within 6 h before, 4.0 mm during; station XYZA, 8 km}. */
    public static String of(FilmReason film, Formatter format) {
        String what = film.snow() ? " mm of snow or rain" : " mm of rain";
        String about = film.judged() ? "about " : "";
        String fell;
        if (film.beforeMm() > 0 || film.duringMm() > 0) {
            fell = about + millimetres(film.beforeMm()) + what + " within 6 h before, " + millimetres(film.duringMm())
                    + " mm during";
        } else if (film.earlierMm() > 0) {
            fell = about + millimetres(film.earlierMm()) + what + " until " + Math.round(film.hoursSinceRain())
                    + " h before";
        } else {
            fell = "no rain before or during";
        }
        return fell
                + (film.frozen() ? ", snow or ice lying" : "")
                + (film.before() ? "" : ", no record of the hours before")
                + "; "
                + (film.station().isEmpty() ? "record" : "station " + film.station())
                + ", "
                + (Double.isNaN(film.metres()) ? "place not stated" : format.leftWhole(film.metres()))
                + (film.others() > 0 ? " and " + film.others() + " more" : "")
                + (film.snowAt().isEmpty() ? "" : ", snow or ice at " + film.snowAt());
    }

    private static String millimetres(double mm) {
        return Formatter.fixed(mm, mm > 0 && mm < 0.1 ? 2 : 1);
    }
}
