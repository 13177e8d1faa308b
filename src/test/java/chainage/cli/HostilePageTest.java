package chainage.cli;

import static chainage.TestRides.ride;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import chainage.TestLedger;
import chainage.TestRides;
import chainage.analysis.Snapshot;
import chainage.answer.page.ChainsPage;
import chainage.command.Asked;
import chainage.command.CommandContext;
import chainage.host.Resource;
import chainage.host.Terminal;
import chainage.ledger.Event;
import chainage.ledger.Reading;
import chainage.ledger.Remark;
import chainage.ledger.Rule;
import chainage.page.PageText;
import chainage.quantity.PlainText;
import chainage.ride.FiledRide;
import chainage.served.PageSite;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.jsoup.Jsoup;
import org.jsoup.nodes.Document;
import org.jsoup.nodes.Element;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** Formatter from files and riders that would be markup, script or worse, and ledgers of unusual size. */
class HostilePageTest {
    private static final Instant AT = Instant.parse("2026-06-01T12:00:00Z");

    private static final List<String> WORDS = List.of(
            "<script>alert(1)</script>",
            "</title></style></script><img src=x onerror=alert(1)>",
            "\" onmouseover=\"alert(1)\" x=\"",
            "' autofocus onfocus='alert(1)",
            "--><svg onload=alert(1)>",
            "]]><h1>mine</h1>",
            "&lt;b&gt; &amp; &#60;",
            "${7*7} @if(true) $unsafe{x}",
            "javascript:alert(1)",
            "\u202Eevil\u202C \u2066x\u2069 \u200B",
            "bell\u0007 null\u0000 escape\u001B[31m tab\t line\n",
            "\uD800 lone",
            "مسار 山 🚲");

    private static String html(List<Event> facts, List<FiledRide> rides) {
        Terminal terminal = Run.terminal(AT, new StringWriter(), new StringWriter());
        CommandContext context =
                new CommandContext(terminal, Path.of("ledger.sqlite"), Asked.NOTHING, false, false, Main.RUNNER);
        Snapshot snapshot = new Snapshot(
                new TestLedger().add(facts.toArray(Event[]::new)).entries(),
                rides.stream().sorted(FiledRide.BY_START).toList(),
                Map.of());
        return PageText.of(
                ChainsPage.of(
                        PageSite.sources(context, context.analysis(snapshot), List.of(), List.of()), context.format()),
                Resource.text("/chainage/page/page.css"),
                Resource.text("/chainage/page/page.js"));
    }

    /** One of everything under these words. */
    private static List<Event> facts(String bike, String chain, String product, String remark) {
        Instant start = Instant.parse("2026-04-01T00:00:00Z");
        return List.of(
                new Event.BikeDescribed(bike, List.of(), List.of(), null),
                new Event.RuleSet(new Rule(new Rule.Otherwise(), bike, null)),
                new Event.ChainDescribed(chain, 112, 11, null, null),
                new Event.ProductDescribed(product, chainage.ledger.Method.DRIP_WAX, null, null),
                new Event.Installed(chain, bike, start),
                new Event.Treated(chain, product, start, chainage.ledger.Cleaning.DEEP, null, null),
                new Event.Measured(
                        chain,
                        Instant.parse("2026-05-02T00:00:00Z"),
                        new Reading.Elongation(0.1, Reading.Tool.RULER, 24)),
                new Event.Remarked(chain, Instant.parse("2026-05-03T00:00:00Z"), Remark.NOISY, remark));
    }

    private static TestRides outing(int i, Instant start) {
        return ride("r" + i, start.toString(), 20 + i % 50);
    }

    private static String shape(Document page) {
        StringBuilder b = new StringBuilder();
        for (Element e : page.getAllElements()) {
            b.append(e.tagName());
            e.attributes().forEach(a -> b.append(' ').append(a.getKey()));
            b.append('\n');
        }
        return b.toString();
    }

    @TestFactory
    Stream<DynamicTest> wordsStayWords() {
        List<FiledRide> plain = List.of(
                outing(1, Instant.parse("2026-05-01T08:00:00Z")).titled("plain").filed());
        String expected = shape(Jsoup.parse(html(facts("Dunlin", "Amber", "Lantern Drip", "plain"), plain)));
        return WORDS.stream()
                .map(w -> dynamicTest(PlainText.marked(w), () -> {
                    List<FiledRide> rides = List.of(outing(1, Instant.parse("2026-05-01T08:00:00Z"))
                            .titled(w)
                            .filed());
                    String html = html(facts(w + " b", w + " c", w + " p", w), rides);
                    Document page = Jsoup.parse(html);
                    // The same elements with the same attributes, whatever the words are.
                    assertEquals(expected, shape(page));
                    assertTrue(
                            page.select("td bdi")
                                    .eachText()
                                    .contains(marked(w.strip()).replaceAll("\\s+", " ")),
                            w);
                    assertEquals(
                            normal(marked(w + " c") + ", on " + marked(w + " b")),
                            page.select("h1").text());
                    html.codePoints()
                            .filter(c -> c != '\n')
                            .forEach(c -> assertFalse(
                                    Character.getType(c) == Character.CONTROL
                                            || Character.getType(c) == Character.FORMAT,
                                    () -> "U+" + Integer.toHexString(c)));
                }));
    }

