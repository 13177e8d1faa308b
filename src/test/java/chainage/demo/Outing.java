package chainage.demo;

import java.time.Instant;

/**
 * One line of the season's plan.
 *
 * @param start instant the recording starts
 * @param bike ridden
 * @param kilometres how far
 * @param form written as
 * @param packing how the file lies on disk
 * @param surface where
 * @param sky weather, a word of the FIT profile such as {@code light_rain}; {@code a>b} changes half-way; {@code none}
 *     writes no weather; {@code forecast} writes a dry present and a wet forecast
 * @param title the rider's words; may be empty
 */
record Outing(
        Instant start,
        DemoBike bike,
        double kilometres,
        Form form,
        Packing packing,
        Surface surface,
        String sky,
        String title) {
    enum Form {
        FIT,
        TCX,
        GPX
    }

    enum Packing {
        PLAIN,
        GZ,
        ZIP,
        ZIP_GZ
    }

    enum Surface {
        ROAD,
        GRAVEL,
        TRAINER,
        SIMULATED
    }

    /** Seed of everything random in this ride: its start, so that a new line in the plan changes no other ride. */
    long seed() {
        return start.getEpochSecond();
    }
}
