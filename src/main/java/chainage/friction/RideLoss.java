package chainage.friction;

import chainage.drivetrain.Pedalled;
import chainage.exposure.RideExposure;
import chainage.ledger.Cleaning;
import chainage.ledger.Ledger;
import java.time.Instant;
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
        return pedalled.isKnown();
    }

    /** Energy turned into heat, joules. */
    public double joules() {
        return mu * joulesPerMu;
    }

    /** What it would have been freshly treated, joules. */
    public double freshJoules() {
        return freshMu * joulesPerMu;
    }

    /** How clean it was before the treatment in force; deep for the factory's own preservative on a new chain. */
    public static Cleaning cleaning(Ledger ledger, String chain, @Nullable Instant treatedAt) {
        return treatedAt == null
                ? Cleaning.DEEP
                : ledger.treatments(chain).stream()
                        .filter(t -> t.at().equals(treatedAt))
                        .reduce((a, b) -> b)
                        .map(ledger::cleaning)
                        .orElse(Cleaning.NONE);
    }
}
