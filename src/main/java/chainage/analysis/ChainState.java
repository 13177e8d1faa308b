package chainage.analysis;

import chainage.drivetrain.Drivetrain;
import chainage.friction.Effort;
import chainage.friction.Friction;
import chainage.friction.Loss;
import chainage.friction.RideLoss;
import chainage.ledger.Cleaning;
import chainage.ledger.Event;
import chainage.ledger.Method;
import chainage.standing.Standing;
import org.jspecify.annotations.Nullable;

/**
 * A state that a chain is in, or could be in.
 *
 * @param standing of the chain itself; null for a state that only serves to compare
 * @param method of its treatment
 * @param cleaning before it
 * @param used share of the treatment's life
 * @param mu coefficient of friction
 * @param bike its drivetrain
 */
public record ChainState(
        @Nullable Standing standing, Method method, Cleaning cleaning, double used, double mu, Drivetrain bike) {

    /** A chain as it stands. */
    public static ChainState now(Analysis analysis, Standing s) {
        Event.ProductDescribed product = s.exposure().product();
        Cleaning cleaning =
                RideLoss.cleaning(analysis.ledger(), s.chain(), s.exposure().treatedAt());
        String on = s.bike();
        return new ChainState(
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
    public static ChainState of(Analysis analysis, Method method, double used, Drivetrain bike) {
        double mu = new Friction(analysis.factors()).mu(method, Cleaning.DEEP, used);
        return new ChainState(null, method, Cleaning.DEEP, used, mu, bike);
    }

    /** What it loses at an effort. */
    public Loss loss(Analysis analysis, Effort effort) {
        return new Friction(analysis.factors()).model(bike).loss(effort, mu);
    }

    /** The same freshly treated after deep cleaning. */
    public ChainState fresh(Analysis analysis) {
        return of(analysis, method, 0, bike);
    }
}
