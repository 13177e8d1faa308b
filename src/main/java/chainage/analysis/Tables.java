package chainage.analysis;

import chainage.condition.RoadWords;
import chainage.exposure.Factors;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What the program brings along for every analysis: the table of factors, the list of words for roads, and where figures are
 * kept that take long to make. For one thread.
 */
public final class Tables {
    private final Factors factors;
    private final String wordList;
    private final Gleaned.Kept gleaned;
    private @Nullable RoadWords words;

    /** The tables alone; nothing is kept. */
    public Tables(Factors factors, String wordList) {
        this(factors, wordList, Gleaned.Kept.NOWHERE);
    }

    /**
     * All of it.
     *
     * @param factors without the rider's own values
     * @param wordList lines as the head of {@code words.tsv} says
     * @param gleaned where what others have shown is kept
     */
    public Tables(Factors factors, String wordList, Gleaned.Kept gleaned) {
        this.factors = factors;
        this.wordList = wordList;
        this.gleaned = gleaned;
    }

    /** The factors without the rider's own values. */
    public Factors factors() {
        return factors;
    }

    /** Where what others have shown is kept. */
    Gleaned.Kept gleaned() {
        return gleaned;
    }

    /** The words for roads with the rider's own; without any the list is read once, since a change makes two analyses. */
    public RoadWords words(Ledger ledger) {
        List<RoadWords.OwnWord> own = new ArrayList<>();
        for (Event.RoadWordSet w : ledger.roadWords()) {
            // A meaning of a later version of the program says nothing to this one.
            RoadWords.Meaning.of(String.valueOf(w.meaning()))
                    .ifPresent(m -> own.add(new RoadWords.OwnWord(w.word(), m)));
        }
        if (!own.isEmpty()) {
            return RoadWords.of(wordList, own);
        }
        if (words == null) {
            words = RoadWords.of(wordList, List.of());
        }
        return words;
    }
}
