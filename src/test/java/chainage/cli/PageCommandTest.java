package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.demo.Truth;
import chainage.host.Terminal;
import chainage.quantity.PlainText;
import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Base64;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jsoup.Jsoup;
import org.jsoup.nodes.Document;
import org.jsoup.nodes.Element;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

/** The page of the demo season as an independent parser reads it. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class PageCommandTest {
    @TempDir
    static Path shared = Path.of("");

    private String html = "";
    private Document page = new Document("");

    @BeforeAll
    void writeThePage() {
        Run.of("demo", "--folder", shared.resolve("demo").toString());
        html = run("page", "-o", "-").out();
        page = Jsoup.parse(html);
    }

    private Run run(String... command) {
        return in("UTC", command);
    }

    private Run in(String zone, String... command) {
        List<String> args = new ArrayList<>(List.of(
                "--ledger",
                shared.resolve("demo/ledger.sqlite").toString(),
                "--at",
                "2026-08-31T20:00Z",
                "--zone",
                zone));
        args.addAll(List.of(command));
        return Run.of(args.toArray(String[]::new));
    }

    /** The figures of a section as machines read them. */
    private static Set<String> values(Element section) {
        Set<String> values = new HashSet<>();
        section.select("data").forEach(d -> values.add(number(Double.parseDouble(d.attr("value")))));
        section.select("time").forEach(t -> values.add(t.attr("datetime")));
        return values;
    }

    private static String number(double value) {
        return Double.toString(value + 0.0);
    }

    private Element section(String heading) {
        return page.select("section:has(> div > h3)").stream()
                .filter(s -> heading.equals(s.select("h3").text()))
                .findFirst()
                .orElseThrow();
    }

    /** Every number, date and name of a JSON value. */
    private static void leaves(Object json, List<Object> found) {
        if (json instanceof Map<?, ?> m) {
            m.forEach((k, v) -> {
                // The reasons are sentences; they stand in the page as they are, see below.
                if (v != null && !"why".equals(k)) {
                    leaves(v, found);
                }
            });
        } else if (json instanceof Number n) {
            found.add(n);
        } else if (json instanceof String s && s.matches("\\d{4}-\\d\\d-\\d\\d")) {
            found.add(s);
        }
    }

    @Test
    void everyNumberOfDueStandsInTheChainsOwnSection() throws IOException {
        Map<String, Object> due = JSON.std.mapFrom(run("due", "--json").out());
        List<?> chains = (List<?>) Objects.requireNonNull(due.get("chains"));
        assertEquals(6, chains.size());
        int checked = 0;
        for (Object o : chains) {
            Map<?, ?> chain = (Map<?, ?>) o;
            Element section = section(String.valueOf(chain.get("chain")));
            Set<String> values = values(section);
            List<Object> leaves = new ArrayList<>();
            leaves(chain, leaves);
            for (Object leaf : leaves) {
                String wanted = leaf instanceof Number n ? number(n.doubleValue()) : String.valueOf(leaf);
                assertTrue(values.contains(wanted), chain.get("chain") + ": " + wanted + " in " + values);
                checked++;
            }
            for (Object why : (List<?>) Objects.requireNonNull(chain.get("why"))) {
                String said = PlainText.marked(String.valueOf(why).strip()).replaceAll("\\s+", " ");
                assertTrue(section.select("details").text().contains(said), said);
            }
        }
        assertTrue(checked > 60, checked + " figures");
        // A figure other than nothing is looked for in HostilePageTest.
        assertEquals(0.0, due.get("unattributed_metres"));
        assertTrue(page.select("#problems-rides").text().contains("0 km"), "nothing unattributed");
    }

    /** A dot a ride that counts, a band a product, the ride left out with its reason, and what cannot be known. */
    @Test
    void whatTwoPowerMetersMeasuredIsPlottedAndSaid() throws IOException {
        Map<String, Object> loss =
                JSON.std.mapFrom(run("loss", "--pairs", "--json").out());
        List<?> pairs = (List<?>) Objects.requireNonNull(loss.get("pairs"));
        long counted = pairs.stream()
                .filter(p -> ((Map<?, ?>) p).get("missing_pct") != null)
                .count();
        Element section = section("Measured by two power meters");
        assertEquals(2, section.select("svg.wide path.band").size());
        assertEquals(counted, section.select("svg.wide path.read").size());
        assertEquals(pairs.size() - 1, counted);
        for (Object said : (List<?>) Objects.requireNonNull(loss.get("words"))) {
            assertTrue(section.text().contains(String.valueOf(said)), said + " in " + section.text());
        }
        assertTrue(section.text().contains(Truth.ZERO_TAKEN_ANEW + " left out: their ratio jumped by"), section.text());
    }

    @Test
    void everyRideStandsInATable() throws IOException {
        List<?> rides = (List<?>) JSON.std.mapFrom(run("rides", "--json").out()).get("rides");
        String text = page.select("details td").eachText().toString();
        for (Object o : Objects.requireNonNull(rides)) {
            Map<?, ?> ride = (Map<?, ?>) o;
            // No chain of the demo is out of use, so each of its rides has a table.
            assertEquals(ride.get("twin_of") == null, text.contains(String.valueOf(ride.get("id"))), ride.toString());
        }
    }

    @Test
    void headingsTablesAndPlotsAreMarkedUpForEveryReader() {
        assertEquals("en", page.select("html").attr("lang"));
        assertEquals(1, page.select("h1").size());
        int level = 1;
        for (Element h : page.select("h1, h2, h3, h4")) {
            int next = h.tagName().charAt(1) - '0';
            assertTrue(next <= level + 1, h.text());
            level = next;
        }
        assertFalse(page.select("table").isEmpty());
        for (Element table : page.select("table")) {
            assertFalse(table.select("> caption").text().isBlank(), table.outerHtml());
            assertEquals(
                    table.select("thead th").size(),
                    table.select("thead th[scope=col]").size());
            for (Element row : table.select("tbody tr")) {
                assertEquals(1, row.select("> th[scope=row]").size());
                assertEquals(table.select("thead th").size(), row.children().size());
            }
        }
        assertFalse(page.select("svg.plot").isEmpty());
        for (Element svg : page.select("svg.plot")) {
            assertEquals("img", svg.attr("role"));
            assertTrue(svg.attr("aria-label").length() > 40, svg.attr("aria-label"));
            assertFalse(svg.select("path").isEmpty());
        }
        page.select("figure")
                .forEach(f -> assertEquals(
                        List.of(1, 1, 1),
                        List.of(
                                f.select("svg.wide").size(),
                                f.select("svg.narrow").size(),
                                f.select("figcaption").size())));
    }

    @Test
    void linksLeadSomewhereAndNoTwoPlacesShareAName() {
        List<String> ids = page.select("[id]").eachAttr("id");
        assertEquals(new HashSet<>(ids).size(), ids.size());
        List<String> targets = page.select("a").eachAttr("href");
        assertTrue(targets.size() > 4);
        targets.forEach(t -> assertTrue(t.startsWith("#") && ids.contains(t.substring(1)), t));
        page.select("[aria-labelledby]").forEach(e -> assertTrue(ids.contains(e.attr("aria-labelledby")), e.tagName()));
    }

    @Test
    void thePageLoadsNothingAndRunsOnlyItsOwnScript() throws NoSuchAlgorithmException {
        assertTrue(page.select("link, img, iframe, object, embed, form, base, [src], [style], [srcset]")
                .isEmpty());
        assertFalse(html.contains("http:") || html.contains("https:"), "an address");
        page.getAllElements()
                .forEach(e -> e.attributes()
                        .forEach(a -> assertFalse(
                                a.getKey().toLowerCase(java.util.Locale.ROOT).startsWith("on"), a.html())));
        String policy = page.select("meta[http-equiv=Content-Security-Policy]").attr("content");
        assertTrue(policy.startsWith("default-src 'none';"), policy);
        for (String of : List.of("script", "style")) {
            assertEquals(1, page.select(of).size());
            byte[] digest = MessageDigest.getInstance("SHA-256")
                    .digest(page.select(of).get(0).data().getBytes(StandardCharsets.UTF_8));
            assertTrue(
                    policy.contains(of + "-src 'sha256-" + Base64.getEncoder().encodeToString(digest) + "';"), policy);
        }
    }

    /** What chainage cost says, product by product, in the same order and to the cent; none for each watt of 0.0 W. */
    @Test
    void wattYearsAreThoseOfCost() throws IOException {
        List<List<String>> cost = new ArrayList<>();
        for (Object product : (List<?>) Objects.requireNonNull(
                JSON.std.mapFrom(run("cost", "--json").out()).get("products"))) {
            Map<?, ?> p = (Map<?, ?>) product;
            cost.add(List.of(
                    String.valueOf(p.get("product")),
                    ((Number) Objects.requireNonNull(p.get("saved_watts"))).doubleValue() < 0.05
                            ? "–"
                            : amount(p.get("watt_year")),
                    band(amount(p.get("watt_year_low")), amount(p.get("watt_year_high")))));
        }
        List<List<String>> shown = new ArrayList<>();
        for (Element row : page.select("#products-cost table").get(0).select("tbody tr")) {
            List<String> cells = row.children().stream().map(Element::text).toList();
            shown.add(List.of(cells.get(0), cells.get(5), cells.get(6)));
        }
        assertEquals(5, cost.size());
        assertEquals(List.of("Fen Grease", "–"), cost.get(4).subList(0, 2));
        assertEquals(cost, shown);
    }

    private static String band(String low, String high) {
        return low.equals("–") ? "–" : high.equals("–") ? "from " + low : low + "–" + high;
    }

    private static String amount(@Nullable Object money) {
        return money == null ? "–" : String.valueOf(money).replace(" EUR", "");
    }

    @Test
    void whatIsToBeLookedOverIsWhatCheckNotes() throws IOException {
        List<?> noted = (List<?>) Objects.requireNonNull(
                JSON.std.mapFrom(run("check", "--json").out()).get("notes"));
        assertEquals(2, noted.size());
        assertEquals(noted, page.select("#problems-facts details li").eachText());
    }

    @Test
    void theAnswerIsTheSameAsDues() {
        assertEquals("Moss, on Natterjack", page.select("h1").text());
        String lead = page.select("#answer .advice").text();
        assertTrue(run("due").out().replaceAll("\\s+", " ").contains(lead.replace("Nearest its limit. ", "")), lead);
        // A chain to be treated now comes with a caution.
        assertFalse(page.select("#answer .care").text().isBlank());
    }

    @Test
    void theSameFactsGiveTheSameBytes() {
        assertEquals(html, run("page", "-o", "-").out());
    }

    @Test
    void milesAndAnotherZone() {
        Document imperial =
                Jsoup.parse(run("--units", "imperial", "page", "-o", "-").out());
        // The reasons quote rates of the table, which are metric.
        Document figures = imperial.clone();
        figures.select(".lines").remove();
        assertFalse(figures.select("main").text().matches("(?s).*\\d km\\b.*"));
        // What machines read stays in metres.
        assertEquals(
                page.select("data").eachAttr("value"), imperial.select("data").eachAttr("value"));
        String start = "2026-08-30 ";
        assertTrue(html.contains(start), "a ride of the last weekend");
        Document far = Jsoup.parse(in("Pacific/Kiritimati", "page", "-o", "-").out());
        assertTrue(far.select(".kicker").text().endsWith("2026-09-01 10:00 Pacific/Kiritimati"));
    }

    /** A run on a machine with a screen, where the opener is a script of ours. */
    private static Run opened(Path folder, String script) throws IOException {
        Path opener = Files.createDirectories(folder).resolve("xdg-open");
        Files.writeString(opener, "#!/bin/sh\n" + script + "\n");
        Files.setPosixFilePermissions(opener, PosixFilePermissions.fromString("rwx------"));
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        Terminal terminal = new Terminal(
                new PrintWriter(out),
                new PrintWriter(err),
                false,
                80,
                Map.of("DISPLAY", ":0", "PATH", "/nowhere:" + folder),
                Clock.fixed(Instant.parse("2026-11-01T12:00:00Z"), ZoneOffset.UTC));
        int code = Main.run(
                terminal, "--ledger", shared.resolve("demo/ledger.sqlite").toString(), "--json", "page", "--open");
        return new Run(code, out.toString(), err.toString());
    }

    @Test
    @EnabledOnOs(OS.LINUX)
    void thePlatformsOpenerIsHandedTheFile() throws IOException {
        Path folder = shared.resolve("opener");
        Path told = folder.resolve("told");
        Run run = opened(folder, "printf %s \"$1\" > \"" + told + "\"");
        assertEquals("", run.err());
        Path page = shared.resolve("demo/chains.html");
        assertEquals(page.toString(), Files.readString(told));
        Map<String, Object> said = JSON.std.mapFrom(run.out());
        assertEquals(true, said.get("opened"));
        assertEquals(Files.size(page), ((Number) Objects.requireNonNull(said.get("bytes"))).longValue());
        Run failed = opened(folder, "exit 3");
        assertEquals(0, failed.code());
        assertTrue(failed.err().contains("could not show the page; open it in a browser yourself"), failed.err());
        assertEquals(false, JSON.std.mapFrom(failed.out()).get("opened"));
    }

    @Test
    void theFileIsPrivateAndReplacesOnlyAPage() throws IOException {
        Path file = shared.resolve("chains.html");
        assertEquals(0, run("page", "-o", file.toString()).code());
        assertEquals(html, Files.readString(file));
        assertEquals("rw-------", PosixFilePermissions.toString(Files.getPosixFilePermissions(file)));
        Files.writeString(file, html.substring(0, 200));
        assertEquals(0, run("page", "-o", file.toString()).code());
        assertEquals(html, Files.readString(file));
        Path other = shared.resolve("notes.html");
        Files.writeString(other, "<!doctype html>\nmine");
        assertEquals(73, run("page", "-o", other.toString()).code());
        assertEquals("<!doctype html>\nmine", Files.readString(other));
        Path link = shared.resolve("link.html");
        Files.createSymbolicLink(link, file);
        assertEquals(73, run("page", "-o", link.toString()).code());
        try (var left = Files.list(shared)) {
            assertTrue(left.noneMatch(p -> p.toString().endsWith(".part")));
        }
    }
}
