package chainage.meter;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.meter.PairWorld.Broken;
import chainage.ride.PowerTrace;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;

class LayingTest {
    private static final int RIDES = 200;

    private static Laid lay(PairWorld.Recorded r) {
        return Laying.of(r.before(), r.behind());
    }

    private static double quantile(List<Double> values, double q) {
        Collections.sort(values);
        return values.get((int) Math.round(q * (values.size() - 1)));
    }

    /** An hour each, clocks up to 90 s apart. */
    @Test
    void soundRidesAreLaidWithinSecondsAndTheirRatioIsTheTrueOne() {
        List<Double> lags = new ArrayList<>();
        List<Double> ratios = new ArrayList<>();
        int refused = 0;
        for (int i = 0; i < RIDES; i++) {
            PairWorld.Recorded r = new PairWorld(i, 0.006).ride(60, 0.025, false);
            if (lay(r) instanceof Laid.Over o) {
                // A flywheel and nine seconds of smoothing make the trainer late by some seconds more.
                lags.add(Math.abs(o.lagSeconds() - r.lagSeconds() - 13));
                ratios.add(Math.abs(o.logRatio() - r.logRatio()));
            } else {
                refused++;
            }
        }
        assertTrue(refused <= RIDES / 20, refused + " refused");
        assertTrue(quantile(lags, 0.9) <= 10, quantile(lags, 0.5) + " s, " + quantile(lags, 0.9) + " s");
        assertTrue(quantile(ratios, 0.9) <= 0.0035, quantile(ratios, 0.5) + ", " + quantile(ratios, 0.9));
    }

    /** Those whose gain is off all day can only be told by other rides. */
    @Test
    void anotherRidesFileAndAZeroTakenAnewAreRefused() {
        int told = 0;
        int asked = 0;
        for (int i = 0; i < 4 * RIDES; i++) {
            PairWorld.Recorded r = new PairWorld(i, 0.006).ride(60, 0.025, true);
            if (r.broken() == Broken.OTHER || r.broken() == Broken.ZERO) {
                asked++;
                told += lay(r) instanceof Laid.Apart ? 1 : 0;
            }
        }
        assertTrue(asked > 20 && told >= 0.9 * asked, told + " of " + asked);
    }

    @Test
    void tracesOfOtherTimesShortOnesAndNoneAreRefusedWithTheReason() {
        PairWorld.Recorded r = new PairWorld(1, 0.006).ride(60, 0.025, false);
        PowerTrace later = new PowerTrace(r.behind().first() + 5000, r.behind().minutes());
        assertEquals(new Laid.Apart(Laid.Why.NOTHING_IN_COMMON, 0), Laying.of(r.before(), later));
        assertEquals(new Laid.Apart(Laid.Why.NO_TRACE, 0), Laying.of(r.before(), PowerTrace.NONE));
        PairWorld.Recorded brief = new PairWorld(1, 0.006).ride(31, 0.025, false);
        Laid.Apart apart = assertInstanceOf(Laid.Apart.class, lay(brief));
        assertEquals(Laid.Why.TOO_SHORT, apart.why());
    }
}
