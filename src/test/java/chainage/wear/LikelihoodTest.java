package chainage.wear;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class LikelihoodTest {
    private static final int ELONGATIONS = 40;

    /** Bit by bit, among likelihoods too that no double holds. */
    @ParameterizedTest
    @ValueSource(booleans = {true, false})
    void manyElongationsInOneGoAreAsOneByOne(boolean heavy) {
        Random random = new Random(5);
        Likelihood.Columns columns = new Likelihood.Columns(heavy, ELONGATIONS);
        Likelihood.Sum sum = new Likelihood.Sum(heavy);
        int tiny = 0;
        for (int round = 0; round < 2_000; round++) {
            Likelihood.One[] ones = new Likelihood.One[random.nextInt(40)];
            double[] expected = new double[ones.length];
            double error = Math.pow(10, -1 - random.nextInt(7));
            for (int k = 0; k < ones.length; k++) {
                int side = random.nextInt(3) == 0 ? random.nextInt(3) - 1 : 0;
                ones[k] = new Likelihood.One(random.nextDouble(), error * (1 + random.nextDouble()), side);
                expected[k] = random.nextDouble();
            }
            double start = random.nextBoolean() ? 0 : random.nextDouble();
            double[] pace = random.doubles(ELONGATIONS, 0.1, 3).toArray();
            double[] before = random.doubles(ELONGATIONS, -20, 0).toArray();
            double[] logs = new double[ELONGATIONS];
            columns.weigh(ones, before, start, pace, expected, logs);
            for (int i = 0; i < ELONGATIONS; i++) {
                sum.begin(before[i]);
                for (int k = 0; k < ones.length; k++) {
                    sum.add(ones[k], start + pace[i] * expected[k]);
                }
                assertEquals(sum.log(), logs[i]);
                tiny += logs[i] < -600 ? 1 : 0;
            }
        }
        assertTrue(tiny > 1_000, tiny + " of likelihoods that no double holds");
    }
}
