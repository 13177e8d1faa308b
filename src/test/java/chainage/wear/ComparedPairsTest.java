package chainage.wear;

import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.ledger.Event;
import chainage.ledger.Method;
import chainage.ledger.Reading;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * Pairs of products that do not come from the model: paces even over a range, a rider who wears all chains faster or more
 * slowly, errors with slips among them. Of what is told with so much chance as much is right.
 */
class ComparedPairsTest {
    private static final int PAIRS = 600;

    @Test
    void whatIsToldWithNinetyToNinetyNinePerCentIsRightAsOften() {
        Random random = new Random(20261128);
        int[] told = new int[3];
        int[] right = new int[3];
        double[] said = new double[3];
        for (int i = 0; i < PAIRS; i++) {
            boolean sameMethod = i % 2 == 0;
            double rateA = 0.025;
            double rateB = sameMethod ? 0.025 : 0.036;
            double rider = Math.exp(0.8 * (random.nextDouble() - 0.5));
            double a = Math.exp(1.2 * (random.nextDouble() - 0.5));
            double b = Math.exp(1.2 * (random.nextDouble() - 0.5));
            Map<String, ChainWear> chains = new LinkedHashMap<>();
            int each = 1 + random.nextInt(4);
            for (int c = 0; c < each; c++) {
                chains.put("a" + c, chain(random, "A", rider * a));
                chains.put("b" + c, chain(random, "B", rider * b));
            }
            WearModel model = new WearModel(Wears.USUAL, chains);
            double chance = of(model, "A", rateA).isSlower(of(model, "B", rateB));
            boolean slower = rateA * a < rateB * b;
            double sure = Math.max(chance, 1 - chance);
            int bin = sure >= 0.99 ? -1 : sure >= 0.9 ? 2 : sure >= 0.7 ? 1 : 0;
            if (bin >= 0) {
                told[bin]++;
                said[bin] += sure;
                right[bin] += slower == chance >= 0.5 ? 1 : 0;
            }
        }
        String[] names = {"50-70", "70-90", "90-99"};
        for (int k = 0; k < 3; k++) {
            System.out.printf(
                    "compare, wear: told %s %%: %d pairs, on the mean %.1f %%, right %.1f %%%n",
                    names[k], told[k], 100 * said[k] / told[k], 100.0 * right[k] / told[k]);
        }
        assertTrue(told[2] >= 100, told[2] + " pairs told from 90 % on");
        double apart = (said[2] - right[2]) / told[2];
        assertTrue(Math.abs(apart) <= 0.05, "told and right " + apart + " apart");
    }

    private static ChainWear chain(Random random, String product, double times) {
        double pace = times * Math.exp(0.6 * (random.nextDouble() + random.nextDouble() - 1));
        List<ReadingSeen> seen = new ArrayList<>();
        double x = 0;
        for (int k = 0; k < 1 + random.nextInt(5); k++) {
            x += 0.05 + 0.1 * random.nextDouble();
            double slip = random.nextDouble() < 0.05 ? 0.3 : 0;
            seen.add(Wears.seen(
                    x,
                    new Reading.Elongation(pace * x + slip + 0.05 * random.nextGaussian(), Reading.Tool.CALLIPER, 8)));
        }
        return new ChainWear(false, Expected.dry(x), Map.of(product, 1.0), seen);
    }

    private static ProductWear of(WearModel model, String product, double rate) {
        return model.of(new Event.ProductDescribed(product, Method.HOT_WAX, null, null), rate);
    }
}
