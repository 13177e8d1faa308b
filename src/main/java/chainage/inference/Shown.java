package chainage.inference;

import java.util.List;
import java.util.function.ToIntFunction;

/**
 * How much others have shown of something.
 *
 * @param riders who have shown anything of it
 * @param pieces of evidence, of all of them
 */
public record Shown(int riders, int pieces) {
    /**
     * Of some riders.
     *
     * @param pieces that one of them has shown, 0 and more
     */
    public static <R> Shown of(List<R> riders, ToIntFunction<R> pieces) {
        int[] shown = riders.stream().mapToInt(pieces).filter(n -> n > 0).toArray();
        int all = 0;
        for (int n : shown) {
            all += n;
        }
        return new Shown(shown.length, all);
    }
}
