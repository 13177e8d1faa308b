package chainage.friction;

import chainage.drivetrain.Drivetrain;
import chainage.drivetrain.Pedalled;
import chainage.exposure.ChainExposure;
import chainage.exposure.Factors;
import chainage.exposure.RideExposure;
import chainage.ledger.Cleaning;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;

/**
 * What one ride's pedalling lost in its chain.
 *
 * @param exposure the ride on its chain
 * @param pedalled what went into the chain; its basis is {@code NOTHING} for a ride without power, which loses nothing
 *     that could be told
 * @param cleaning before the treatment in force
 * @param usedFrom share of the treatment's life used at its start
 * @param usedTo the same at its end
 * @param mu mean coefficient of friction
 * @param freshMu of the same product, freshly applied to a deeply cleaned chain
 * @param joulesPerMu loss at a coefficient of 1, to which losses are proportional: times any other coefficient it gives
 *     the loss in any other state
 */
public record RideLoss(
        RideExposure exposure,
        Pedalled pedalled,
        Cleaning cleaning,
        double usedFrom,
        double usedTo,
        double mu,
        double freshMu,
        double joulesPerMu) {

    /** True when the file tells the power. */
    public boolean counted() {
        return pedalled.basis() != Pedalled.Basis.NOTHING;
    }

    /** Energy turned into heat, joules. */
    public double joules() {
        return mu * joulesPerMu;
    }

    /** What it would have been freshly treated, joules. */
    public double freshJoules() {
        return freshMu * joulesPerMu;
    }

    /**
     * The losses of all rides on a chain, by start.
     *
     * @param lifeMetres likely life of a product, metres of dry clean road
     */
    public static List<RideLoss> of(
            Ledger ledger, ChainExposure chain, Factors factors, ToDoubleFunction<Event.ProductDescribed> lifeMetres) {
        return of(
                ledger,
                chain,
                factors,
                lifeMetres,
                r -> cleaning(ledger, chain.chain().chain(), r.treatedAt()));
    }

    /**
     * The same where treatments may be others than those noted.
     *
     * @param cleaning before the treatment that a ride was ridden on
     */
    public static List<RideLoss> of(
            Ledger ledger,
            ChainExposure chain,
            Factors factors,
            ToDoubleFunction<Event.ProductDescribed> lifeMetres,
            Function<RideExposure, Cleaning> cleaning) {
        Friction friction = new Friction(factors);
        List<RideLoss> losses = new ArrayList<>();
        Instant treated = null;
        double exposure = 0;
        for (RideExposure r : chain.rides()) {
            if (!Objects.equals(treated, r.treatedAt())) {
                treated = r.treatedAt();
                exposure = 0;
            }
            double life = lifeMetres.applyAsDouble(r.product());
            double from = exposure / life;
            exposure += r.treatmentMetres();
            losses.add(of(friction, factors, ledger, r, cleaning.apply(r), from, exposure / life));
        }
        return List.copyOf(losses);
    }

    private static RideLoss of(
            Friction friction,
            Factors factors,
            Ledger ledger,
            RideExposure r,
            Cleaning cleaning,
            double from,
            double to) {
        String bikeName = r.ride().bike();
        Drivetrain bike =
                factors.drivetrain(bikeName == null ? null : ledger.bikes().get(bikeName));
        Pedalled pedalled = Pedalled.of(r.ride().filed().ride(), bike, factors.reference());
        LossModel model = friction.model(bike);
        double perMu = 0;
        for (Pedalled.Stroke s : pedalled.strokes()) {
            perMu += s.rpm() > 0
                    ? model.loss(new Effort(s.watts(), s.gear(), s.rpm()), 1).watts() * s.seconds()
                    : 0;
        }
        return new RideLoss(
                r,
                pedalled,
                cleaning,
                from,
                to,
                friction.meanMu(r.method(), cleaning, from, to),
                friction.mu(r.method(), Cleaning.DEEP, 0),
                perMu * pedalled.scale());
    }

    /** The cleaning before the treatment in force; deep for the factory's own preservative on a new chain. */
    public static Cleaning cleaning(Ledger ledger, String chain, @Nullable Instant treatedAt) {
        return treatedAt == null
                ? Cleaning.DEEP
                : ledger.treatments(chain).stream()
                        .filter(t -> t.at().equals(treatedAt))
                        .reduce((a, b) -> b)
                        .map(Event.Treated::cleaning)
                        .orElse(Cleaning.NONE);
    }
}
