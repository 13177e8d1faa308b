package chainage.condition;

import chainage.ledger.Grit;
import chainage.ledger.Moisture;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.function.UnaryOperator;

/**
 * What a ride's own words say of the road: its title, notes, keywords, description, file name and folder, held word by
 * word against a list in several languages at once, since nobody states the language of a title.
 *
 * <p>Whole words only, in any case and any Unicode normal form. Negations ("no rain", "rain-free") turn a word round,
 * talk of what might come ("chance of rain", "rain?") makes it say nothing. How far a negation reaches is
 * {@link RoadPhrases}' business. Where several words speak, the strongest does: indoor, wet, damp, dry; and gritty,
 * dusty, loose, clean. What the rider wrote of this ride goes before the file's name, and that before the folder, which
 * speaks of many rides.
 *
 * <p>All meanings are our guess at common usage, without a source. Immutable, so safe on any thread.
 */
public final class RoadWords {
    /** What a word says of the road; in the order of strength, weakest first, for moisture and for grit apart. */
    public enum Meaning {
        /** Says nothing: a rain jacket, or a word that the rider silenced. */
        NONE,
        /** No dirt. */
        CLEAN,
        /** Off the tarmac: dusty when dry, gritty when wet. */
        LOOSE,
        /** Dry dirt. */
        DUSTY,
        /** Sand, chippings. */
        GRITTY,
        /** Salt against frost: gritty, and it rusts a chain. */
        SALTED,
        /** Wet and gritty in one. */
        MUDDY,
        /** No water. */
        DRY,
        /** Water on the road, but none that splashes. */
        DAMP,
        /** Rain, snow, or standing water. */
        WET,
        /** On a trainer; beats all, since rain is a reason to stay in. */
        INDOOR;

        /** Lower-case word, as in the list. */
        public String word() {
            return name().toLowerCase(Locale.ROOT);
        }

        /** The meaning of that word, in any case; empty when there is none. */
        public static Optional<Meaning> of(String word) {
            for (Meaning m : values()) {
                if (m.word().equals(word.strip().toLowerCase(Locale.ROOT))) {
                    return Optional.of(m);
                }
            }
            return Optional.empty();
        }

        /** What it says of the water; empty for a word about dirt alone. */
        public Optional<Moisture> moisture() {
            return switch (this) {
                case DRY -> Optional.of(Moisture.DRY);
                case DAMP -> Optional.of(Moisture.DAMP);
                case WET, MUDDY -> Optional.of(Moisture.WET);
                case INDOOR -> Optional.of(Moisture.INDOOR);
                case NONE, CLEAN, LOOSE, DUSTY, GRITTY, SALTED -> Optional.empty();
            };
        }

        /**
         * What it says of the dirt; empty for a word about water alone.
         *
         * @param wet whether the road was wet, by whatever evidence: loose ground is then mud, else dust
         */
        public Optional<Grit> grit(boolean wet) {
            return switch (this) {
                case CLEAN -> Optional.of(Grit.CLEAN);
                case LOOSE -> Optional.of(wet ? Grit.GRITTY : Grit.DUSTY);
                case DUSTY -> Optional.of(Grit.DUSTY);
                case GRITTY, SALTED, MUDDY -> Optional.of(Grit.GRITTY);
                case NONE, DRY, DAMP, WET, INDOOR -> Optional.empty();
            };
        }
    }

    /** Where a text stands, nearest to the ride first. */
    public enum Where {
        TITLE("title", 0),
        NOTES("notes", 0),
        TABLE_TITLE("title in a table", 0),
        TABLE_NOTES("notes in a table", 0),
        KEYWORDS("keywords", 0),
        DESCRIPTION("description", 0),
        /** Without its folders. */
        FILE_NAME("file name", 1),
        /** One folder or several with slashes. */
        FOLDER("folder", 2);

        private final String words;
        private final int distance;

        Where(String words, int distance) {
            this.words = words;
            this.distance = distance;
        }

        /** For example "file name". */
        public String words() {
            return words;
        }

        /** Whether words are joined there as names are, by underscores, digits or capitals. */
        boolean isName() {
            return distance > 0;
        }
    }

    /**
     * A text to look into.
     *
     * @param text may be empty, and hostile
     */
    public record Source(Where where, String text) {}

    /**
     * A word of the rider's own, or one of the list that shall mean something else.
     *
     * @param text a word or a few, as they stand in a title
     * @param meaning {@link Meaning#NONE} silences it
     */
    public record OwnWord(String text, Meaning meaning) {
        public OwnWord {
            if (RoadText.of(text, false).size() == 0) {
                throw new IllegalArgumentException("no word in \"" + text + "\"");
            }
        }
    }

    /**
     * A word that spoke.
     *
     * @param meaning after negation: {@link Meaning#DRY} for "no rain"
     * @param word as written, the negation with it; holds letters, digits and symbols only, so it is safe to print
     */
    public record Finding(Meaning meaning, String word, Where where) {}

    private final RoadPhrases phrases;

    private RoadWords(RoadPhrases phrases) {
        this.phrases = phrases;
    }

    /**
     * Reads the list.
     *
     * @param table lines as the head of {@code words.tsv} says
     * @param own the rider's additions; a later one overrules an earlier one and the list
     * @throws IllegalArgumentException when a line is not of that form or a word stands twice with two meanings
     */
    public static RoadWords of(String table, List<OwnWord> own) {
        return new RoadWords(new RoadPhrases(RoadWordList.parse(table, own)));
    }

    /** What findings say of the water, with meaning indoor, dry, damp, wet or muddy; empty when nothing. */
    public static Optional<Finding> moisture(List<Finding> findings) {
        return strongest(findings, m -> m.moisture().isPresent(), m -> m == Meaning.MUDDY ? Meaning.WET : m);
    }

    /** What findings say of the dirt, with meaning clean, loose, dusty, gritty, salted or muddy; empty when nothing. */
    public static Optional<Finding> grit(List<Finding> findings) {
        return strongest(findings, m -> m.grit(false).isPresent(), m -> m == Meaning.MUDDY ? Meaning.GRITTY : m);
    }

    /** Every word that speaks, in the order of the texts; may be empty. */
    public List<Finding> findings(List<Source> sources) {
        List<Finding> all = new ArrayList<>();
        for (Source s : sources) {
            all.addAll(phrases.findings(s));
        }
        return all;
    }

    /** Nearest to the ride, then strongest, then first. */
    private static Optional<Finding> strongest(
            List<Finding> findings, Predicate<Meaning> speaks, UnaryOperator<Meaning> strength) {
        Finding best = null;
        for (Finding f : findings) {
            if (speaks.test(f.meaning()) && (best == null || beats(f, best, strength))) {
                best = f;
            }
        }
        return Optional.ofNullable(best);
    }

    private static boolean beats(Finding f, Finding best, UnaryOperator<Meaning> strength) {
        return f.where().distance != best.where().distance
                ? f.where().distance < best.where().distance
                : strength.apply(f.meaning()).compareTo(strength.apply(best.meaning())) > 0;
    }
}
