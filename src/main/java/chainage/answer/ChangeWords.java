package chainage.cli;

import chainage.analysis.Analysis;
import chainage.attribution.AttributedRide;
import chainage.render.Formatter;
import chainage.standing.Standing;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** What a change moved: rides from chain to chain, and what is left of each chain's limits, before → after. */
final class Changes {
    private static final double NOTEWORTHY_METRES = 50;
    private static final double NOTEWORTHY_PERCENT = 0.005;

    private Changes() {}

    private static final class Moved {
        int rides;
        double metres;
    }

    /** One line a thing that moved; empty when nothing did. */
    static List<String> between(Analysis before, Analysis after, Formatter format) {
        List<String> lines = new ArrayList<>(rides(before, after, format));
        for (Standing now : after.standings()) {
            before.standing(now.chain()).ifPresent(was -> lines.addAll(chain(was, now, format)));
        }
        for (Standing was : before.standings()) {
            if (after.standing(was.chain()).isEmpty()) {
                lines.add(was.chain() + " is no longer among the chains in use");
            }
        }
        List<String> known = doubts(before, format);
        doubts(after, format).stream().filter(d -> !known.contains(d)).forEach(d -> lines.add("but " + d));
        return lines;
    }

    private static List<String> doubts(Analysis analysis, Formatter format) {
        List<String> doubts = new ArrayList<>(
                Doubts.readings(analysis, analysis.ledger().chains().keySet(), format));
        doubts.addAll(Doubts.lives(analysis, analysis.ledger().chains().keySet(), format));
        return doubts;
    }

    private static List<String> rides(Analysis before, Analysis after, Formatter format) {
        Map<String, String> places = new HashMap<>();
        before.rides().forEach(r -> places.put(r.id(), place(r)));
        Map<String, Moved> moved = new TreeMap<>();
        for (AttributedRide r : after.rides()) {
            String was = places.get(r.id());
            String now = place(r);
            if (was != null && !was.equals(now)) {
                Moved m = moved.computeIfAbsent(was + " → " + now, k -> new Moved());
                m.rides++;
                // A twin or a no-ride moved as much as it counted before.
                m.metres += r.counted()
                        ? after.exposures().metresOf(r)
                        : before.exposures().metresOf(r);
            }
        }
        List<String> lines = new ArrayList<>();
        moved.forEach((way, m) ->
                lines.add(Formatter.count(m.rides, "ride", "rides") + ", " + format.distance(m.metres) + ": " + way));
        return lines;
    }

    private static String place(AttributedRide r) {
        if (r.verdict() == AttributedRide.Verdict.TWIN) {
            return "a twin";
        }
        if (r.verdict() == AttributedRide.Verdict.NOT_A_RIDE) {
            return "not a ride";
        }
        String chain = r.chain();
        if (chain != null) {
            return "chain " + chain;
        }
        return r.bike() == null ? "no bike" : "no chain on " + r.bike();
    }

    private static List<String> chain(Standing was, Standing now, Formatter format) {
        List<String> lines = new ArrayList<>();
        String name = now.chain();
        double leftWas = was.treatment().dueInMetres();
        double leftNow = now.treatment().dueInMetres();
        String left = step(format.left(leftWas), format.left(leftNow));
        String treat = step(on(was, format), on(now, format));
        if (Math.abs(leftWas - leftNow) >= NOTEWORTHY_METRES && !left.isEmpty()) {
            lines.add(name + ": treatment left " + left + (treat.isEmpty() ? "" : ", treat " + treat));
        } else if (was.treatment().used() < 1 != now.treatment().used() < 1) {
            lines.add(name + ": treat " + treat);
        }
        double wornWas = was.wear().elongationPercent().likely();
        double wornNow = now.wear().elongationPercent().likely();
        String worn = step(Formatter.elongation(wornWas) + " %", Formatter.elongation(wornNow) + " %");
        if (Math.abs(wornWas - wornNow) >= NOTEWORTHY_PERCENT && !worn.isEmpty()) {
            lines.add(name + ": elongation " + worn + " of "
                    + Formatter.elongation(now.wear().limitPercent()) + " %");
        }
        if (now.wear().used() >= 1 && was.wear().used() < 1) {
            lines.add(name + ": replace it now");
        }
        return lines;
    }

    /** Before → after; empty when they read the same. */
    private static String step(String before, String after) {
        return before.equals(after) ? "" : before + " → " + after;
    }

    private static String on(Standing s, Formatter format) {
        return format.due(s.treatBy(), s.treatment().used() >= 1);
    }
}
