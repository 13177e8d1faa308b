package chainage.wear;

import chainage.ledger.Reading;
import java.util.List;

/**
 * The log likelihood of a chain's readings, made ready to be asked for often: all lengths together are one parabola in
 * the start and the pace, and only gauges are asked one by one.
 */
final class Weighed {
    private double constant = 0;
    private double starts = 0;
    private double paces = 0;
    private double both = 0;
    private double byStart = 0;
    private double byPace = 0;
    private final List<Seen> gauges;

    Weighed(List<Seen> seen) {
        gauges = seen.stream()
                .filter(s -> !(s.reading() instanceof Reading.Elongation))
                .toList();
        for (Seen s : seen) {
            if (s.reading() instanceof Reading.Elongation e) {
                double w = 1 / (e.errorPercent() * e.errorPercent());
                double x = s.expectedPercent();
                constant += Likelihood.logMost(e) - w * e.percent() * e.percent() / 2;
                starts += w;
                paces += w * x * x;
                both += w * x;
                byStart += w * e.percent();
                byPace += w * x * e.percent();
            }
        }
    }

    /** At a start, per cent, and a log pace. */
    double log(double start, double logPace) {
        double pace = Math.exp(logPace);
        double log = constant
                + start * (byStart - start * starts / 2)
                + pace * (byPace - pace * paces / 2)
                - start * pace * both;
        for (Seen s : gauges) {
            log += Likelihood.log(s.reading(), start + pace * s.expectedPercent());
        }
        return log;
    }
}
