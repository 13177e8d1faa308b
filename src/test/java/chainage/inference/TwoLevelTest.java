package chainage.inference;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

class TwoLevelTest {
    private static final double OWN = 0.35;
    private static final double SHARED = 0.5;

    private static DoubleUnaryOperator reading(double at, double error) {
        return u -> Normal.logDensity((at - u) / error) - Math.log(error);
    }

    /** With normal readings everything has a closed form: weigh each by its precision. */
    @Test
    void normalReadingsGiveTheClosedForm() {
        double[] at = {0.8, 0.3, -0.2};
        double[] error = {0.1, 0.4, 0.02};
        TwoLevel two = new TwoLevel(
                OWN, SHARED, List.of(reading(at[0], error[0]), reading(at[1], error[1]), reading(at[2], error[2])));
        for (int i = 0; i <= 3; i++) {
            double precision = 1 / (SHARED * SHARED);
            double sum = 0;
            for (int j = 0; j < 3; j++) {
                double w = j == i ? 0 : 1 / (OWN * OWN + error[j] * error[j]);
                precision += w;
                sum += w * at[j];
            }
            // The level before its own reading, then with it.
            double variance = OWN * OWN + 1 / precision;
            double mean = sum / precision;
            if (i < 3) {
                double w = 1 / (error[i] * error[i]);
                mean = (mean / variance + at[i] * w) / (1 / variance + w);
                variance = 1 / (1 / variance + w);
            }
            Density d = i < 3 ? two.member(i) : two.another();
            assertEquals(mean, d.quantile(0.5), 1e-6, "thing " + i);
            assertEquals(Math.sqrt(variance) * Normal.Z90, d.quantile(0.9) - mean, 1e-6, "thing " + i);
        }
    }

    @Test
    void theSharedLevelHasTheClosedForm() {
        Density d = new TwoLevel(OWN, SHARED, List.of(reading(0.8, 0.1), reading(0.3, 0.4))).shared();
        double a = 1 / (OWN * OWN + 0.01);
        double b = 1 / (OWN * OWN + 0.16);
        double precision = a + b + 1 / (SHARED * SHARED);
        assertEquals((0.8 * a + 0.3 * b) / precision, d.quantile(0.5), 1e-6);
        assertEquals(Normal.Z90 / Math.sqrt(precision), d.quantile(0.9) - d.quantile(0.5), 1e-6);
    }

    @Test
    void nothingSeenGivesThePrior() {
        Density d = new TwoLevel(OWN, SHARED, List.of()).another();
        assertEquals(0, d.quantile(0.5), 1e-9);
        assertEquals(Normal.Z90 * Math.hypot(OWN, SHARED), d.quantile(0.9), 1e-6);
    }

    @Test
    void whereNothingIsSharedTheOthersTeachNothing() {
        TwoLevel two = new TwoLevel(0.6, 0, List.of(reading(2, 0.1)));
        assertEquals(0, two.another().quantile(0.5), 1e-9);
        double w = 1 / 0.01;
        assertEquals(2 * w / (w + 1 / 0.36), two.member(0).quantile(0.5), 1e-7);
    }

    @Test
    void theOrderOfThingsDoesNotMatter() {
        DoubleUnaryOperator a = reading(0.8, 0.1);
        DoubleUnaryOperator b = u -> Normal.logProbability(u / 0.3);
        Density one = new TwoLevel(OWN, SHARED, List.of(a, b)).member(0);
        Density two = new TwoLevel(OWN, SHARED, List.of(b, a)).member(1);
        assertEquals(one.quantile(0.1), two.quantile(0.1), 1e-12);
        assertEquals(one.quantile(0.9), two.quantile(0.9), 1e-12);
    }
}
