package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.NextStep;
import chainage.answer.ReadingWords;
import chainage.answer.Safety;
import chainage.exposure.Factors;
import chainage.ledger.Event;
import chainage.ledger.Method;
import chainage.quantity.Estimate;
import chainage.render.Formatter;
import chainage.render.Out;
import chainage.render.Table;
import chainage.standing.Standing;
import chainage.treatment.ProductLife;
import chainage.treatment.TreatmentStanding;
import java.util.List;

/** The answer for people: the nearest chain in a sentence, all of them in a table, what is missing below. */
final class DueText {
    private final CommandContext context;
    private final Analysis analysis;
    private final Formatter format;
    private final Out out;

    DueText(CommandContext context, Analysis analysis) {
        this.context = context;
        this.analysis = analysis;
        this.format = context.format();
        this.out = context.out();
    }

    void print(List<Standing> shown) {
        Standing nearest = DueCommand.nearest(shown);
        if (nearest == null) {
            out.lines(NextStep.next(context.missing(), analysis));
            unattributed(context, analysis);
            return;
        }
        out.line(sentence(nearest));
        shelfAhead(shown, nearest).forEach(line -> out.line(line));
        out.line();
        Table table = new Table()
                .left("CHAIN")
                .left("ON")
                .left("PRODUCT")
                .right("USED")
                .right("LEFT")
                .whole("TREAT")
                .right("WORN %")
                .whole("REPLACE");
        for (Standing s : shown) {
            boolean treat = s.treatment().used() >= 1;
            table.row(
                    s.chain(),
                    s.bike() == null ? "shelf" : s.bike(),
                    s.exposure().product().product(),
                    Formatter.percent(s.treatment().used()),
                    format.leftWhole(s.treatment().dueInMetres()),
                    treat && s.bike() == null ? "before use" : format.due(s.treatBy(), treat),
                    Formatter.elongation(s.wear().elongationPercent().likely()) + "/"
                            + Formatter.elongation(s.wear().limitPercent()),
                    format.dueRoughly(s.replaceOn(), s.wear().used() >= 1, analysis.at()));
            if (!context.quiet()) {
                table.note(sure(s));
            }
        }
        out.table(table);
        out.line();
        footer(shown, nearest);
    }

    /** How sure the row above is, and what it rests on. */
    private String sure(Standing s) {
        TreatmentStanding t = s.treatment();
        Estimate left = t.leftMetres();
        Estimate worn = s.wear().elongationPercent();
        ProductLife product = t.product();
        int lives = product == null ? 0 : product.lives().size();
        int readings = s.wear().readings().size();
        String treatment = product == null || t.noisy() != null
                ? ""
                : "likely " + format.leftWhole(left.likely()) + ", 80 % " + format.whole(left.low()) + " to "
                        + format.whole(left.high()) + ", "
                        + (lives == 0 ? "no life seen" : Formatter.count(lives, "life", "lives")) + "; ";
        return treatment + "worn 80 % " + Formatter.elongation(worn.low()) + " to " + Formatter.elongation(worn.high())
                + ", " + (readings == 0 ? "no reading" : Formatter.count(readings, "reading", "readings"));
    }

    /** A chain on the shelf may be further gone than any on a bike; it needs its treatment before it goes back on. */
    List<String> shelfAhead(List<Standing> shown, Standing nearest) {
        if (nearest.bike() == null) {
            return List.of();
        }
        return shown.stream()
                .filter(s -> s.bike() == null && s.due() && s.used() > nearest.used())
                .map(s -> "On the shelf, " + s.chain() + " is further gone ("
                        + Formatter.percent(s.used())
                        + "): "
                        + (s.nearest() == Standing.Limit.TREATMENT
                                ? "treat it before it goes back on."
                                : "do not put it back on."))
                .toList();
    }

    String sentence(Standing s) {
        return "Nearest its limit: " + place(s) + ". " + advice(s);
    }

    /** Which chain, and where it is. */
    static String place(Standing s) {
        return s.chain() + ", " + (s.bike() == null ? "on the shelf" : "on " + s.bike());
    }

