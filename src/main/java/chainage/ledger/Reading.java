package chainage.ledger;

import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * An elongation reading: lengths or per cent by ruler, calliper or graduated gauge, or the two outcomes of a go/no-go
 * gauge. Kept as stated; what it says of the chain, and how surely, is worked out here and nowhere else.
 *
 * <p>Elongation is L / (n p) − 1, with L the length of n pitches under light tension and p the pitch. A tool that
 * pushes two rollers apart reads the play between roller and bush as well, which is no elongation: it adds c / (n p),
 * with c the play at both ends together.
 */
public sealed interface Reading {
    /** Half an inch: the pitch of every bicycle chain (ISO 606, ISO 9633), millimetres. */
    double PITCH_MILLIMETRES = 12.7;

    /** Standard error of what the reading says, per cent; above 0. */
    double errorPercent();

    /**
     * A measured elongation.
     *
     * @param stated what was read, one value for each place on the chain; at least one
     * @param unit of these values
     * @param tool what it was read with
     * @param pitches how many pitches were spanned; 1 or more
     * @param statedError standard error of one value, per cent; null for the tool's usual one
     * @param playMillimetres play of the rollers in each value, to be taken off; null for none
     */
    record Elongation(
            List<Double> stated,
            Unit unit,
            Tool tool,
            int pitches,
            @Nullable Double statedError,
            @Nullable Double playMillimetres)
            implements Reading {
        /** What is wrong with the tool or the tension is wrong at every place; so no number of them makes a reading
         * surer than this part of one value's error. Our choice. */
        private static final double COMMON = 0.5;

        public Elongation {
            stated = List.copyOf(stated);
            if (stated.isEmpty() || pitches < 1) {
                throw new IllegalArgumentException("reading of " + stated + " over " + pitches + " pitches");
            }
        }

        /** One value in per cent, by a tool as it usually reads. */
        public Elongation(double percent, Tool tool, int pitches) {
            this(List.of(percent), Unit.PERCENT, tool, pitches, null, null);
        }

        /** Elongation, per cent: the mean over the places, without the play. */
        public double percent() {
            return stated.stream().mapToDouble(this::percent).sum() / stated.size()
                    - playPercent(playMillimetres, pitches);
        }

        private double percent(double value) {
            return unit == Unit.PERCENT ? value : (value / (pitches * PITCH_MILLIMETRES) - 1) * 100;
        }

        /** At how many places it was read. */
        public int places() {
            return stated.size();
        }

        /** Standard deviation between the places, per cent; 0 for one place. */
        public double spreadPercent() {
            if (stated.size() < 2) {
                return 0;
            }
            double mean = stated.stream().mapToDouble(this::percent).sum() / stated.size();
            return Math.sqrt(stated.stream()
                            .mapToDouble(v -> Math.pow(percent(v) - mean, 2))
                            .sum()
                    / (stated.size() - 1));
        }

        /**
         * {@inheritDoc} Of one value: as stated, or by the tool. The mean over places is surer by the root of their
         * number, taking the spread between them where that is larger.
         */
        @Override
        public double errorPercent() {
            double one = statedError == null ? tool.errorPercent(pitches) : statedError;
            double mean = Math.max(one, spreadPercent()) / Math.sqrt(stated.size());
            return Math.hypot(Math.max(mean, COMMON * one), playError(playMillimetres, pitches));
        }
    }

    /**
     * A go/no-go gauge's answer: whether its edge drops into the chain.
     *
     * @param stated elongation at which the edge is made to drop, per cent
     * @param drops true when it does, so that the chain is at least that long
     * @param statedError standard error of the edge, per cent; null for the usual one
     * @param playMillimetres play of the rollers that the gauge reads as elongation; null for none
     * @param pitches how many pitches it spans; matters for the play alone
     */
    record Gauge(
            double stated,
            boolean drops,
            @Nullable Double statedError,
            @Nullable Double playMillimetres,
            int pitches) implements Reading {
        public Gauge {
            if (pitches < 1) {
                throw new IllegalArgumentException("gauge over " + pitches + " pitches");
            }
        }

        /** An edge that is as good as edges usually are. */
        public Gauge(double stated, boolean drops) {
            this(stated, drops, null, null, Tool.GAUGE.usualPitches());
        }

        /** Elongation at which the edge drops, per cent, without the play. */
        public double edgePercent() {
            return stated - playPercent(playMillimetres, pitches);
        }

        @Override
        public double errorPercent() {
            return Math.hypot(
                    statedError == null ? Tool.GAUGE.usualError : statedError, playError(playMillimetres, pitches));
        }
    }

    /** What a stated value is in. */
    enum Unit {
        PERCENT,
        MILLIMETRES
    }

    /** What a length is read with. Their errors are our guess: about 0.3 mm for a ruler, 0.05 mm for the others. */
    enum Tool {
        RULER(24, 0.10),
        CALLIPER(8, 0.05),
        GAUGE(8, 0.05);

        private final int usualPitches;
        private final double usualError;

        Tool(int usualPitches, double usualError) {
            this.usualPitches = usualPitches;
            this.usualError = usualError;
        }

        /** How many pitches it usually spans. */
        public int usualPitches() {
            return usualPitches;
        }

        /** Standard error of one value over so many pitches, per cent. A ruler's shrinks with the pitches spanned; the
         * others' grows below the usual number, and above it stays, our choice, since play and tension stay. */
        public double errorPercent(int pitches) {
            return usualError * usualPitches / (this == RULER ? pitches : Math.min(usualPitches, pitches));
        }

        public String word() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    private static double playPercent(@Nullable Double millimetres, int pitches) {
        return millimetres == null ? 0 : millimetres / (pitches * PITCH_MILLIMETRES) * 100;
    }

    /** The play is a judgement: it is known to half of itself. Our guess. */
    private static double playError(@Nullable Double millimetres, int pitches) {
        return playPercent(millimetres, pitches) / 2;
    }
}
