package chainage.answer.things;

import chainage.answer.Listing;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import java.util.ArrayList;
import java.util.List;

/** The weather records that were brought in. */
public final class WeatherList {
    /** More stations than this are counted. */
    private static final int NAMED = 3;

    /** The records of one file. */
    public record Row(long entry, Event.WeatherAdded records) {}

    public static final Listing<Row> LIST = new Listing<>(
            "weather",
            "by entry",
            Columns.of(
                    Column.<Row>count("entry", "by which they are taken back", Row::entry)
                            .head("NO"),
                    Column.<Row>name("source", "the file", r -> r.records().source())
                            .head("FILE"),
                    Column.<Row>list("stations", "their names", r -> r.records().stations())
                            .head("STATIONS")
                            .as((r, format) -> stations(r.records().stations())),
                    Column.<Row>word(
                                    "place",
                                    "latitude and longitude that were given; may be null",
                                    r -> r.records().place())
                            .head("PLACE"),
                    Column.<Row>count(
                                    "observations",
                                    "how many records",
                                    r -> r.records().observations())
                            .head("RECORDS"),
                    Column.<Row>time("from", "the first", r -> r.records().from())
                            .head("FROM")
                            .as((r, format) -> format.date(r.records().from())),
                    Column.<Row>time("to", "the last", r -> r.records().to())
                            .head("TO")
                            .as((r, format) -> format.date(r.records().to()))),
            "no weather records yet; bring some in: chainage weather add FILE --station LAT,LON");

    private WeatherList() {}

    public static Answer of(Ledger ledger, Formatter format) {
        List<Row> rows = new ArrayList<>();
        for (Entry e : ledger.inForce()) {
            if (e.event() instanceof Event.WeatherAdded w) {
                rows.add(new Row(e.number(), w));
            }
        }
        return LIST.of(rows, format);
    }

    private static String stations(List<String> names) {
        return names.isEmpty() ? "–" : names.size() > NAMED ? names.size() + " stations" : String.join(", ", names);
    }
}
