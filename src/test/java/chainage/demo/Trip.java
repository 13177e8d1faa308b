package chainage.demo;

import java.util.List;

/**
 * How an outing went, second by second.
 *
 * @param moments one a second from 0 on, stops included
 * @param shifts gear changes by time, the gear at the start first; empty where nobody records them
 * @param pauses stretches in which the recording was paused, by time
 * @param ascentMetres climbed
 */
record Trip(List<Moment> moments, List<Shift> shifts, List<Pause> pauses, double ascentMetres) {
    Trip {
        moments = List.copyOf(moments);
        shifts = List.copyOf(shifts);
        pauses = List.copyOf(pauses);
    }

    /**
     * One second.
     *
     * @param metres ridden so far
     * @param latitude degrees
     * @param longitude degrees
     * @param altitudeMetres above the invented sea
     * @param speed metres per second
     * @param watts at the crank
     * @param cadence crank revolutions per minute, 0 when coasting
     * @param celsius air
     */
    record Moment(
            double metres,
            double latitude,
            double longitude,
            double altitudeMetres,
            double speed,
            int watts,
            int cadence,
            int celsius) {}

    /** A gear from a second on; numbers count from 1, the smallest ring and the biggest cog being 1. */
    record Shift(int second, int ringNumber, int ring, int cogNumber, int cog, boolean front) {}

    /** Half-open, in seconds. */
    record Pause(int from, int to) {
        int seconds() {
            return to - from;
        }
    }

    int seconds() {
        return moments.size() - 1;
    }

    double metres() {
        return moments.get(moments.size() - 1).metres();
    }

    int timerSeconds() {
        return seconds() - pauses.stream().mapToInt(Pause::seconds).sum();
    }

    boolean paused(int second) {
        return pauses.stream().anyMatch(p -> p.from() <= second && second < p.to());
    }

    /** Mean power with zeros over the time not paused. */
    double meanWatts() {
        double sum = 0;
        int n = 0;
        for (int i = 0; i < moments.size(); i++) {
            if (!paused(i)) {
                sum += moments.get(i).watts();
                n++;
            }
        }
        return sum / n;
    }

    double meanCelsius() {
        return moments.stream().mapToInt(Moment::celsius).average().orElse(0);
    }

    /** Crank turns, coasting left out. */
    double turns() {
        return moments.stream().mapToInt(Moment::cadence).sum() / 60.0;
    }

    double fastest() {
        return moments.stream().mapToDouble(Moment::speed).max().orElse(0);
    }
}
