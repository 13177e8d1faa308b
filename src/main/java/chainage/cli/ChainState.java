package chainage.cli;

import chainage.analysis.Analysis;
import chainage.drivetrain.Drivetrain;
import chainage.friction.Effort;
import chainage.friction.Friction;
import chainage.friction.Loss;
import chainage.friction.RideLoss;
import chainage.ledger.Cleaning;
import chainage.ledger.Event;
import chainage.ledger.Method;
import chainage.render.Formatter;
import chainage.standing.Standing;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * A state that a chain is in, or could be in.
 *
 * @param name in the table
 * @param standing of the chain itself; null for a state that only serves to compare
 * @param method of its treatment
 * @param cleaning before it
 * @param used share of the treatment's life
 * @param mu coefficient of friction
 * @param bike its drivetrain
 */
record ChainState(
        String name,
        @Nullable Standing standing,
        Method method,
        Cleaning cleaning,
        double used,
        double mu,
        Drivetrain bike) {

    /** A chain as it stands. */
    static ChainState now(Analysis analysis, Standing s) {
        Event.ProductDescribed product = s.exposure().product();
        Cleaning cleaning =
                RideLoss.cleaning(analysis.ledger(), s.chain(), s.exposure().treatedAt());
        String on = s.bike();
        return new ChainState(
                s.chain(),
                s,
                product.method(),
                cleaning,
                s.treatment().usedOfLikely(),
                new Friction(analysis.factors())
                        .mu(product.method(), cleaning, s.treatment().usedOfLikely()),
                analysis.factors()
                        .drivetrain(
                                on == null ? null : analysis.ledger().bikes().get(on)));
    }

    /** A chain of a method, deeply cleaned, at a share of its life. */
    static ChainState of(Analysis analysis, String name, Method method, double used, Drivetrain bike) {
        double mu = new Friction(analysis.factors()).mu(method, Cleaning.DEEP, used);
        return new ChainState(name, null, method, Cleaning.DEEP, used, mu, bike);
    }

    Loss loss(Analysis analysis, Effort effort) {
        return new Friction(analysis.factors()).model(bike).loss(effort, mu);
    }

    /** The same freshly treated after deep cleaning. */
    ChainState fresh(Analysis analysis) {
        return of(analysis, name, method, 0, bike);
    }

    /** Where the coefficient comes from, each figure with its mark. */
    List<String> why(Analysis analysis) {
        List<String> lines = new ArrayList<>();
        String bare = analysis.factors().factor("friction.mu.bare").mark();
        if (method == Method.NONE) {
            lines.add(String.format(Locale.ROOT, "%s: untreated, friction %.3f (%s)", name, mu, bare));
            return lines;
        }
        String key = Friction.keptKey(method, cleaning);
        lines.add(String.format(
                Locale.ROOT,
                "%s: %s, %s of its life used, friction %.3f (fresh %s, worn %s: %s; from there to %s at twice its life: %s)",
                name,
                method.words(),
                Formatter.percent(used),
                mu,
                Formatter.number(analysis.factors().value("friction.mu.fresh." + method.word())),
                Formatter.number(analysis.factors().value("friction.mu.end." + method.word())),
                analysis.factors().factor("friction.mu.fresh." + method.word()).mark(),
                Formatter.number(analysis.factors().value("friction.mu.bare")),
                bare));
        if (!key.isEmpty()) {
            lines.add(String.format(
                    Locale.ROOT,
                    "  cleaning %s keeps %s of the gain over a dirty chain (%s)",
                    cleaning.word(),
                    Formatter.percent(new Friction(analysis.factors()).kept(method, cleaning)),
                    analysis.factors().factor(key).mark()));
        }
        return lines;
    }
}
