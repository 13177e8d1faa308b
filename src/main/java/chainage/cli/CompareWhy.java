package chainage.cli;

import chainage.analysis.Analysis;
import chainage.comparison.ComparedProduct;
import chainage.comparison.MoreToSee;
import chainage.comparison.PairComparison;
import chainage.ledger.Method;
import chainage.quantity.Estimate;
import chainage.render.Formatter;
import chainage.treatment.Life;
import java.util.List;
import java.util.Locale;
import java.util.Objects;

/** What verdicts on products rest on: the table, what was seen, the difference against the doubt. */
final class CompareWhy {
    private final CommandContext context;
    private final Analysis analysis;

    CompareWhy(CommandContext context, Analysis analysis) {
        this.context = context;
        this.analysis = analysis;
    }

    void print(List<ComparedProduct> candidates, List<PairComparison> verdicts) {
        for (ComparedProduct c : candidates) {
            Method method = c.life().product().method();
            Estimate table = Objects.requireNonNull(analysis.factors().lifeMetres(method));
            context.out().line();
            line(c.product() + ": before any life was seen, " + method.words() + " lasts "
                    + context.format().distance(table.likely()) + ", 80 % between "
                    + context.format().distance(table.low()) + " and "
                    + context.format().distance(table.high()) + " ("
                    + analysis.factors().factor("life." + method.word()).mark() + ")");
            for (Life l : c.life().lives()) {
                inset(l.chain() + ", " + context.format().date(l.treatedAt()) + ": "
                        + context.format().distance(l.metres()) + ", "
                        + switch (l.end()) {
                            case NOISY -> "heard";
                            case RENEWED -> "renewed in silence";
                            case RUNNING -> "silent so far";
                        });
            }
            if (c.life().otherLives() > 0) {
                inset("and " + Formatter.count(c.life().otherLives(), "life", "lives") + " of others of its method");
            }
            line(c.product() + ": before any reading, a chain wears by "
                    + String.format(Locale.ROOT, "%.3f", c.wear().tableRate()) + " % per 1000 km ("
                    + analysis.factors().factor("wear.rate." + method.word()).mark() + "); "
                    + Formatter.count(c.wear().readings(), "reading", "readings") + " on "
                    + Formatter.count(c.wear().chains(), "chain", "chains") + " ridden mostly on it");
        }
        context.out().line();
        verdicts.stream()
                .filter(v -> v.finding() != PairComparison.Finding.UNSEEN)
                .forEach(v -> {
                    boolean life = v.aspect() == PairComparison.Aspect.LIFE;
                    Estimate x = life
                            ? v.better().life().typical()
                            : v.better().wear().percentPer1000Km();
                    Estimate y =
                            life ? v.worse().life().typical() : v.worse().wear().percentPer1000Km();
                    line(v.better().product() + " and " + v.worse().product()
                            + String.format(
                                    Locale.ROOT,
                                    ", %s: %.2f apart in the log, doubt √(%.2f² + %.2f²) = %.2f, chance %.1f %%",
                                    life ? "life" : "wear",
                                    MoreToSee.difference(x, y),
                                    Math.sqrt(MoreToSee.variance(x)),
                                    Math.sqrt(MoreToSee.variance(y)),
                                    Math.sqrt(MoreToSee.variance(x) + MoreToSee.variance(y)),
                                    100 * v.chance()));
                });
    }

    private void inset(String text) {
        context.out().line(2, text);
    }

    private void line(String text) {
        context.out().line(text);
    }
}
