package chainage.ride;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.ride.PowerTrace.Minute;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class PowerFoldTest {
    private static final long START = 1_780_000_020_000L; // a whole minute

    private static Sample at(double seconds, double watts, double cadence) {
        return new Sample(
                START + Math.round(seconds * 1000),
                Double.NaN,
                Double.NaN,
                Double.NaN,
                8,
                watts,
                cadence,
                Double.NaN,
                Double.NaN,
                true);
    }

    private static PowerTrace fold(List<Sample> samples) {
        RideFold fold = new RideFold();
        samples.forEach(fold::add);
        return fold.power();
    }

    private static List<Sample> every(double step, double from, double to, double watts, double cadence) {
        List<Sample> samples = new ArrayList<>();
        for (double t = from; t <= to; t += step) {
            samples.add(at(t, watts, cadence));
        }
        return samples;
    }

    @Test
    void aMinuteIsTheMeanOfItsSeconds() {
        List<Sample> samples = every(1, 0, 30, 100, 80);
        samples.addAll(every(1, 31, 60, 300, 90));
        samples.addAll(every(1, 61, 180, 250, 85));
        assertEquals(
                new PowerTrace(
                        START / 60_000,
                        List.of(new Minute(60, 60, 200, 85), new Minute(60, 60, 250, 85), new Minute(60, 60, 250, 85))),
                fold(samples));
    }

    @Test
    void aReadingOverAMinutesEndCountsForBoth() {
        PowerTrace trace = fold(every(4, 2, 122, 120, 80));
        assertEquals(
                List.of(58, 60, 2),
                trace.minutes().stream().map(Minute::seconds).toList());
    }

    @Test
    void rollingAndPausesAndLongStepsAreLeftOut() {
        List<Sample> samples = every(1, 0, 40, 200, 80);
        samples.addAll(every(1, 41, 60, 0, 0)); // rolls for twenty seconds
        samples.add(at(200, 400, 80)); // nothing is known of the time before
        samples.addAll(every(1, 201, 240, 200, 80));
        assertEquals(
                List.of(new Minute(60, 40, 133, 0), Minute.EMPTY, Minute.EMPTY, new Minute(40, 40, 200, 0)),
                fold(samples).minutes());
    }

    @Test
    void aMeterThatNeverShowsAWattLeavesNoTrace() {
        assertTrue(fold(every(1, 0, 600, 0, 80)).isEmpty());
        assertTrue(fold(every(1, 0, 600, Double.NaN, 80)).isEmpty());
    }

    @Test
    void aClockThatIsSetDuringTheRideBeginsAnew() {
        List<Sample> samples = every(1, -40_000_000, -40_000_000 + 300, 200, 80);
        samples.addAll(every(1, 0, 120, 210, 80));
        PowerTrace trace = fold(samples);
        assertEquals(START / 60_000, trace.first());
        assertEquals(2, trace.minutes().size());
    }
}
