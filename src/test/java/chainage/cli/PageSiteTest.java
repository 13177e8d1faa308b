package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.host.Terminal;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
import org.jsoup.Jsoup;
import org.jsoup.nodes.Document;
import org.jsoup.nodes.Element;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The served page from {@code chainage page} on, as a browser without scripts has it. */
@Timeout(120)
class PageSiteTest {
    private static final Instant NOW = Instant.parse("2026-08-31T20:00:00Z");

    @TempDir
    static Path demo = Path.of("");

    @TempDir
    Path folder = Path.of("");

    private final StringWriter out = new StringWriter();
    private final StringWriter err = new StringWriter();
    private Thread serving = new Thread();
    private String site = "";
    private String cookie = "";
    private final HttpClient client = HttpClient.newHttpClient();

    private String ledger() {
        return folder.resolve("ledger.sqlite").toString();
    }

    @BeforeAll
    static void ride() {
        Run.of("demo", "--folder", demo.resolve("demo").toString());
    }

    @BeforeEach
    void serve() throws Exception {
        assertEquals(
                0,
                Run.of("--ledger", demo.resolve("demo/ledger.sqlite").toString(), "backup", ledger())
                        .code());
        Terminal terminal = new Terminal(
                new PrintWriter(out), new PrintWriter(err), true, 80, Map.of(), Clock.fixed(NOW, ZoneOffset.UTC));
        serving = new Thread(() -> Main.run(terminal, "--ledger", ledger(), "page"));
        serving.start();
        while (!out.toString().contains("\n")) {
            assertTrue(serving.isAlive(), err.toString());
            Thread.sleep(20);
        }
        String address = out.toString().strip();
        site = address.replaceFirst("\\?.*", "");
        HttpResponse<String> entered =
                client.send(HttpRequest.newBuilder(URI.create(address)).build(), HttpResponse.BodyHandlers.ofString());
        cookie = entered.headers().firstValue("Set-Cookie").orElseThrow().replaceFirst(";.*", "");
        assertEquals(
                "0; url=./",
                Jsoup.parse(entered.body()).select("meta[http-equiv=refresh]").attr("content"));
    }

    @AfterEach
    void end() throws Exception {
        Document ended = press(look(""), "end", Map.of());
        assertEquals("Ended", ended.select("h1").text());
        serving.join(Duration.ofSeconds(20).toMillis());
        assertFalse(serving.isAlive());
        // The key stands in the address that was printed, and nowhere else.
        assertEquals(1, out.toString().split("key=", -1).length - 1);
        assertFalse(err.toString().contains("key="), err.toString());
    }

    private Document read(HttpRequest.Builder request) throws Exception {
        HttpResponse<String> answer =
                client.send(request.header("Cookie", cookie).build(), HttpResponse.BodyHandlers.ofString());
        return answer.statusCode() == 303
                ? look(answer.headers().firstValue("Location").orElseThrow().replaceFirst("^/[^/]*/", ""))
                : Jsoup.parse(answer.body(), site);
    }

    private Document look(String place) throws Exception {
        return read(HttpRequest.newBuilder(URI.create(site + place)));
    }

    /** Sends a form as it stands on a page, with some fields filled in anew, by the button that leads to a place. */
    private Document press(Document page, String form, Map<String, List<String>> filled) throws Exception {
        Element f = page.expectFirst("form#" + form);
        String place = f.expectFirst("button").attr("formaction");
        return press(f, place, filled);
    }

    private Document press(Element form, String place, Map<String, List<String>> filled) throws Exception {
        List<String> body = new ArrayList<>();
        ((org.jsoup.nodes.FormElement) form)
                .formData().stream()
                        .filter(d -> !filled.containsKey(d.key()))
                        .forEach(d -> body.add(pair(d.key(), d.value())));
        filled.forEach((k, values) -> values.forEach(v -> body.add(pair(k, v))));
        return read(HttpRequest.newBuilder(URI.create(site + place))
                .header("Origin", site.replaceFirst("(http://[^/]*)/.*", "$1"))
                .header("Content-Type", "application/x-www-form-urlencoded")
                .POST(HttpRequest.BodyPublishers.ofString(body.stream().collect(Collectors.joining("&")))));
    }

    private static String pair(String name, String value) {
        return URLEncoder.encode(name, StandardCharsets.UTF_8) + "=" + URLEncoder.encode(value, StandardCharsets.UTF_8);
    }

