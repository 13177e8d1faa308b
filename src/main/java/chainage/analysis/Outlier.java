package chainage.analysis;

import chainage.treatment.Life;
import chainage.treatment.ProductLife;
import chainage.wear.WearModel;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;

/** A reading or a remark that does not fit what else is known: told, so that nothing is averaged away in silence. */
public sealed interface Outlier {
    /** The chain that it is of. */
    String chain();

    /** What was stated, so that the same doubt is known again when its figures have moved. */
    Object about();

    /** A reading that does not fit all others. */
    record Reading(String chain, WearModel.Doubt doubt) implements Outlier {
        @Override
        public Object about() {
            return doubt.seen().measured();
        }
    }

    /** A treatment that ended far too soon, or was silent far too long. */
    record TreatmentLife(ProductLife product, Life life) implements Outlier {
        @Override
        public String chain() {
            return life.chain();
        }

        @Override
        public Object about() {
            return List.of(chain(), product.product().product(), life.treatedAt(), life.ended());
        }

        /** True for one that ended sooner than is likely, false for one that was silent for too long. */
        public boolean soon() {
            return life.ended() && life.metres() < product.life().likely();
        }
    }

    /** Readings of these chains, in the order of the chains, worst first. */
    static List<Outlier> readings(Analysis analysis, Collection<String> chains) {
        List<Outlier> found = new ArrayList<>();
        for (String chain : chains) {
            analysis.doubts(chain).forEach(d -> found.add(new Reading(chain, d)));
        }
        return found;
    }

    /** Lives of treatments of these chains, by product. */
    static List<Outlier> lives(Analysis analysis, Collection<String> chains) {
        List<Outlier> found = new ArrayList<>();
        for (ProductLife product : analysis.lifeModel().products()) {
            product.doubts().stream()
                    .map(ProductLife.Doubt::life)
                    .filter(life -> chains.contains(life.chain()))
                    .forEach(life -> found.add(new TreatmentLife(product, life)));
        }
        return found;
    }

    /** Both, of all chains. */
    static List<Outlier> all(Analysis analysis) {
        return of(analysis, analysis.ledger().chains().keySet());
    }

    /** Both, of these chains. */
    static List<Outlier> of(Analysis analysis, Collection<String> chains) {
        List<Outlier> found = new ArrayList<>(readings(analysis, chains));
        found.addAll(lives(analysis, chains));
        return found;
    }
}
