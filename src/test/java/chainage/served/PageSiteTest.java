package chainage.served;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.cli.Main;
import chainage.cli.Run;
import chainage.host.Terminal;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
import java.util.stream.Stream;
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
@Timeout(300)
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

    /** Sends files as a browser does (RFC 7578), with the other fields of their form as they stand. */
    private Document hand(Document page, Map<String, String> filled, Map<String, byte[]> files) throws Exception {
        Element form = page.expectFirst("form#files");
        assertEquals("multipart/form-data", form.attr("enctype"));
        ByteArrayOutputStream body = new ByteArrayOutputStream();
        Map<String, String> fields = new LinkedHashMap<>();
        form.select("input[type=hidden]").forEach(i -> fields.put(i.attr("name"), i.attr("value")));
        fields.putAll(filled);
        for (Map.Entry<String, String> f : fields.entrySet()) {
            body.writeBytes(("--limit\r\nContent-Disposition: form-data; name=\"" + f.getKey() + "\"\r\n\r\n"
                            + f.getValue() + "\r\n")
                    .getBytes(StandardCharsets.UTF_8));
        }
        for (Map.Entry<String, byte[]> f : files.entrySet()) {
            body.writeBytes(("--limit\r\nContent-Disposition: form-data; name=\"files\"; filename=\"" + f.getKey()
                            + "\"\r\nContent-Type: application/octet-stream\r\n\r\n")
                    .getBytes(StandardCharsets.UTF_8));
            body.writeBytes(f.getValue());
            body.writeBytes("\r\n".getBytes(StandardCharsets.UTF_8));
        }
        body.writeBytes("--limit--\r\n".getBytes(StandardCharsets.UTF_8));
        return read(HttpRequest.newBuilder(URI.create(site + form.attr("action")))
                .header("Origin", site.replaceFirst("(http://[^/]*)/.*", "$1"))
                .header("Content-Type", "multipart/form-data; boundary=limit")
                .POST(HttpRequest.BodyPublishers.ofByteArray(body.toByteArray())));
    }

    /** Ten minutes over a twenty-fifth of a degree of the equator: 4.45 km on the ellipsoid of WGS 84. */
    private static byte[] ride(String day) {
        return ("<gpx version=\"1.1\"><trk><type>cycling</type><trkseg>"
                        + "<trkpt lat=\"0\" lon=\"20\"><time>DAYT04:00:00Z</time></trkpt>"
                        + "<trkpt lat=\"0\" lon=\"20.04\"><time>DAYT04:10:00Z</time></trkpt>"
                        + "</trkseg></trk></gpx>")
                .replace("DAY", day)
                .getBytes(StandardCharsets.UTF_8);
    }

    private List<Path> onDisk() throws IOException {
        try (Stream<Path> all = Files.walk(folder)) {
            return all.filter(f -> !f.getFileName().toString().startsWith("ledger.sqlite"))
                    .toList();
        }
    }

    @Test
    void filesAreTakenInAsTheCommandDoes() throws Exception {
        String before = due();
        byte[] ride = ride("2026-08-30");
        List<Path> disk = onDisk();
        Map<String, byte[]> files = new LinkedHashMap<>();
        files.put("../phone/away.gpx", ride);
        files.put("C:\\twice.gpx", ride);
        files.put("torn.fit", new byte[] {14, 16, 0, 0, 9, 0, 0, 0, '.', 'F', 'I', 'T', 1, 2});
        Document done = hand(look(""), Map.of(), files);
        String said = done.select(".notice").text();
        // The same files in a folder, by the command.
        Path there = Files.createDirectory(folder.resolve("there"));
        for (String name : List.of("away.gpx", "twice.gpx")) {
            Files.write(there.resolve(name), ride);
        }
        Files.write(there.resolve("torn.fit"), Objects.requireNonNull(files.get("torn.fit")));
        assertTrue(said.contains("3 files: 1 imported (4.5 km), 1 known, 1 refused."), said);
        assertTrue(said.contains("torn.fit: "), said);
        assertTrue(said.contains("not kept here"), said);
        String left = done.select("#problems-files").text();
        assertTrue(left.contains("torn.fit: ") && !left.contains("No file is left"), left);
        Document mended = hand(look(""), Map.of(), Map.of("torn.fit", ride, "season.txt", bytes("""
                chainage logbook
                2026-08-30 oil Amber
                """)));
        left = mended.select("#problems-files").text();
        assertTrue(left.contains("season.txt:2: ") && !left.contains("torn.fit"), left);
        assertEquals(disk, onDisk().stream().filter(f -> !f.startsWith(there)).toList());
        Run command = Run.at(NOW, "--ledger", ledger(), "import", there.toString());
        assertTrue(command.out().contains("3 files: 2 known, 1 refused."), command.out() + command.err());
        assertFalse(before.equals(due()), "the figures moved");
        String rides = Run.at(NOW, "--ledger", ledger(), "rides", "2026-08-30", "--json")
                .out();
        assertTrue(rides.contains("\"phone/away.gpx\"") || rides.contains("there/away.gpx"), rides);
        // The way back: a ride is left out as any other is.
        Document shown = press(done, "out", Map.of());
        assertEquals("Not written yet", shown.select("h1").text());
        press(shown, "do", Map.of());
        assertEquals(before, due());
    }

    private static byte[] bytes(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }

    @Test
    void portionsAreToldTogether() throws Exception {
        Document first = hand(look(""), Map.of("portion", "one"), Map.of("a.gpx", ride("2026-08-29")));
        assertFalse(first.select("main a").attr("href").isEmpty(), first.text());
        Document second = hand(
                look(""),
                Map.of("portion", "one", "large", "long.zip"),
                Map.of(
                        "b.gpx",
                        ride("2026-08-28"),
                        "season.txt",
                        "chainage logbook\n2026-08-30 remark Amber note dull\n".getBytes(StandardCharsets.UTF_8)));
        String said = look(second.select("main a").attr("href").substring(2))
                .select(".notice")
                .text();
        assertTrue(said.contains("2 files: 2 imported (8.9 km)."), said);
        assertTrue(said.contains("Logbook season.txt: lines 1 new."), said);
        assertTrue(said.contains("long.zip"), said);
        // Another drop is told by itself, and a logbook that is dropped again is followed.
        Document third = hand(
                look(""),
                Map.of(),
                Map.of(
                        "season.txt",
                        "chainage logbook\n2026-08-30 remark Amber noisy\n".getBytes(StandardCharsets.UTF_8)));
        String again = third.select(".notice").text();
        assertTrue(again.contains("Logbook season.txt: lines 1 changed."), again);
        assertFalse(again.contains("8.9 km"), again);
        assertTrue(press(third, "back", Map.of()).select(".notice").text().contains("taken back"), again);
    }

    @Test
    void nothingChosenIsSaid() throws Exception {
        Document page = hand(look(""), Map.of(), Map.of());
        assertEquals("true", page.select("input[type=file]").attr("aria-invalid"));
        assertTrue(page.select(".trouble").text().contains("no file was chosen"), page.text());
    }

    @Test
    void ridesAreFilteredAndSortedWithoutAScript() throws Exception {
        Document all = look("rides");
        Element form = all.expectFirst("form#rides");
        assertEquals("get", form.attr("method"));
        assertEquals(0, form.select("input[name=token]").size());
        for (String[] asked : List.of(
                new String[] {"?chain=Moss&sort=ridden", "rides", "--chain", "Moss", "--sort", "ridden"},
                new String[] {"?ride=2026-05&bike=Natterjack", "rides", "2026-05", "--bike", "Natterjack"},
                new String[] {"?road=gritty&sort=road", "rides", "--road", "gritty", "--sort", "road"},
                new String[] {"?unattributed=yes", "rides", "--unattributed"})) {
            Document some = look("rides" + asked[0]);
            List<String> args = new ArrayList<>(List.of("--ledger", ledger()));
            args.addAll(List.of(asked).subList(1, asked.length));
            List<String> ids = Run.at(NOW, args.toArray(String[]::new))
                    .out()
                    .lines()
                    .filter(l -> l.matches("[0-9a-f]{10} .*"))
                    .map(l -> l.substring(0, 10))
                    .collect(Collectors.toCollection(ArrayList::new));
            // The page has first what the terminal has last.
            java.util.Collections.reverse(ids);
            assertEquals(ids, some.select("tbody th").eachText(), asked[0]);
        }
        assertEquals(
                "Moss",
                look("rides?chain=Moss")
                        .select("select[name=chain] option[selected]")
                        .text());
        Document wrong = look("rides?road=blue");
        assertEquals("true", wrong.select("[name=road]").attr("aria-invalid"));
        assertFalse(look("").select("a[href=rides]").isEmpty());
    }

    /** What an import and the terminal call refused is on the page, all of it. */
    @Test
    void whatIsRefusedIsListed() throws Exception {
        Path there = Files.createDirectory(folder.resolve("bad"));
        for (int i = 0; i < 30; i++) {
            Files.writeString(there.resolve("torn-" + i + ".gpx"), "<gpx><trk>");
        }
        Files.writeString(there.resolve("season.txt"), "chainage logbook\n2026-08-30 oil Amber\n");
        Run.at(NOW, "--ledger", ledger(), "import", there.toString());
        Run refused = Run.at(NOW, "--ledger", ledger(), "refused");
        assertEquals(32, refused.out().lines().count(), refused.out());
        String page = look("").select("#problems-files").text();
        refused.out()
                .lines()
                .forEach(line -> assertTrue(page.contains(line.replaceAll(" +", " ")), line + " in " + page));
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
