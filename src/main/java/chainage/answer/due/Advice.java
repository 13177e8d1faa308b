package chainage.answer.due;

import chainage.analysis.Analysis;
import chainage.analysis.Nearest;
import chainage.analysis.Outlier;
import chainage.answer.ReadingWords;
import chainage.ledger.Event;
import chainage.quantity.PlainText;
import chainage.render.Formatter;
import chainage.standing.Dates;
import chainage.standing.Standing;
import java.time.Duration;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What to do about a chain, in sentences.
 *
 * @param analysis that the chains stand in
 */
public record Advice(Analysis analysis, Formatter format) {
    /** The answer in one line. */
    public String sentence(Standing s) {
        return "Nearest its limit: " + place(s) + ". " + advice(s);
    }

    /** Other chains whose next ride would take their treatments too far; a line each. */
    public List<String> beforeNextRide(Standing named) {
        return analysis.standings().stream()
                .filter(s -> s.dueBeforeNextRide() && !s.chain().equals(named.chain()))
                .map(s -> "Before its next ride, treat " + place(s) + ": a usual one counts " + counts(s))
                .toList();
    }

    /** A chain on the shelf may be further gone than any on a bike; a line each. */
    public List<String> shelfAhead(Nearest nearest) {
        return nearest.shelfAhead().stream()
                .map(s -> "On the shelf, " + s.chain() + " is at " + Formatter.percent(s.used()) + ": "
                        + (s.nearest() == Standing.Limit.TREATMENT
                                ? "treat it before it goes back on."
                                : s.wear().used() >= 1 ? "replace it." : "do not put it back on."))
                .toList();
    }

    /** Which chain, and where it is. */
    public static String place(Standing s) {
        return s.chain() + ", " + (s.bike() == null ? "on the shelf" : "on " + s.bike());
    }

    /** How far it is gone, and what to do. */
    public String advice(Standing s) {
        Event.Remarked outOfService = s.wear().outOfService();
        if (outOfService != null) {
            return "You noted it as " + outOfService.remark().word() + " on " + format.date(outOfService.at())
                    + (shelf(s) ? ": do not put it back on." : ": replace it now.");
        }
        if (s.nearest() == Standing.Limit.REPLACEMENT && s.wear().bad().isPresent()) {
            Event.Measured bad = s.wear().bad().get().measured();
            return "Its reading of " + format.date(bad.at()) + " (" + ReadingWords.of(bad.reading())
                    + ") is at its limit: "
                    + (shelf(s)
                            ? "measure again before it goes back on."
                            : contradicted(analysis, s)
                                    ? "measure again today, and replace it if the reading is right."
                                    : "replace it now, or measure again.");
        }
        if (s.nearest() == Standing.Limit.REPLACEMENT) {
            String worn = "Worn to " + Formatter.percent(s.wear().used()) + " of its limit";
            return s.wear().used() < 1
                    ? worn + ahead(s)
                    : worn + (shelf(s) ? ": do not put it back on." : ": replace it now.");
        }
        if (s.treatment().lifeMetres() == null) {
            return "It runs untreated: treat it " + soon(s);
        }
        if (s.treatment().noisy() != null) {
            return "You heard it on " + format.date(s.treatment().noisy()) + ": treat it " + soon(s);
        }
        String used = "It has run " + Formatter.percent(s.treatment().used()) + " of its treatment's due distance";
        if (s.treatment().used() >= 1 || s.dueBeforeUse()) {
            return used + ": treat it " + soon(s);
        }
        if (s.dueBeforeNextRide()) {
            return used + ": treat it before its next ride: a usual one counts " + counts(s);
        }
        return used
                + (s.treatBy() == null
                        ? "."
                        : ": treat it about " + format.date(s.treatBy().likely()) + ".");
    }

    /** Of dry, clean road, which is why it is not called a distance. */
    private String counts(Standing s) {
        return format.distance(s.usualRideMetres()) + ", and its treatment may count only "
                + format.distance(s.treatment().dueInMetres()) + " more.";
    }

    /** What to type once the advice is followed. */
    public static @Nullable String next(Standing s) {
        String chain = PlainText.typed(s.chain());
        if (s.nearest() == Standing.Limit.TREATMENT) {
            boolean named = s.exposure().treatedAt() != null;
            String product = s.exposure().product().product();
            return "chainage treat " + chain + " " + (named ? PlainText.typed(product) : "PRODUCT");
        }
        String bike = s.bike();
        return bike == null ? null : "chainage install CHAIN " + PlainText.typed(bike) + " --swap";
    }

    /** True where the reading that is at the limit stands against all else that is known. */
    static boolean contradicted(Analysis analysis, Standing s) {
        return s.wear()
                .bad()
                .filter(bad -> Outlier.readings(analysis, List.of(s.chain())).stream()
                        .anyMatch(o -> o.about().equals(bad.measured())))
                .isPresent();
    }

    private static boolean shelf(Standing s) {
        return s.bike() == null;
    }

    private static String soon(Standing s) {
        return shelf(s) ? "before it goes back on." : "now.";
    }

    /** What comes for a chain that is nowhere near a limit: its treatment, where that is the sooner. */
    private String ahead(Standing s) {
        Dates treat = s.treatBy();
        Dates replace = s.replaceOn();
        String treating = treat == null || (replace != null && replace.likely().isBefore(treat.likely()))
                ? ""
                : "treat it about " + format.date(treat.likely());
        String replacing = replace == null
                        || Duration.between(analysis.at(), replace.likely()).toDays() > 365
                ? ""
                : "replace it about " + format.date(replace.likely());
        String both = treating + (treating.isEmpty() || replacing.isEmpty() ? "" : ", ") + replacing;
        return ". Nothing is due" + (both.isEmpty() ? "" : ": " + both) + ".";
    }
}