    /** A line break is a space to a browser, wherever it stands. */
    private static String marked(String words) {
        return PlainText.marked(words.replace('\n', ' '));
    }

    private static String normal(String text) {
        return text.replaceAll("\\s+", " ").strip();
    }

    @Test
    void whereARideWentIsNotInThePage() {
        Instant start = Instant.parse("2026-05-01T08:00:00Z");
        List<Event> facts = facts("Dunlin", "Amber", "Lantern Drip", "");
        String here = html(facts, List.of(outing(1, start).at(41.27, -33.91).filed()));
        String there = html(facts, List.of(outing(1, start).at(-12.55, -28.04).filed()));
        assertEquals(here, there);
        assertNotEquals(here, html(facts, List.of(outing(1, start).over(21_345).filed())));
    }

    @Test
    void tenThousandRidesOnFortyChainsMakeAPageBelowThreeMegabytes() {
        int chains = 40;
        int count = 10_000;
        long apart = 26_000;
        Instant first = AT.minusSeconds(apart * (count + 1));
        List<FiledRide> rides = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            rides.add(outing(i, first.plusSeconds(apart * i))
                    .lasting(7200)
                    .titled("Evening loop by the reservoir, number " + i)
                    .filed());
        }
        List<Event> facts = new ArrayList<>(List.of(
                new Event.BikeDescribed("Dunlin", List.of(), List.of(), null),
                new Event.RuleSet(new Rule(new Rule.Otherwise(), "Dunlin", null)),
                new Event.ProductDescribed("Lantern Drip", chainage.ledger.Method.DRIP_WAX, null, null)));
        for (int i = 0; i < count; i += 25) {
            String chain = "Chain " + i * chains / count;
            Instant at = first.plusSeconds(apart * i);
            if (i * chains % count == 0) {
                if (i > 0) {
                    facts.add(new Event.Removed("Chain " + (i * chains / count - 1), at));
                }
                facts.add(new Event.ChainDescribed(chain, 112, 11, null, null));
                facts.add(new Event.Installed(chain, "Dunlin", at));
            }
            facts.add(new Event.Treated(chain, "Lantern Drip", at, chainage.ledger.Cleaning.QUICK, 6.0, 20.0));
        }
        String html = html(facts, rides);
        int bytes = html.getBytes(StandardCharsets.UTF_8).length;
        assertTrue(bytes < 3_000_000, bytes + " bytes");
        assertEquals(
                count,
                Jsoup.parse(html)
                        .select("[id^=chain-] details table.sortable tbody tr")
                        .size());
    }

    /** A browser bears a table of so many rows; the others are a command away. */
    @Test
    void ofManyRidesOfAChainTheLatestAreShown() {
        Instant first = AT.minusSeconds(86_400 * 1003L);
        List<FiledRide> rides = new ArrayList<>();
        for (int i = 0; i < 1002; i++) {
            rides.add(outing(i, first.plusSeconds(86_400L * i)).filed());
        }
        List<Event> facts = List.of(
                new Event.BikeDescribed("Dunlin", List.of(), List.of(), null),
                new Event.RuleSet(new Rule(new Rule.Otherwise(), "Dunlin", null)),
                new Event.ChainDescribed("Amber", 112, 11, null, null),
                new Event.Installed("Amber", "Dunlin", first));
        Document page = Jsoup.parse(html(facts, rides));
        List<Element> rows = page.select("[id^=chain-] details table.sortable tbody tr");
        assertEquals(1000, rows.size());
        assertTrue(
                rows.get(999).text().contains(rides.get(1001).id()),
                rows.get(999).text());
        assertTrue(page.text().contains("all of them: chainage rides --chain Amber"));
    }

    @Test
    void anEmptyLedgerSaysWhatToType() {
        Document page = Jsoup.parse(html(List.of(), List.of()));
        assertEquals("Nothing to show yet", page.select("h1").text());
        assertTrue(page.select("#answer").text().contains("chainage import FOLDER"));
    }

    @Test
    void ridesWithoutAChainAndReadingsThatContradictAreShown() {
        List<Event> facts = new ArrayList<>(facts("Dunlin", "Amber", "Lantern Drip", ""));
        facts.add(new Event.Measured(
                "Amber",
                Instant.parse("2026-05-20T00:00:00Z"),
                new Reading.Elongation(-0.3, Reading.Tool.CALLIPER, 24)));
        List<FiledRide> rides = List.of(
                outing(1, Instant.parse("2026-03-01T08:00:00Z"))
                        .titled("before")
                        .filed(),
                outing(2, Instant.parse("2026-05-01T08:00:00Z")).filed());
        Document page = Jsoup.parse(html(facts, rides));
        assertTrue(page.select("#problems-rides").text().contains("before"));
        assertEquals("21000.0", page.select("#problems-rides data").attr("value"));
        assertTrue(page.select("#problems-facts").text().contains("does not fit: all else says"));
    }
}
