package chainage.answer.compare;

import chainage.analysis.Analysis;
import chainage.analysis.Comparison;
import chainage.answer.loss.PairWords;
import chainage.comparison.ComparedProduct;
import chainage.comparison.MoreToSee;
import chainage.comparison.PairComparison;
import chainage.ledger.Method;
import chainage.quantity.Estimate;
import chainage.render.Formatter;
import chainage.render.Out;
import chainage.treatment.Life;
import java.util.Objects;

/** What verdicts on products rest on: the table, what was seen, the difference against the doubt. */
final class CompareWhy {
    private final Analysis analysis;
    private final Formatter format;
    private final Out out;

    CompareWhy(Analysis analysis, Formatter format, Out out) {
        this.analysis = analysis;
        this.format = format;
        this.out = out;
    }

    void print(Comparison comparison) {
        for (ComparedProduct c : comparison.products()) {
            Method method = c.life().product().method();
            Estimate table = Objects.requireNonNull(analysis.factors().lifeMetres(method));
            out.line();
            out.line(c.product() + ": before any life was seen, " + method.words() + " lasts "
                    + format.distance(table.likely()) + ", between "
                    + format.distance(table.low()) + " and "
                    + format.distance(table.high()) + " (80 %; "
                    + analysis.factors().factor("life." + method.word()).mark() + ")");
            for (Life l : c.life().lives()) {
                out.line(
                        2,
                        l.chain() + ", " + format.date(l.treatedAt()) + ": "
                                + (l.ended() ? format.distance(l.fromMetres()) + " to " : "")
                                + format.distance(l.metres()) + ", "
                                + switch (l.end()) {
                                    case NOISY -> "ended within the ride";
                                    case RENEWED -> "renewed without a noise";
                                    case QUIET -> "renewed and quiet";
                                    case RUNNING -> "no noise so far";
                                });
            }
            if (c.life().otherLives() > 0) {
                out.line(
                        2,
                        "and " + Formatter.count(c.life().otherLives(), "life", "lives") + " of others of its method");
            }
            out.line(c.product() + ": before any reading, a chain wears by "
                    + Formatter.fixed(format.perThousand(c.wear().tableRate() / 1e6), 3) + " % per 1000 "
                    + format.unit() + " ("
                    + analysis.factors().factor("wear.rate." + method.word()).mark() + "); "
                    + Formatter.count(c.wear().readings(), "reading", "readings") + " on "
                    + Formatter.count(c.wear().chains(), "chain", "chains") + " ridden mostly on it");
        }
        comparison.products().stream()
                .map(c -> PairWords.ofOthers(analysis, c.life().product()))
                .filter(Objects::nonNull)
                .forEach(line -> {
                    out.line();
                    out.line(line);
                });
        out.line();
        comparison.pairs().stream()
                .filter(v -> v.finding() != PairComparison.Finding.UNSEEN)
                .forEach(v -> {
                    boolean life = v.aspect() == PairComparison.Aspect.LIFE;
                    Estimate x = life
                            ? v.better().life().typical()
                            : v.better().wear().percentPer1000Km();
                    Estimate y =
                            life ? v.worse().life().typical() : v.worse().wear().percentPer1000Km();
                    double doubt = Math.sqrt(
                            life
                                    ? MoreToSee.variance(x) + MoreToSee.variance(y)
                                    : v.better().wear().variance(v.worse().wear()));
                    out.line(v.better().product() + " and " + v.worse().product()
                            + (life ? ", life: " : ", wear: ") + Formatter.fixed(MoreToSee.difference(x, y), 2)
                            + " apart in the log, doubt "
                            + (life
                                    ? "√(" + Formatter.fixed(Math.sqrt(MoreToSee.variance(x)), 2) + "² + "
                                            + Formatter.fixed(Math.sqrt(MoreToSee.variance(y)), 2) + "²) = "
                                    : "of that ")
                            + Formatter.fixed(doubt, 2) + ", chance "
                            + Formatter.fixed(100 * v.chance(), 1) + " %");
                });
    }
}
