package chainage.cli;

import chainage.ledger.Method;
import chainage.standing.Standing;
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
            out.println(Guide.next(picture));
            return;
        }
        out.println(wrap(sentence(nearest)));
        out.println();
        Table table = new Table()
                .left("CHAIN")
                .left("ON")
                .left("PRODUCT")
                .right("USED")
                .right("LEFT")
                .whole("TREAT BY")
                .right("WORN %")
                .whole("REPLACE BY");
        for (Standing s : shown) {
            boolean treat = s.treatment().used() >= 1;
            table.row(
                    s.chain(),
                    s.bike() == null ? "shelf" : s.bike(),
                    s.exposure().product().product(),
                    Words.percent(s.treatment().used()),
                    words.distance(s.treatment().leftMetres().likely()),
                    words.due(s.treatOn(), treat && s.bike() != null),
                    Words.elongation(s.wear().elongationPercent().likely()) + "/"
                            + Words.elongation(s.wear().limitPercent()),
                    words.due(s.replaceOn(), s.wear().used() >= 1));
        }
        table.print(out);
        out.println();
        footer(nearest);
    }

    String sentence(Standing s) {
        String name = Words.safe(s.chain());
        String where = s.bike() == null ? "on the shelf" : "on " + Words.safe(s.bike());
        if (s.wear().damaged() != null) {
            return "Nearest its limit: " + name + ", " + where + ". You saw damage on "
                    + words.date(s.wear().damaged()) + ": replace it now.";
        }
        if (s.nearest() == Standing.Limit.REPLACEMENT) {
            return "Nearest its limit: " + name + ", " + where + ". Worn to "
                    + Words.percent(s.wear().used())
                    + " of its limit: "
                    + (s.wear().used() >= 1
                            ? "replace it now."
                            : "replace it about " + words.due(s.replaceOn(), false) + ".");
        }
        if (s.treatment().lifeMetres() == null) {
            return "Nearest its limit: " + name + ", " + where + ". It runs untreated: treat it now.";
        }
        if (s.treatment().noisy() != null) {
            return "Nearest its limit: " + name + ", " + where + ". You heard it on "
                    + words.date(s.treatment().noisy()) + ": treat it now.";
        }
        String used = Words.percent(s.treatment().used()) + " of its treatment is used up";
        if (s.treatment().used() >= 1) {
            return "Nearest its limit: " + name + ", " + where + ". " + used + ": treat it "
                    + (s.bike() == null ? "before it goes back on." : "now.");
        }
        return "Nearest its limit: " + name + ", " + where + ". " + used
                + (s.treatOn() == null
                        ? "."
                        : ": treat it about " + words.date(s.treatOn().likely()) + ".");
    }

    private void footer(Standing nearest) {
        boolean replace = nearest.nearest() == Standing.Limit.REPLACEMENT && nearest.due();
        if (!desk.quiet()) {
            out.println("USED and LEFT count dry, clean road; --why shows how each ride was weighed.");
            out.println("Dates go by each bike's last 52 weeks, or as many as there are.");
            if (picture.standings().stream().anyMatch(s -> s.wear().used() >= 1)) {
                out.println(wrap(Safety.REPLACING));
            } else if (nearest.due() && !replace) {
                Method method = nearest.exposure().product().method();
                out.println(wrap(Safety.treating(method)));
            }
        }
        if (!picture.exposures().unattributed().isEmpty()) {
            out.println(unattributed(picture, words));
        }
    }

    static String unattributed(Picture picture, Words words) {
        int n = picture.exposures().unattributed().size();
        return wrap("Not attributed: " + Words.count(n, "ride", "rides") + ", "
                + words.distance(picture.exposures().unattributedMetres()) + ". " + Guide.attribute(picture, words));
    }

    /** Breaks a line at spaces so that none is longer than 80 columns. */
    static String wrap(String text) {
        return wrap(text, 0);
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
