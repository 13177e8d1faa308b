package chainage.analysis;

import chainage.friction.LossSum;
import chainage.friction.RideLoss;
import chainage.friction.RideLosses;
import chainage.standing.Standing;
import chainage.treatment.Lives;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;

/** What rides lost in the chain, on the treatments that the rider noted. */
public final class Losses {
    private Losses() {}

    /**
     * Every ride on these chains, by start.
     *
     * @param chains by name; empty for all
     */
    public static List<RideLoss> of(Analysis analysis, Collection<String> chains) {
        RideLosses losses = new RideLosses(analysis.ledger(), analysis.factors());
        Lives lives = analysis.lives();
        List<RideLoss> all = new ArrayList<>();
        analysis.exposures().chains().forEach((name, chain) -> {
            if (chains.isEmpty() || chains.contains(name)) {
                all.addAll(losses.of(chain, lives::likelyMetres));
            }
        });
        all.sort(Comparator.comparing(l -> l.exposure().start()));
        return all;
    }

    /** The rides on a chain's treatment in force, added up. */
    public static LossSum sinceTreatment(Analysis analysis, Standing s) {
        return LossSum.of(of(analysis, List.of(s.chain())).stream()
                .filter(l ->
                        Objects.equals(l.exposure().treatedAt(), s.exposure().treatedAt()))
                .toList());
    }
}
