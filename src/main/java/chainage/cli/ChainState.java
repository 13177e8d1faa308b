package chainage.cli;

import chainage.drivetrain.Drivetrain;
import chainage.friction.Effort;
import chainage.friction.Friction;
import chainage.friction.Loss;
import chainage.friction.RideLoss;
import chainage.ledger.Cleaning;
import chainage.ledger.Event;
import chainage.ledger.Method;
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
    static ChainState now(Picture picture, Standing s) {
        Event.ProductDescribed product = s.exposure().product();
        Cleaning cleaning =
                RideLoss.cleaning(picture.ledger(), s.chain(), s.exposure().treatedAt());
        String on = s.bike();
        return new ChainState(
                s.chain(),
                s,
                product.method(),
                cleaning,
                s.treatment().usedOfLikely(),
                new Friction(picture.factors())
                        .mu(product.method(), cleaning, s.treatment().usedOfLikely()),
                picture.factors()
                        .drivetrain(on == null ? null : picture.ledger().bikes().get(on)));
    }

    /** A chain of a method, deeply cleaned, at a share of its life. */
    static ChainState of(Picture picture, String name, Method method, double used, Drivetrain bike) {
        double mu = new Friction(picture.factors()).mu(method, Cleaning.DEEP, used);
        return new ChainState(name, null, method, Cleaning.DEEP, used, mu, bike);
    }

    Loss loss(Picture picture, Effort effort) {
        return new Friction(picture.factors()).model(bike).loss(effort, mu);
    }

    /** The same freshly treated after deep cleaning. */
    ChainState fresh(Picture picture) {
        return of(picture, name, method, 0, bike);
    }

    /** Where the coefficient comes from, each figure with its mark. */
    List<String> why(Picture picture) {
        List<String> lines = new ArrayList<>();
        String bare = picture.factors().factor("friction.mu.bare").mark();
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
                Words.percent(used),
                mu,
                Words.number(picture.factors().value("friction.mu.fresh." + method.word())),
                Words.number(picture.factors().value("friction.mu.end." + method.word())),
                picture.factors().factor("friction.mu.fresh." + method.word()).mark(),
                Words.number(picture.factors().value("friction.mu.bare")),
                bare));
        if (!key.isEmpty()) {
            lines.add(String.format(
                    Locale.ROOT,
                    "  cleaning %s keeps %s of the gain over a dirty chain (%s)",
                    cleaning.word(),
                    Words.percent(new Friction(picture.factors()).kept(method, cleaning)),
                    picture.factors().factor(key).mark()));
        }
        return lines;
    }
}
