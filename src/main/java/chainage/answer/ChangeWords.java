package chainage.answer;

import chainage.analysis.Change;
import chainage.condition.Condition;
import chainage.exposure.RideExposure;
import chainage.quantity.PlainText;
import chainage.render.Formatter;
import chainage.standing.Dates;
import chainage.standing.Standing;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** What a change moved, before → after. */
public final class ChangeWords {
    private ChangeWords() {}

    /** A line each, where it can be seen in the figures as they are read; rides by the places' names. */
    public static List<String> of(List<Change> changes, Formatter format) {
        List<Change.RidesMoved> rides = new ArrayList<>();
        List<String> others = new ArrayList<>();
        for (Change c : changes) {
            if (c instanceof Change.RidesMoved m) {
                rides.add(m);
            } else {
                String line = line(c, format);
                if (!line.isEmpty()) {
                    others.add(line);
                }
            }
        }
        List<String> lines = new ArrayList<>();
        rides.stream()
                .sorted((a, b) -> way(a).compareTo(way(b)))
                .forEach(m -> lines.add(Formatter.count(m.rides(), "ride", "rides") + ", " + format.distance(m.metres())
                        + ": " + way(m)));
        lines.addAll(others);
        return lines;
    }

    private static String way(Change.RidesMoved m) {
        return place(m.was()) + " → " + place(m.now());
    }

    private static String place(Change.Place place) {
        if (place instanceof Change.Place.Twin) {
            return "a duplicate";
        }
        if (place instanceof Change.Place.NotARide) {
            return "not a ride";
        }
        if (place instanceof Change.Place.OnChain c) {
            return "chain " + c.chain();
        }
        if (place instanceof Change.Place.Bare b) {
            return b.bike() == null ? "no bike" : b.bike() + ", no chain";
        }
        throw new AssertionError(place);
    }

    /** Empty when before and after read the same. */
    private static String line(Change change, Formatter format) {
        if (change instanceof Change.Treatment t) {
            return treatment(t, format);
        }
        if (change instanceof Change.Elongation e) {
            String worn = step(worn(e.was()), worn(e.now()));
            String replace = step(replace(e.was(), format), replace(e.now(), format));
            return worn.isEmpty() && !e.read()
                    ? ""
                    : e.now().chain() + ": elongation " + (worn.isEmpty() ? "stays " + worn(e.now()) : worn)
                            + ", limit "
                            + Formatter.elongation(e.now().wear().limitPercent()) + " %"
                            + (replace.isEmpty() ? "" : ", replace " + replace);
        }
        if (change instanceof Change.Replace r) {
            return r.chain() + ": at its wear limit; what to do: chainage due " + PlainText.typed(r.chain());
        }
        if (change instanceof Change.OutOfUse o) {
            return o.chain() + " is no longer among the chains in use";
        }
        if (change instanceof Change.Doubted d) {
            return "but " + OutlierWords.of(d.outlier(), format);
        }
        throw new AssertionError(change);
    }

    private static String treatment(Change.Treatment t, Formatter format) {
        String left = left(t.was(), t.now(), format);
        String treat = step(on(t.was(), format), on(t.now(), format));
        if (t.left() && !left.isEmpty()) {
            return t.now().chain() + ": " + left + (treat.isEmpty() ? "" : ", treat " + treat)
                    + (t.learnt() ? " (what is known of its treatment's life changed)" : counts(t, format));
        }
        return t.due() ? t.now().chain() + ": treat " + treat : "";
    }

    /** What the rides on the treatment count whose road is another now. */
    private static String counts(Change.Treatment t, Formatter format) {
        Map<String, RideExposure> before = new HashMap<>();
        t.was().exposure().sinceTreatment().forEach(r -> before.put(r.ride().id(), r));
        double was = 0;
        double now = 0;
        List<String> rides = new ArrayList<>();
        for (RideExposure r : t.now().exposure().sinceTreatment()) {
            RideExposure b = before.get(r.ride().id());
            if (b != null && !isAlike(b.condition(), r.condition())) {
                rides.add(r.ride().id());
                was += b.treatmentMetres();
                now += r.treatmentMetres();
            }
        }
        return rides.isEmpty()
                ? ""
                : "; "
                        + (rides.size() == 1
                                ? "ride " + rides.get(0) + " now counts "
                                : Formatter.count(rides.size(), "ride", "rides") + " now count ")
                        + format.distance(now) + ", not " + format.distance(was);
    }

    private static boolean isAlike(Condition a, Condition b) {
        return a.wetShare() == b.wetShare() && a.dampShare() == b.dampShare() && a.grit() == b.grit();
    }

    private static String step(String before, String after) {
        return before.equals(after) ? "" : before + " → " + after;
    }

    /** Of dry road, as rides count: so that what one now counts is what has gone from it. */
    private static String left(Standing was, Standing now, Formatter format) {
        String before = left(was, format);
        String after = left(now, format);
        boolean alike = was.treatment().dueInMetres() < 0 == now.treatment().dueInMetres() < 0;
        return before.equals(after)
                ? ""
                : (alike ? format.distance(Math.abs(was.treatment().dueInMetres())) : before) + " → " + after;
    }

    private static String left(Standing s, Formatter format) {
        double left = s.treatment().dueInMetres();
        return format.distance(Math.abs(left)) + (left < 0 ? " overdue" : " of dry road left");
    }

    private static String worn(Standing s) {
        return Formatter.elongation(s.wear().elongationPercent().likely()) + " %";
    }

    /** The month. */
    private static String replace(Standing s, Formatter format) {
        Dates on = s.replaceOn();
        return s.wear().used() >= 1 ? "now" : on == null ? "at no date yet" : format.month(on.likely());
    }

    private static String on(Standing s, Formatter format) {
        if (s.bike() == null && s.treatment().used() >= 1) {
            return "before it goes back on";
        }
        boolean now = s.treatment().used() >= 1;
        return s.treatBy() == null && !now ? "at no date yet" : format.due(s.treatBy(), now);
    }
}