    @Test
    void thePageIsThatOfTheFile() throws Exception {
        Run file = Run.at(NOW, "--ledger", ledger(), "page", "-o", "-");
        Document served = look("");
        Document written = Jsoup.parse(file.out());
        assertEquals(written.select("h1").text(), served.select("h1").text());
        assertEquals(written.select("#chains").text(), served.select("#chains").text());
        assertTrue(served.select("meta[http-equiv=Content-Security-Policy]")
                .attr("content")
                .contains("form-action 'self'"));
        assertEquals("Not shown", look("nowhere").select("h1").text());
    }

    private String due() {
        return Run.at(NOW, "--ledger", ledger(), "due", "--json").out();
    }

    private static String last(Document page) {
        return String.valueOf(page.expectFirst("form#tag input[name=ride]").attr("value"));
    }

    /** As the terminal says it, without what is the terminal's own. */
    private List<String> terminal(String... command) {
        List<String> args = new ArrayList<>(List.of("--ledger", ledger()));
        args.addAll(List.of(command));
        args.add("--dry-run");
        return Run.at(NOW, args.toArray(String[]::new))
                .out()
                .replaceFirst("Dry run, nothing is written. It would say:\n", "")
                .replaceAll("\n(?! )", " ")
                .lines()
                .map(String::strip)
                .toList();
    }

    @Test
    void aTagIsLookedAtDoneAndTakenBack() throws Exception {
        String before = due();
        String page = look("").select("main").outerHtml();
        Map<String, List<String>> muddy =
                Map.of("ride", List.of(last(look(""))), "moisture", List.of("wet"), "grit", List.of("gritty"));
        Document shown = press(look(""), "tag", muddy);
        assertEquals("Not written yet", shown.select("h1").text());
        List<String> lines = shown.select(".lines li").eachText();
        assertFalse(lines.isEmpty(), shown.text());
        for (String line : terminal("tag", last(look("")), "wet", "gritty")) {
            assertTrue(shown.text().contains(line), line + " in " + shown.text());
        }
        assertEquals(before, due());
        Document done = press(shown, "do", Map.of());
        assertTrue(done.select(".notice").text().startsWith("Written."), done.text());
        assertEquals(lines, done.select(".notice li").eachText());
        assertFalse(before.equals(due()), "the figures moved");
        Document back = press(done, "back", Map.of());
        assertTrue(back.select(".notice").text().contains("taken back"), back.text());
        assertEquals(before, due());
        assertEquals(page, look("").select("main").outerHtml());
    }

    @Test
    void aSessionOfSeveralChains() throws Exception {
        Document shown = press(
                look(""),
                "treat",
                Map.of(
                        "chain", List.of("Amber", "Ochre"),
                        "product", List.of("hot-wax"),
                        "minutes", List.of("40"),
                        "cleaning", List.of("deep")));
        assertTrue(shown.text().contains("Amber, Ochre treated with hot-wax"), shown.text());
        assertTrue(shown.text().contains("20 minutes each"), shown.text());
        // What can hurt stands with it.
        assertTrue(shown.select(".care").text().contains("never over a flame"), shown.text());
        Document done = press(shown, "do", Map.of());
        assertEquals(2, done.select("form#back input[name=no]").size());
    }

    @Test
    void whatIsWrongStandsAtItsFieldInTheTerminalsWords() throws Exception {
        record Case(String form, Map<String, List<String>> filled, String field, List<String> typed) {}
        for (Case c : List.of(
                new Case(
                        "measure",
                        Map.of("chain", List.of("Amber"), "length", List.of("30mm")),
                        "length",
                        List.of("measure", "--length=30mm", "--", "Amber")),
                new Case(
                        "measure",
                        Map.of("chain", List.of("Amber"), "value", List.of("31%")),
                        "value",
                        List.of("measure", "Amber", "31%")),
                new Case(
                        "treat",
                        Map.of("chain", List.of("Amber"), "product", List.of("hot-wax"), "minutes", List.of("x")),
                        "minutes",
                        List.of("treat", "Amber", "hot-wax", "--minutes=x")),
                new Case(
                        "remark",
                        Map.of("chain", List.of("Amber"), "on", List.of("2026-13-01")),
                        "on",
                        List.of("remark", "Amber", "noisy", "--on=2026-13-01")))) {
            Document page = press(look(""), c.form(), c.filled());
            List<String> args = new ArrayList<>(List.of("--ledger", ledger()));
            args.addAll(c.typed());
            String said = Run.at(NOW, args.toArray(String[]::new))
                    .err()
                    .replaceFirst("^chainage: ", "")
                    .strip();
            Element field = page.expectFirst("[name=" + c.field() + "]");
            assertEquals("true", field.attr("aria-invalid"), page.text());
            assertEquals(
                    said,
                    page.select("#" + c.form() + "-" + c.field() + "-trouble").text());
            // What was filled in stays.
            assertEquals(Objects.requireNonNull(c.filled().get(c.field())).get(0), field.attr("value"));
        }
    }

