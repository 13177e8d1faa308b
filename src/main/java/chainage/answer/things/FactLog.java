package chainage.answer.things;

import chainage.answer.EventWords;
import chainage.answer.Listing;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;

/** Every fact that was stated. */
public final class FactLog {
    /**
     * A fact.
     *
     * @param words it in a line
     * @param line of the logbook that states it, as {@code season.txt:12}; empty for none
     * @param inForce false once it is taken back
     */
    public record Row(Entry entry, String words, String line, boolean inForce) {}

    public static final Listing<Row> LIST = new Listing<>(
            "entries",
            "by number",
            Columns.of(
                    Column.<Row>count(
                                    "number",
                                    "by which it is taken back",
                                    r -> r.entry().number())
                            .head("NO"),
                    Column.<Row>time(
                                    "recorded",
                                    "when it was stated",
                                    r -> r.entry().recorded())
                            .head("WRITTEN"),
                    Column.<Row>prose("fact", "what was stated", Row::words)
                            .head("FACT")
                            .as((r, format) -> (r.line().isEmpty() ? "" : r.line() + ": ") + r.words()),
                    Column.<Row>word("line", "of a logbook that states it, with its number", Row::line),
                    Column.<Row>truth("in_force", "false once it is taken back", Row::inForce)
                            .head(" ")
                            .as((r, format) -> r.inForce() ? "" : "taken back")),
            "nothing stated yet; begin with: chainage bike add NAME");

    private FactLog() {}

    /**
     * The last of all entries.
     */
    public static Answer of(List<Entry> entries, int last, Formatter format) {
        Set<Long> inForce = Ledger.inForce(entries).stream().map(Entry::number).collect(Collectors.toSet());
        Map<Long, String> lines = lines(entries);
        return LIST.of(
                entries.subList(Math.max(0, entries.size() - last), entries.size()).stream()
                        .map(e -> new Row(
                                e,
                                EventWords.of(e.event(), format),
                                lines.getOrDefault(e.number(), ""),
                                inForce.contains(e.number())))
                        .toList(),
                format);
    }

    /** Which line stated which entry, by the entry's number. */
    private static Map<Long, String> lines(List<Entry> entries) {
        Map<Long, String> lines = new HashMap<>();
        for (Entry e : entries) {
            if (e.event() instanceof Event.LogbookRead read) {
                read.lines()
                        .forEach(l ->
                                l.facts().forEach(n -> lines.put(n, EventWords.name(read.file()) + ":" + l.number())));
            }
        }
        return lines;
    }
}
