package chainage.answer.things;

import chainage.answer.Listing;
import chainage.condition.RoadWords;
import chainage.ledger.Event;
import chainage.render.Column;
import chainage.render.Columns;

/** Words for roads: the rider's own, and those found in a text. */
public final class WordList {
    public static final Listing<Event.RoadWordSet> OWN = new Listing<>(
            "words",
            "by word",
            Columns.of(
                    Column.<Event.RoadWordSet>name("word", "as it stands in titles", w -> w.word())
                            .head("YOUR WORD"),
                    Column.<Event.RoadWordSet>word("says", "its meaning; none when it is silenced", w -> says(w))
                            .head("SAYS")
                            .as((w, format) -> says(w).equals("none") ? "nothing" : says(w))),
            "no words of your own; add one: chainage words set WORD MEANING");

    public static final Listing<RoadWords.Finding> FOUND = new Listing<>(
            "findings",
            "as they stand in the text",
            Columns.of(
                    Column.<RoadWords.Finding>name("word", "in the text", f -> f.word())
                            .head("WORD"),
                    Column.<RoadWords.Finding>word(
                                    "says", "its meaning", f -> f.meaning().word())
                            .head("SAYS")),
            "says nothing of the road");

    private WordList() {}

    private static String says(Event.RoadWordSet w) {
        return String.valueOf(w.meaning());
    }
}
