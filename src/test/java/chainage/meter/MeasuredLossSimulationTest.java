package chainage.meter;

import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.meter.MeasuredLoss.Seen;
import chainage.meter.MeasuredLoss.Share;
import chainage.meter.MeasuredLoss.State;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * How riders fare whose rides come from {@link PairWorld}; with fewer than a hundred chance alone moves the shares by
 * three in a hundred. More of them: {@code -Dsimulation.riders=200}. The table is
 * printed, and stands in DEVELOPERS.md.
 */
class MeasuredLossSimulationTest {
    private static final int RIDERS = Integer.getInteger("simulation.riders", 100);

    // Of the power: fresh, and what a whole life adds; a product that loses more, and rises as much.
    private static final double FRESH = 0.018;
    private static final double RISE = 0.008;
    private static final double DEARER = 0.006;

    // As the table has hot wax, and a loss of 1.4 % of the power at 0.09.
    private static final double PER_MU = 0.155;
    private static final double MU_FRESH = 0.09;
    private static final double MU_END = 0.15;

    private static final State NEW = new State("wax", PER_MU, MU_FRESH, MU_FRESH);
    private static final State OLD = new State("wax", PER_MU, MU_FRESH, MU_END);

    /** Rides of one rider in their order: shares of life spread over it, now one product and now the other. */
    private static List<Seen> rides(long seed, double drift, int count, boolean two) {
        PairWorld world = new PairWorld(seed, drift);
        Random random = new Random(seed * 31 + 7);
        List<Seen> seen = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            double used = random.nextDouble();
            boolean other = two && i % 2 == 1;
            PairWorld.Recorded r = world.ride(45, PairWorld.share(FRESH + (other ? DEARER : 0), RISE, used), true);
            if (Laying.of(r.before(), r.behind()) instanceof Laid.Over o) {
                seen.add(new Seen(
                        new MeasuredLoss.Pair("a", "b"),
                        other ? "oil" : "wax",
                        PER_MU,
                        MU_FRESH,
                        MU_FRESH + (MU_END - MU_FRESH) * used,
                        o.logRatio(),
                        o.error()));
            }
        }
        return seen;
    }

    private static MeasuredLoss learn(List<Seen> seen, int rides) {
        return MeasuredLoss.of(
                seen.subList(0, Math.min(rides, seen.size())),
                List.of(),
                MeasuredLoss.Start.TABLE,
                new MeasuredLoss.Meters(0.03, 0.006),
                (a, b) -> null);
    }

    private static String percent(int part) {
        return String.format(Locale.ROOT, "%3d", Math.round(100.0 * part / RIDERS));
    }

    @Test
    void intervalsHoldWhatTheyShouldAndSignsAreRightWhenTold() {
        int held = 0;
        int asked = 0;
        int told = 0;
        int right = 0;
        StringBuilder table = new StringBuilder("drift | rides | 80 % held it | told at 95 % | wrongly\n");
        for (double drift : new double[] {0.003, 0.006, 0.01}) {
            int[] counts = {4, 8, 16, 32, 64};
            int[][] sums = new int[counts.length][3];
            for (int rider = 0; rider < RIDERS; rider++) {
                List<Seen> seen = rides(rider + 1, drift, 64, false);
                for (int k = 0; k < counts.length; k++) {
                    Share more = learn(seen, counts[k]).more(OLD, NEW);
                    sums[k][0] += more.low() <= RISE && RISE <= more.high() ? 1 : 0;
                    sums[k][1] += more.positive() >= 0.95 || more.positive() <= 0.05 ? 1 : 0;
                    sums[k][2] += more.positive() <= 0.05 ? 1 : 0;
                }
            }
            for (int k = 0; k < counts.length; k++) {
                table.append(String.format(
                        Locale.ROOT,
                        "%.1f %% | %2d | %s | %s | %s%n",
                        100 * drift,
                        counts[k],
                        percent(sums[k][0]),
                        percent(sums[k][1]),
                        percent(sums[k][2])));
                held += sums[k][0];
                asked += RIDERS;
                told += sums[k][1];
                right += sums[k][1] - sums[k][2];
            }
        }
        System.out.println(table);
        double share = (double) held / asked;
        assertTrue(share >= 0.75 && share <= 0.88, "80 % intervals held it in " + share);
        assertTrue(right >= 0.97 * told, right + " of " + told + " signs right");
    }

    @Test
    void ofTwoProductsTheDearerIsTold() {
        int held = 0;
        int told = 0;
        int wrong = 0;
        State wax = new State("wax", PER_MU, MU_FRESH, (MU_FRESH + MU_END) / 2);
        State oil = new State("oil", PER_MU, MU_FRESH, (MU_FRESH + MU_END) / 2);
        for (int rider = 0; rider < RIDERS; rider++) {
            Share more = learn(rides(1000 + rider, 0.006, 40, true), 40).more(oil, wax);
            held += more.low() <= DEARER && DEARER <= more.high() ? 1 : 0;
            told += more.positive() >= 0.95 ? 1 : 0;
            wrong += more.positive() <= 0.05 ? 1 : 0;
        }
        System.out.println("two products, drift 0.6 %, 40 rides: held " + percent(held) + " told " + percent(told)
                + " wrongly " + percent(wrong));
        assertTrue(held >= 0.65 * RIDERS && wrong <= 0.03 * RIDERS, held + " held, " + wrong + " wrong");
        assertTrue(told >= 0.6 * RIDERS, told + " told");
    }
}