    /** How far it is gone, and what to do. */
    String advice(Standing s) {
        Event.Remarked condemned = s.wear().condemned();
        if (condemned != null) {
            return "You noted it as " + condemned.remark().word() + " on " + format.date(condemned.at())
                    + ": replace it now.";
        }
        if (s.nearest() == Standing.Limit.REPLACEMENT && s.wear().bad().isPresent()) {
            Event.Measured bad = s.wear().bad().get().measured();
            return "Its reading of " + format.date(bad.at()) + " (" + ReadingWords.of(bad.reading())
                    + ") is at its limit: replace it now, or measure again.";
        }
        if (s.nearest() == Standing.Limit.REPLACEMENT) {
            return "Worn to "
                    + Formatter.percent(s.wear().used())
                    + " of its limit"
                    + (s.wear().used() >= 1
                            ? ": replace it now."
                            : s.replaceOn() == null
                                    ? "."
                                    : ": replace it about " + format.dueRoughly(s.replaceOn(), false, analysis.at())
                                            + ".");
        }
        if (s.treatment().lifeMetres() == null) {
            return "It runs untreated: treat it now.";
        }
        if (s.treatment().noisy() != null) {
            return "You heard it on " + format.date(s.treatment().noisy()) + ": treat it now.";
        }
        String used = Formatter.percent(s.treatment().used()) + " of its treatment is used up";
        if (s.treatment().used() >= 1) {
            return used + ": treat it " + (s.bike() == null ? "before it goes back on." : "now.");
        }
        return used
                + (s.treatBy() == null
                        ? "."
                        : ": treat it about " + format.date(s.treatBy().likely()) + ".");
    }

    /** Bikes whose chains get no dates, and why. */
    private void undated(List<Standing> shown) {
        shown.stream()
                .filter(s ->
                        s.bike() != null && s.treatOn() == null && s.treatment().used() < 1)
                .forEach(s -> {
                    String last = analysis.rides().stream()
                            .filter(r -> r.counted() && s.bike().equals(r.bike()))
                            .reduce((a, b) -> b)
                            .map(r -> "no ride since "
                                    + format.date(r.filed().ride().start()))
                            .orElse("no ride yet");
                    out.line("No dates for " + s.chain() + ": " + last + " on " + String.valueOf(s.bike()) + ".");
                });
    }

    private void footer(List<Standing> shown, Standing nearest) {
        boolean replace = nearest.nearest() == Standing.Limit.REPLACEMENT && nearest.due();
        if (!context.quiet()) {
            out.line("USED and LEFT count dry, clean road; --why shows how each ride was weighed.");
            Factors.Factor risk = analysis.factors().factor(TreatmentStanding.RISK);
            out.line("A treatment is due when " + Formatter.percent(risk.value())
                    + " of its like are used up (due.risk, " + risk.mark() + ").");
            if (shown.stream().anyMatch(s -> s.replaceOn() != null)) {
                out.line("Dates go by each bike's last 52 weeks, or as many as there are.");
            }
            undated(shown);
            if (shown.stream().anyMatch(s -> s.wear().used() >= 1)) {
                out.line(Safety.REPLACING);
            } else if (nearest.due() && !replace) {
                Method method = nearest.exposure().product().method();
                out.line(Safety.treating(method));
            }
        }
        unattributed(context, analysis);
    }

    /** Rides that no chain has, and how to give them one. */
    static void unattributed(CommandContext context, Analysis analysis) {
        if (analysis.exposures().unattributed().isEmpty()) {
            return;
        }
        int n = analysis.exposures().unattributed().size();
        context.out()
                .line("Not attributed: " + Formatter.count(n, "ride", "rides") + ", "
                        + context.format().distance(analysis.exposures().unattributedMetres()) + ".");
        if (!context.quiet()) {
            NextStep.attribute(analysis, context.format())
                    .forEach(line -> context.out().line(2, line));
        }
    }
}
