package chainage.quantity;

import java.util.function.IntPredicate;

/** Places in what is in order. */
public final class Ordered {
    private Ordered() {}

    /**
     * How many come before a border, found by halving.
     *
     * @param size how many there are
     * @param before whether the one at a place, from 0, comes before it; no more once one does not
     */
    public static int before(int size, IntPredicate before) {
        int low = 0;
        int high = size;
        while (low < high) {
            int middle = (low + high) >>> 1;
            if (before.test(middle)) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        return low;
    }
}
