package chainage.demo;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;

/** What was put into the season, for tests of what the program makes of it. */
public final class Truth {
    /**
     * A chain with its product on the trainer.
     *
     * @param fresh share of the power that it takes, freshly treated
     * @param rise what it takes more at the end of a life
     * @param lifeKilometres so long
     */
    public record Dressed(double fresh, double rise, double lifeKilometres) {
        double lost(double kilometres) {
            return fresh + rise * kilometres / lifeKilometres;
        }

        /** Share of the power that it takes in the middle of a life. */
        public double middle() {
            return fresh + rise / 2;
        }
    }

    /** Russet, on Hearth Dip. */
    public static final Dressed RUSSET = new Dressed(0.017, 0.014, 350);
    /** Teal, on Fen Grease. */
    public static final Dressed TEAL = new Dressed(0.030, 0.014, 600);
    /** The evening on which the trainer took its zero anew on the way. */
    public static final String ZERO_TAKEN_ANEW = "2026-05-14";

    /** A ride on the far side of an ocean, and what clocks there show. */
    public static final Instant ABROAD = Instant.parse("2026-08-19T03:30:00Z");

    public static final ZoneOffset ABROAD_OFFSET = ZoneOffset.ofHours(-9);
    public static final double ABROAD_KILOMETRES = 12;

    /** A ride on Natterjack of which no file says so, only the table beside the rides. */
    public static final Instant UNNAMED = Instant.parse("2026-03-25T17:40:00Z");

    /** A ride whose watch was started so late, and how far it went in all. */
    public static final Instant STARTED_LATE = Instant.parse("2026-08-23T09:30:00Z");

    public static final Duration LATE = Duration.ofMinutes(35);
    public static final double LATE_KILOMETRES = 37;

    private Truth() {}
}
