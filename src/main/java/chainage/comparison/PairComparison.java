package chainage.comparison;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What can be said of two products in one respect.
 *
 * @param aspect the respect
 * @param better the one that is more likely the better
 * @param worse the other
 * @param chance that it is the better, 0.5 to 1
 * @param finding what that amounts to
 * @param more how much more would show it; null unless the finding is {@link Finding#NOT_YET}
 */
public record PairComparison(
        Aspect aspect,
        ComparedProduct better,
        ComparedProduct worse,
        double chance,
        Finding finding,
        @Nullable MoreToSee more) {
    /** From this chance on a verdict is given; our choice. */
    public static final double FIRM = 0.9;

    /** In which respect. */
    public enum Aspect {
        /** The typical life of a treatment, longer is better. */
        LIFE,
        /** Elongation a distance, slower is better. */
        WEAR
    }

    /** What a chance amounts to. */
    public enum Finding {
        /** The one is the better, by what was seen of both. */
        FIRM,
        /** Something was seen of both, and it does not tell them apart. */
        NOT_YET,
        /** Of one or both nothing was seen, so that the table speaks and not the rider. */
        UNSEEN
    }

    /** Every pair in every respect: all of lives first, in the order of the products. */
    public static List<PairComparison> of(List<ComparedProduct> products, Spreads spreads) {
        List<PairComparison> pairs = new ArrayList<>();
        for (Aspect aspect : Aspect.values()) {
            for (int i = 0; i < products.size(); i++) {
                for (int j = i + 1; j < products.size(); j++) {
                    pairs.add(of(aspect, products.get(i), products.get(j), spreads));
                }
            }
        }
        return List.copyOf(pairs);
    }

    private static PairComparison of(Aspect aspect, ComparedProduct a, ComparedProduct b, Spreads spreads) {
        double chance =
                aspect == Aspect.LIFE ? a.life().isLonger(b.life()) : a.wear().isSlower(b.wear());
        boolean first = chance >= 0.5;
        double of = Math.max(chance, 1 - chance);
        boolean unseen = !a.seen(aspect) || !b.seen(aspect);
        Finding finding = unseen ? Finding.UNSEEN : of >= FIRM ? Finding.FIRM : Finding.NOT_YET;
        return new PairComparison(
                aspect,
                first ? a : b,
                first ? b : a,
                of,
                finding,
                finding == Finding.NOT_YET ? MoreToSee.of(aspect, a, b, spreads) : null);
    }
}