    @Test
    void aShareAloneIsRefusedForTheWholeForm() throws Exception {
        Document page = press(look(""), "tag", Map.of("ride", List.of(last(look(""))), "share", List.of("40")));
        assertTrue(page.select("form#tag .trouble").text().contains("a share stands without wet or damp"), page.text());
    }

    @Test
    void aStaleWindowIsToldAndLosesNothing() throws Exception {
        Map<String, List<String>> muddy = Map.of("ride", List.of(last(look(""))), "moisture", List.of("wet"));
        Document shown = press(look(""), "tag", muddy);
        // Meanwhile somebody types.
        assertEquals(
                0,
                Run.at(NOW, "--ledger", ledger(), "remark", "Amber", "note", "meanwhile")
                        .code());
        int facts = facts();
        Document told = press(shown, "do", Map.of());
        assertEquals("Not written yet", told.select("h1").text());
        assertTrue(told.select(".notice").text().contains("has changed since"), told.text());
        assertEquals(facts, facts());
        Document done = press(told, "do", Map.of());
        assertTrue(done.select(".notice").text().startsWith("Written."), done.text());
        assertEquals(facts + 1, facts());
        // The button pressed twice does it once.
        assertTrue(press(told, "do", Map.of()).select(".notice").text().contains("has changed since"));
        assertEquals(facts + 1, facts());
    }

    private int facts() {
        return (int) Run.at(NOW, "--ledger", ledger(), "log").out().lines().count();
    }

    @Test
    void whatIsFilledInIsNeverAnOption() throws Exception {
        String before = due();
        for (String evil : List.of("--ledger=/tmp/x", "--dry-run", "-h", "@x", "--", "</script><script>alert(1)")) {
            Document page = press(look(""), "remark", Map.of("chain", List.of(evil), "noisy", List.of("noisy")));
            assertTrue(page.select("script").size() == 1, page.text());
            assertFalse(page.select(".trouble").text().isBlank(), page.text());
            Document added = press(look(""), "chain-add", Map.of("chain", List.of(evil)));
            assertTrue(added.select("script").size() == 1, added.text());
        }
        assertEquals(before, due());
    }

    /** From an empty ledger to a measured chain. */
    @Test
    void everythingIsSetUpFromThePage() throws Exception {
        assertTrue(press(look(""), "bike-add", Map.of("bike", List.of("Heron")))
                .text()
                .contains("bike Heron added"));
        press(press(look(""), "bike-add", Map.of("bike", List.of("Heron"))), "do", Map.of());
        press(
                press(look(""), "chain-add", Map.of("chain", List.of("Clover"), "speeds", List.of("11"))),
                "do",
                Map.of());
        Document on = press(
                press(look(""), "install", Map.of("chain", List.of("Clover"), "bike", List.of("Heron"))),
                "do",
                Map.of());
        assertTrue(on.select(".notice").text().contains("Clover on Heron from"), on.text());
        Document read = press(
                press(look(""), "measure", Map.of("chain", List.of("Clover"), "value", List.of("0.05%"))),
                "do",
                Map.of());
        assertTrue(read.select(".notice").text().contains("0.05"), read.text());
        Document assigned = press(
                press(look(""), "assign", Map.of("ride", List.of(last(look(""))), "bike", List.of("Heron"))),
                "do",
                Map.of());
        assertTrue(assigned.select(".notice").text().contains("Heron"), assigned.text());
        Document imported = press(
                press(
                        look(""),
                        "import",
                        Map.of("path", List.of(demo.resolve("demo").toString()))),
                "do",
                Map.of());
        assertTrue(imported.select(".notice").text().contains("known"), imported.text());
    }

    @Test
    void everyFormNamesItsFieldsForEveryReader() throws Exception {
        Document page = look("");
        List<String> ids = page.select("[id]").eachAttr("id");
        assertEquals(new HashSet<>(ids).size(), ids.size());
        assertTrue(page.select("form.sheet").size() >= 11);
        for (Element input : page.select("form.sheet input:not([type=hidden]), form.sheet select")) {
            boolean named = !page.select("label[for=" + input.id() + "]").isEmpty()
                    || Objects.requireNonNull(input.parent()).is("label");
            assertTrue(named, input.outerHtml());
            for (String id : input.attr("aria-describedby").split(" ", -1)) {
                assertTrue(id.isEmpty() || ids.contains(id), input.outerHtml());
            }
        }
        assertEquals(0, page.select("form:not(:has(input[name=token]))").size());
    }
}
