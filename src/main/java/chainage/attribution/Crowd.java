package chainage.attribution;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.jspecify.annotations.Nullable;

/**
 * Recordings as a tree of boxes in time, sport and bike: halved again and again along what tells most of them apart, so
 * that one finds the outing that it belongs to without being held against all.
 *
 * <p>Each box knows the fullest outing that stands in it. A question goes into the box of the fuller outing first and
 * leaves out what cannot hold a match or a fuller one; its answer is that of a look at all.
 */
final class Crowd {
    /** So few are held against one by one; our guess. */
    private static final int FEW = 8;

    /** What a box has bounds in: what its recordings say, their starts and ends. */
    private static final int SAID = 3;

    private static final int START = 3;
    private static final int END = 4;
    private static final int WAYS = 5;

    private final Node root;
    private long comparisons;

    Crowd(List<Recording> recordings) {
        // Where the halves are looked for is drawn, so that no order of rides makes it long; the answer is the same.
        root = new Node(recordings.toArray(Recording[]::new), 0, recordings.size(), null, new Random(1));
    }

    /** How often a recording was held against another or against a box. */
    long comparisons() {
        return comparisons;
    }

    /**
     * The fullest outing that a recording belongs to.
     *
     * @return its rank; {@link Recording#NONE} for none
     */
    int outing(Recording r) {
        return search(root, r, Recording.NONE);
    }

    /**
     * @param best only a fuller outing than of this rank
     */
    private int search(Node node, Recording r, int best) {
        comparisons++;
        if (node.fullest >= best || !node.mayHold(r)) {
            return best;
        }
        int found = best;
        if (node.left == null || node.right == null) {
            for (Recording o : node.few) {
                comparisons++;
                int outing = o.offered();
                if (outing < found && outing != r.rank && r.agrees(o)) {
                    found = outing;
                }
            }
        } else {
            boolean leftFirst = node.left.fullest <= node.right.fullest;
            found = search(leftFirst ? node.left : node.right, r, found);
            found = search(leftFirst ? node.right : node.left, r, found);
        }
        node.renew();
        return found;
    }

    /** A box: the bounds of what is in it. The ranks are never too high, and may be too low until it is looked into. */
    static final class Node {
        private final Recording[] few;
        private final @Nullable Node parent;
        private final @Nullable Node left;
        private final @Nullable Node right;
        private final double[] least = new double[WAYS];
        private final double[] most = new double[WAYS];
        private final long shortest;
        private int fullest = Recording.NONE;

        Node(Recording[] all, int from, int to, @Nullable Node parent, Random pivots) {
            this.parent = parent;
            Arrays.fill(least, Double.POSITIVE_INFINITY);
            Arrays.fill(most, Double.NEGATIVE_INFINITY);
            long shortestYet = Long.MAX_VALUE;
            for (int i = from; i < to; i++) {
                double[] at = all[i].at;
                for (int way = 0; way < WAYS; way++) {
                    least[way] = Math.min(least[way], at[way]);
                    most[way] = Math.max(most[way], at[way]);
                }
                shortestYet = Math.min(shortestYet, all[i].length());
            }
            shortest = shortestYet;
            if (to - from <= FEW) {
                few = Arrays.copyOfRange(all, from, to);
                left = null;
                right = null;
                for (Recording r : few) {
                    r.in(this);
                }
            } else {
                few = new Recording[0];
                int middle = (from + to) >>> 1;
                part(all, from, to - 1, middle, widest(all, from, to), pivots);
                left = new Node(all, from, middle, this, pivots);
                right = new Node(all, middle, to, this, pivots);
            }
            renew();
        }

        /** What they differ most in, by how much two may differ and still be of one outing. */
        private int widest(Recording[] all, int from, int to) {
            double length = 0;
            for (int i = from; i < to; i++) {
                length += all[i].length();
            }
            double near = Recording.OVERLAP_SHARE * length / (to - from);
            int widest = 0;
            double width = -1;
            for (int way = 0; way < WAYS; way++) {
                double w = (most[way] - least[way]) / (way == START || way == END ? near : 1);
                if (w > width) {
                    widest = way;
                    width = w;
                }
            }
            return widest;
        }

        /** Puts the lesser ones before the middle and the greater ones behind it (Hoare's selection). */
        private static void part(Recording[] all, int first, int last, int middle, int way, Random pivots) {
            int from = first;
            int to = last;
            while (from < to) {
                double pivot = all[from + pivots.nextInt(to - from + 1)].at[way];
                int i = from;
                int j = to;
                while (i <= j) {
                    while (all[i].at[way] < pivot) {
                        i++;
                    }
                    while (all[j].at[way] > pivot) {
                        j--;
                    }
                    if (i <= j) {
                        Recording swapped = all[i];
                        all[i++] = all[j];
                        all[j--] = swapped;
                    }
                }
                if (middle <= j) {
                    to = j;
                } else if (middle >= i) {
                    from = i;
                } else {
                    return;
                }
            }
        }

        /** False when no recording in the box can match. */
        private boolean mayHold(Recording r) {
            for (int way = 0; way < SAID; way++) {
                int said = r.outingSays(way);
                if (said != Recording.UNSAID
                        && least[way] > Recording.UNSAID
                        && (said < least[way] || said > most[way])) {
                    return false;
                }
            }
            double overlap = Math.min(most[END], r.at[END]) - Math.max(least[START], r.at[START]);
            return overlap + Recording.CLOCKS > Recording.OVERLAP_SHARE * Math.min(shortest, r.length());
        }

        /** A recording in the box stands for an outing of this rank now. */
        void lower(int rank) {
            for (Node n = this; n != null && n.fullest > rank; n = n.parent) {
                n.fullest = rank;
            }
        }

        private void renew() {
            if (left != null && right != null) {
                fullest = Math.min(left.fullest, right.fullest);
                return;
            }
            fullest = Recording.NONE;
            for (Recording r : few) {
                fullest = Math.min(fullest, r.offered());
            }
        }
    }
}
