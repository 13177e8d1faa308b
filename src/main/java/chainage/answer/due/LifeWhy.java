package chainage.answer.due;

import chainage.analysis.Analysis;
import chainage.analysis.Outlier;
import chainage.answer.OutlierWords;
import chainage.exposure.Factors;
import chainage.exposure.Leaning;
import chainage.ledger.Method;
import chainage.quantity.Estimate;
import chainage.render.Formatter;
import chainage.treatment.Life;
import chainage.treatment.LifeModel;
import chainage.treatment.OtherRiders;
import chainage.treatment.ProductLife;
import chainage.treatment.TreatmentStanding;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;

/** How a product's life was learnt: what the table said, what was seen, what follows. */
final class LifeWhy {
    /** More figures than this would be a wall; the rest are counted. */
    private static final int SHOWN = 6;

    private LifeWhy() {}

    static List<String> lines(Analysis analysis, ProductLife product, TreatmentStanding t, Formatter format) {
        Method method = product.product().method();
        String name = product.product().product();
        Factors.Factor row = analysis.factors().factor("life." + method.word());
        List<String> lines = new ArrayList<>();
        Factors.Factor wider = analysis.factors().factor("life.wider");
        lines.add("by the built-in table: " + method.words() + " lasts "
                + between(Objects.requireNonNull(analysis.factors().lifeMetres(method)), format)
                + " of dry, clean road ("
                + row.mark()
                + "), its interval taken " + Formatter.number(wider.value()) + " times as wide (life.wider, "
                + wider.mark() + ")");
        OtherRiders others = analysis.others().weighed();
        if (others.shown(method).riders() > 0) {
            String ofProduct = shown(others.shown(product.product()));
            String ofMethod = shown(others.shown(method));
            lines.add("others have shown " + ofProduct + " of " + name
                    + (ofMethod.equals(ofProduct)
                            ? ", none of another of its method"
                            : ", " + ofMethod + " of its method")
                    + " (chainage explain evidence)");
        }
        lines.add(seen(product, format));
        // Worked out once for all chains, whichever of them a treatment in force is left out for.
        LifeModel lives = analysis.estimates().lives();
        ProductLife all = lives.of(product.product());
        all.doubts()
                .forEach(d ->
                        lines.add("doubted: " + OutlierWords.of(new Outlier.TreatmentLife(all, d.life()), format)));
        if (!product.lives().isEmpty() || product.otherLives() > 0 || product.othersWeight() > 0) {
            lines.add("chance that you note nothing when one is worn off: " + Formatter.percent(lives.unremarked())
                    + "; " + roads(lives.leaning()));
            lines.add("so " + name + " typically lasts " + between(product.typical(), format)
                    + (product.ended() > 0 && product.tableWeight() > 0.99
                            ? "; by too few lives to say what the built-in table still counts for"
                            : "; the built-in table still counts for " + Formatter.percent(product.tableWeight())
                                    + " of that")
                    + (product.othersWeight() > 0
                            ? ", what others have shown for " + Formatter.percent(product.othersWeight())
                            : ""));
        }
        Estimate life = product.life();
        Factors.Factor risk = analysis.factors().factor(TreatmentStanding.RISK);
        lines.add("as your rides count, a single life ends between " + format.distance(life.low()) + " and "
                + format.distance(life.high())
                + " (80 %); " + Formatter.percent(Math.min(0.99, risk.value())) + " of them are worn off by "
                + format.distance(t.limitMetres()) + ", and there it is due (due.risk, " + risk.mark() + ")");
        if (t.exposureMetres() > 0) {
            lines.add("chance that one is worn off by " + format.distance(t.exposureMetres()) + ": "
                    + Formatter.percent(product.isOver(t.exposureMetres())));
        }
        return lines;
    }

    private static String roads(Leaning leaning) {
        String wet = Formatter.fixed(leaning.wet(), 2);
        String grit = Formatter.fixed(leaning.grit(), 2);
        return wet.equals("1.00") && grit.equals("1.00")
                ? "of wet and dirty roads nothing is learnt yet: they count as in the built-in table"
                : "what wet roads add is " + wet + " times what the built-in table says, what dirty ones add " + grit
                        + " times (learnt)";
    }

    private static String shown(OtherRiders.Shown shown) {
        return shown.riders() == 0
                ? "nothing"
                : Formatter.count(shown.lives(), "life", "lives") + " with "
                        + Formatter.count(shown.riders(), "rider", "riders");
    }

    private static String between(Estimate e, Formatter format) {
        return format.distance(e.likely()) + ", between " + format.distance(e.low()) + " and "
                + format.distance(e.high()) + " (80 %)";
    }

    private static String seen(ProductLife product, Formatter format) {
        List<String> parts = new ArrayList<>();
        add(parts, product, Life.End.NOISY, "ended in a ride from", format);
        add(parts, product, Life.End.RENEWED, "renewed without a noise at", format);
        add(parts, product, Life.End.QUIET, "renewed and quiet at", format);
        add(parts, product, Life.End.RUNNING, "no noise so far at", format);
        String name = product.product().product();
        String own = parts.isEmpty()
                ? "no life of " + name + " seen yet"
                : "seen of " + name + ": " + String.join("; ", parts);
        return own
                + (product.otherLives() == 0
                        ? ""
                        : "; of others of its method: " + Formatter.count(product.otherLives(), "life", "lives"));
    }

    private static void add(List<String> parts, ProductLife product, Life.End end, String what, Formatter format) {
        List<String> at = product.lives().stream()
                .filter(l -> l.end() == end)
                .map(l -> (l.ended() ? format.distance(l.fromMetres()) + " to " : "") + format.distance(l.metres()))
                .toList();
        if (!at.isEmpty()) {
            parts.add(at.size() + " " + what + " " + String.join(", ", at.subList(0, Math.min(SHOWN, at.size())))
                    + (at.size() > SHOWN ? " and so on" : ""));
        }
    }
}
