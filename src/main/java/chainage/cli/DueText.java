package chainage.cli;

import chainage.exposure.Factors;
import chainage.ledger.Event;
import chainage.ledger.Method;
import chainage.quantity.Estimate;
import chainage.standing.Standing;
import chainage.treatment.ProductLife;
import chainage.treatment.TreatmentStanding;
import java.io.PrintWriter;
import java.util.List;

/** The answer for people: the nearest chain in a sentence, all of them in a table, what is missing below. */
final class DueText {
    private final Desk desk;
    private final Picture picture;
    private final Words words;
    private final PrintWriter out;

    DueText(Desk desk, Picture picture) {
        this.desk = desk;
        this.picture = picture;
        this.words = desk.words();
        this.out = desk.out();
    }

    void print(List<Standing> shown) {
        Standing nearest = DueCommand.nearest(shown);
        if (nearest == null) {
            out.println(Guide.next(desk, picture));
            unattributed(desk, picture);
            return;
        }
        out.println(wrap(sentence(nearest)));
        shelfAhead(shown, nearest).forEach(line -> out.println(wrap(line)));
        out.println();
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
                    Words.percent(s.treatment().used()),
                    words.leftWhole(s.treatment().dueInMetres()),
                    treat && s.bike() == null ? "before use" : words.due(s.treatBy(), treat),
                    Words.elongation(s.wear().elongationPercent().likely()) + "/"
                            + Words.elongation(s.wear().limitPercent()),
                    words.dueRoughly(s.replaceOn(), s.wear().used() >= 1, picture.at()));
            if (!desk.quiet()) {
                table.note(sure(s));
            }
        }
        table.print(out, desk.columns());
        out.println();
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
                : "likely " + words.leftWhole(left.likely()) + ", 80 % " + words.whole(left.low()) + " to "
                        + words.whole(left.high()) + ", "
                        + (lives == 0 ? "no life seen" : Words.count(lives, "life", "lives")) + "; ";
        return treatment + "worn 80 % " + Words.elongation(worn.low()) + " to " + Words.elongation(worn.high()) + ", "
                + (readings == 0 ? "no reading" : Words.count(readings, "reading", "readings"));
    }

    /** A chain on the shelf may be further gone than any on a bike; it needs its treatment before it goes back on. */
    List<String> shelfAhead(List<Standing> shown, Standing nearest) {
        if (nearest.bike() == null) {
            return List.of();
        }
        return shown.stream()
                .filter(s -> s.bike() == null && s.due() && s.used() > nearest.used())
                .map(s -> "On the shelf, " + Words.safe(s.chain()) + " is further gone (" + Words.percent(s.used())
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
        return Words.safe(s.chain()) + ", " + (s.bike() == null ? "on the shelf" : "on " + Words.safe(s.bike()));
    }

    /** How far it is gone, and what to do. */
    String advice(Standing s) {
        Event.Remarked condemned = s.wear().condemned();
        if (condemned != null) {
            return "You noted it as " + condemned.remark().word() + " on " + words.date(condemned.at())
                    + ": replace it now.";
        }
        if (s.nearest() == Standing.Limit.REPLACEMENT && s.wear().bad().isPresent()) {
            Event.Measured bad = s.wear().bad().get().measured();
            return "Its reading of " + words.date(bad.at()) + " (" + ReadingWords.of(bad.reading())
                    + ") is at its limit: replace it now, or measure again.";
        }
        if (s.nearest() == Standing.Limit.REPLACEMENT) {
            return "Worn to "
                    + Words.percent(s.wear().used())
                    + " of its limit"
                    + (s.wear().used() >= 1
                            ? ": replace it now."
                            : s.replaceOn() == null
                                    ? "."
                                    : ": replace it about " + words.dueRoughly(s.replaceOn(), false, picture.at())
                                            + ".");
        }
        if (s.treatment().lifeMetres() == null) {
            return "It runs untreated: treat it now.";
        }
        if (s.treatment().noisy() != null) {
            return "You heard it on " + words.date(s.treatment().noisy()) + ": treat it now.";
        }
        String used = Words.percent(s.treatment().used()) + " of its treatment is used up";
        if (s.treatment().used() >= 1) {
            return used + ": treat it " + (s.bike() == null ? "before it goes back on." : "now.");
        }
        return used
                + (s.treatBy() == null
                        ? "."
                        : ": treat it about " + words.date(s.treatBy().likely()) + ".");
    }

    /** Bikes whose chains get no dates, and why. */
    private void undated(List<Standing> shown) {
        shown.stream()
                .filter(s ->
                        s.bike() != null && s.treatOn() == null && s.treatment().used() < 1)
                .forEach(s -> {
                    String last = picture.rides().stream()
                            .filter(r -> r.counted() && s.bike().equals(r.bike()))
                            .reduce((a, b) -> b)
                            .map(r -> "no ride since "
                                    + words.date(r.filed().ride().start()))
                            .orElse("no ride yet");
                    out.println(wrap("No dates for " + Words.safe(s.chain()) + ": " + last + " on "
                            + Words.safe(String.valueOf(s.bike())) + "."));
                });
    }

    private void footer(List<Standing> shown, Standing nearest) {
        boolean replace = nearest.nearest() == Standing.Limit.REPLACEMENT && nearest.due();
        if (!desk.quiet()) {
            out.println("USED and LEFT count dry, clean road; --why shows how each ride was weighed.");
            Factors.Factor risk = picture.factors().factor(TreatmentStanding.RISK);
            out.println(wrap("A treatment is due when " + Words.percent(risk.value())
                    + " of its like are used up (due.risk, " + risk.mark() + ")."));
            if (shown.stream().anyMatch(s -> s.replaceOn() != null)) {
                out.println("Dates go by each bike's last 52 weeks, or as many as there are.");
            }
            undated(shown);
            if (shown.stream().anyMatch(s -> s.wear().used() >= 1)) {
                out.println(wrap(Safety.REPLACING));
            } else if (nearest.due() && !replace) {
                Method method = nearest.exposure().product().method();
                out.println(wrap(Safety.treating(method)));
            }
        }
        unattributed(desk, picture);
    }

    /** Rides that no chain has, and how to give them one. */
    static void unattributed(Desk desk, Picture picture) {
        if (picture.exposures().unattributed().isEmpty()) {
            return;
        }
        int n = picture.exposures().unattributed().size();
        desk.out()
                .println("Not attributed: " + Words.count(n, "ride", "rides") + ", "
                        + desk.words().distance(picture.exposures().unattributedMetres()) + ".");
        if (!desk.quiet()) {
            Guide.attribute(picture, desk.words()).forEach(line -> desk.out().println(wrap(line, 2)));
        }
    }

    /** Breaks a line at spaces so that none is longer than 80 columns; all are set in as it is. */
    static String wrap(String text) {
        String line = text.stripLeading();
        return wrap(line, text.length() - line.length());
    }

    /** The same, every line set in by so many spaces. */
    static String wrap(String text, int indent) {
        StringBuilder b = new StringBuilder(" ".repeat(indent));
        int column = 0;
        for (String word : text.split(" ", -1)) {
            if (column > 0 && indent + column + 1 + word.length() > 80) {
                b.append(System.lineSeparator()).append(" ".repeat(indent));
                column = 0;
            } else if (column > 0) {
                b.append(' ');
                column++;
            }
            b.append(word);
            column += word.length();
        }
        return b.toString();
    }
}
