package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Base64;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.logging.Level;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import chainage.host.Terminal;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.Rectangle;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.WindowType;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.logging.LogEntry;
import org.openqa.selenium.logging.LogType;
import org.openqa.selenium.logging.LoggingPreferences;

/**
 * The demo's page in a real browser, at the width of a phone and of a desk, light and dark. What it looked like is left
 * under {@code target/screens}.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class PageInBrowserTest {
    private static final Path SCREENS = Path.of("target/screens");
    /** A tape of all chains, two plots a chain, the coming weeks, the products, two by their power meters. */
    private static final int FIRST_SIGHT = 1 + 2 * 6 + 1 + 1 + 2;

    /** In folds. */
    private static final int BIKES = 3;

    private static final String AT = "2026-08-31T20:00Z";

    @TempDir
    static Path shared = Path.of("");

    private Path file = shared;
    private final ChromeDriver browser = launch();

    private static ChromeDriver launch() {
        ChromeOptions options = new ChromeOptions();
        options.setBinary(System.getProperty("browser.program", "/usr/bin/chromium"));
        options.addArguments("--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage");
        options.addArguments("--hide-scrollbars", "--force-color-profile=srgb");
        LoggingPreferences logs = new LoggingPreferences();
        logs.enable(LogType.BROWSER, Level.ALL);
        options.setCapability(ChromeOptions.LOGGING_PREFS, logs);
        ChromeDriverService service = new ChromeDriverService.Builder()
                .usingDriverExecutable(
                        Path.of(System.getProperty("browser.driver", "/usr/bin/chromedriver")).toFile())
                .build();
        return new ChromeDriver(service, options);
    }

    @BeforeAll
    void writeThePage() throws IOException {
        Files.createDirectories(SCREENS);
        Run.of("demo", "--folder", shared.resolve("demo").toString());
        file = shared.resolve("chains.html");
        Run report = run("page", "-o", file.toString());
        assertEquals(0, report.code(), report.err());
    }

    @AfterAll
    void quit() {
        browser.quit();
    }

    private Run run(String... command) {
        List<String> args = new ArrayList<>(List.of(
                "--ledger", shared.resolve("demo/ledger.sqlite").toString(), "--at", AT, "--zone", "UTC"));
        args.addAll(List.of(command));
        return Run.of(args.toArray(String[]::new));
    }

    /** A desk in daylight, scripts running. */
    @BeforeEach
    void desk() {
        browser.executeCdpCommand("Emulation.setScriptExecutionDisabled", Map.of("value", false));
        show(1280, "light");
    }

    private void show(int width, String scheme) {
        browser.executeCdpCommand(
                "Emulation.setDeviceMetricsOverride",
                Map.of("width", width, "height", 900, "deviceScaleFactor", 1, "mobile", false));
        browser.executeCdpCommand(
                "Emulation.setEmulatedMedia",
                Map.of("media", "", "features", features(scheme)));
        browser.get(file.toUri().toString());
    }

    /** Without motion, so that what is scrolled to is there at once. */
    private static List<Map<String, String>> features(String scheme) {
        return List.of(
                Map.of("name", "prefers-color-scheme", "value", scheme),
                Map.of("name", "prefers-reduced-motion", "value", "reduce"));
    }

    private Object script(String script, Object... arguments) {
        return Objects.requireNonNullElse(browser.executeScript(script, arguments), "");
    }

    private void openFolds() {
        script("document.querySelectorAll('details').forEach(d => { d.open = true; });");
    }

    @ParameterizedTest
    @CsvSource({"360, light", "360, dark", "1280, light", "1280, dark", "1600, light", "1600, dark"})
    void looksAsItShould(int width, String scheme) throws IOException {
        show(width, scheme);
        everyPlotHasInk(picture(width + "-" + scheme), FIRST_SIGHT);
        nothingSticksOut(width);
        noDateIsBroken();
        openFolds();
        everyPlotHasInk(picture(width + "-" + scheme + "-open"), FIRST_SIGHT + BIKES);
        nothingSticksOut(width);
        noDateIsBroken();
        axeFindsNothing();
        nothingWasComplainedOf();
    }

    /** The one that README shows is a copy of this: {@code src/browser/page.png}. */
    @Test
    void aDeskSeesTheAnswerFirst() throws IOException {
        picture("readme", 660);
        String text = browser.findElement(By.tagName("body")).getText();
        assertTrue(text.indexOf("Nearest its limit. ") > 0 && text.indexOf("Nearest its limit. ") < 200, text);
    }

    private BufferedImage picture(String name) throws IOException {
        return picture(name, ((Number) script("return document.documentElement.scrollHeight")).longValue());
    }

    private BufferedImage picture(String name, long height) throws IOException {
        long width = ((Number) script("return document.documentElement.clientWidth")).longValue();
        Object data = browser.executeCdpCommand(
                        "Page.captureScreenshot",
                        Map.of(
                                "captureBeyondViewport",
                                true,
                                "clip",
                                Map.of("x", 0, "y", 0, "width", width, "height", height, "scale", 1)))
                .get("data");
        byte[] png = Base64.getDecoder().decode(String.valueOf(data));
        Files.write(SCREENS.resolve("page-" + name + ".png"), png);
        return ImageIO.read(new ByteArrayInputStream(png));
    }

    /** At 360 by 800, with all folds closed. */
    @Test
    void fourChainsAreReadInSixScreens() {
        Path four = shared.resolve("four.html");
        assertEquals(
                0,
                run("page", "--bike", "Dunlin", "--bike", "Natterjack", "-o", four.toString())
                        .code());
        show(360, "light");
        browser.get(four.toUri().toString());
        assertEquals(
                4, browser.findElements(By.cssSelector("#chains section")).size());
        long height = ((Number) script("return document.documentElement.scrollHeight")).longValue();
        assertTrue(height <= 6 * 800, height + " pixels");
    }

    /** A line may end at a hyphen, but not at one in a date; the names of files are as they are. */
    private void noDateIsBroken() {
        Object broken = script(
                """
                const broken = [];
                const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
                for (let n = texts.nextNode(); n; n = texts.nextNode()) {
                  if (!n.parentElement.checkVisibility() || n.parentElement.closest('svg')) continue;
                  for (const m of n.data.matchAll(/(?<![\\w-])\\d{4}-\\d\\d(-\\d\\d)?(?![\\w-])/g)) {
                    const range = document.createRange();
                    range.setStart(n, m.index);
                    range.setEnd(n, m.index + m[0].length);
                    if (new Set([...range.getClientRects()].map(r => Math.round(r.top))).size > 1) broken.push(m[0]);
                  }
                }
                return broken.join();
                """);
        assertEquals("", broken);
    }

    /** Pixels that differ from the paper's, and how far apart they lie. */
    private void everyPlotHasInk(BufferedImage whole, int expected) {
        List<WebElement> plots = browser.findElements(By.cssSelector("svg.plot")).stream()
                .filter(WebElement::isDisplayed)
                .toList();
        assertEquals(expected, plots.size());
        int paper = whole.getRGB(0, 0);
        for (WebElement plot : plots) {
            Rectangle place = plot.getRect();
            int ink = 0;
            int left = place.width;
            int right = 0;
            Set<Integer> colours = new HashSet<>();
            for (int y = 0; y < place.height; y++) {
                for (int x = 0; x < place.width; x++) {
                    int colour = whole.getRGB(place.x + x, place.y + y);
                    colours.add(colour);
                    if (colour != paper) {
                        ink++;
                        left = Math.min(left, x);
                        right = Math.max(right, x);
                    }
                }
            }
            String name = plot.getDomAttribute("aria-label");
            assertTrue(ink > 0.01 * place.width * place.height, name + ": " + ink + " pixels of ink");
            assertTrue(right - left > 0.8 * place.width, name + ": ink from " + left + " to " + right);
            assertTrue(colours.size() > 3, name + ": " + colours.size() + " colours");
        }
    }

    private void nothingSticksOut(int width) {
        assertEquals((long) width, script("return document.documentElement.scrollWidth"));
        // Tables may be wider, inside their own frame, which can be scrolled and reached by keyboard.
        Object out = script(
                """
                return [...document.querySelectorAll('body *')]
                  .filter(e => !e.closest('.scroll > *') && !e.closest('svg') && !e.closest('.skip'))
                  .filter(e => e.getBoundingClientRect().right > innerWidth + 0.5)
                  .map(e => e.tagName + '.' + e.className + ' ' + e.getBoundingClientRect().right).join();
                """);
        assertEquals("", out);
    }

    private void axeFindsNothing() throws IOException {
        try (InputStream in = PageInBrowserTest.class.getResourceAsStream("/axe.min.js")) {
            script(new String(Objects.requireNonNull(in, "axe").readAllBytes(), StandardCharsets.UTF_8));
        }
        Object found = browser.executeAsyncScript(
                """
                const done = arguments[arguments.length - 1];
                axe.run(document, {resultTypes: ['violations']}).then(r => done(JSON.stringify(
                  r.violations.map(v => v.id + ': ' + v.help + ' ' + v.nodes.slice(0, 3).map(n => n.html.slice(0, 120)).join(' | ')))));
                """);
        assertEquals("[]", found);
    }

    /** A form that is refused, as other tests have it, is answered with 422, which the browser notes. */
    private void nothingWasComplainedOf() {
        List<LogEntry> said = browser.manage().logs().get(LogType.BROWSER).getAll().stream()
                .filter(l -> !l.getMessage().contains("/look - ") || !l.getMessage().contains(" 422 "))
                .toList();
        assertTrue(said.isEmpty(), said.toString());
    }

    private List<String> column(int column) {
        return browser.findElements(By.cssSelector("#chain-1 table.sortable tbody tr")).stream()
                .map(r -> r.findElements(By.cssSelector("th, td")).get(column).getText())
                .toList();
    }

    private static void assertOrdered(List<String> column, int direction) {
        assertTrue(column.size() > 10);
        for (int i = 1; i < column.size(); i++) {
            double step = Double.parseDouble(column.get(i)) - Double.parseDouble(column.get(i - 1));
            assertTrue(step * direction >= 0, column.toString());
        }
    }

    @Test
    void tablesSortByClickAndByKeyboard() {
        openFolds();
        int ridden = 1;
        List<WebElement> heads = browser.findElements(By.cssSelector("#chain-1 table.sortable thead th"));
        WebElement button = heads.get(ridden).findElement(By.tagName("button"));
        assertNotEquals(column(ridden).stream().sorted().toList(), column(ridden), "not sorted by distance yet");
        button.click();
        assertOrdered(column(ridden), 1);
        assertEquals("ascending", heads.get(ridden).getDomAttribute("aria-sort"));
        browser.switchTo().activeElement().sendKeys(Keys.ENTER);
        assertOrdered(column(ridden), -1);
        assertEquals("descending", heads.get(ridden).getDomAttribute("aria-sort"));
        // On to the next heading by Tab, where the focus can be seen.
        browser.switchTo().activeElement().sendKeys(Keys.TAB);
        assertEquals(
                heads.get(ridden + 1).findElement(By.tagName("button")),
                browser.switchTo().activeElement());
        assertEquals("solid", script("return getComputedStyle(document.activeElement).outlineStyle"));
        browser.switchTo().activeElement().sendKeys(Keys.SPACE);
        assertEquals("ascending", heads.get(ridden + 1).getDomAttribute("aria-sort"));
        assertNull(heads.get(ridden).getDomAttribute("aria-sort"));
        List<String> roads = column(ridden + 1);
        assertEquals(roads.stream().sorted().toList(), roads);
    }

    @Test
    void theContentsLeadToTheParts() {
        List<String> links = browser.findElements(By.cssSelector("nav a")).stream()
                .map(a -> String.valueOf(a.getDomAttribute("href")))
                .toList();
        assertTrue(links.size() >= 5, links.toString());
        for (String link : links) {
            browser.findElement(By.cssSelector("nav a[href='" + link + "']")).click();
            assertEquals(link, script("return location.hash"));
            assertEquals(
                    true,
                    script(
                            "const top = document.querySelector(arguments[0]).getBoundingClientRect().top;"
                                    + " return top >= -1 && (top < 60 || scrollY + innerHeight > document.body.scrollHeight - 60);",
                            link),
                    link);
        }
    }

    @Test
    void withoutScriptsEveryFigureIsThere() {
        openFolds();
        String with = String.valueOf(script("return document.querySelector('main').innerText.replace(/\\s+/g, ' ')"));
        browser.executeCdpCommand("Emulation.setScriptExecutionDisabled", Map.of("value", true));
        browser.get(file.toUri().toString());
        assertTrue(browser.findElements(By.cssSelector("th button")).isEmpty());
        browser.findElements(By.tagName("summary")).forEach(WebElement::click);
        String without = String.valueOf(script("return document.querySelector('main').innerText.replace(/\\s+/g, ' ')"));
        assertEquals(with, without);
        assertFalse(browser.findElements(By.cssSelector("svg.wide")).isEmpty());
    }

    @Test
    void itPrintsInInkOnWhite() throws IOException {
        show(1280, "dark");
        browser.executeCdpCommand("Emulation.setEmulatedMedia", Map.of("media", "print", "features", features("dark")));
        assertEquals("rgb(255, 255, 255)", script("return getComputedStyle(document.body).backgroundColor"));
        everyPlotHasInk(picture("print"), FIRST_SIGHT);
        Object pdf = browser.executeCdpCommand("Page.printToPDF", Map.of()).get("data");
        Files.write(SCREENS.resolve("page.pdf"), Base64.getDecoder().decode(String.valueOf(pdf)));
    }

    /** Does something in a browser that has just been handed the page of a ledger. */
    private interface Visit {
        void on(String ledger) throws Exception;
    }

    private void served(String ledger, int width, String scheme, Visit visit) throws Exception {
        StringWriter said = new StringWriter();
        StringWriter beside = new StringWriter();
        Terminal terminal = new Terminal(
                new PrintWriter(said),
                new PrintWriter(beside),
                true,
                80,
                Map.of("CHAINAGE_LEDGER", ledger),
                Clock.fixed(Instant.parse("2026-08-31T20:00:00Z"), ZoneOffset.UTC));
        Thread serving = new Thread(() -> Main.run(terminal, "--zone", "UTC", "page", "--no-open"));
        serving.start();
        try {
            while (!said.toString().contains("\n")) {
                assertTrue(serving.isAlive(), beside.toString());
                Thread.sleep(20);
            }
            show(width, scheme);
            browser.get(said.toString().strip());
            awaitText("id=\"note\"");
            visit.on(ledger);
        } finally {
            serving.interrupt();
            serving.join();
        }
    }

    private String copied(String name) {
        String ledger = shared.resolve(name + ".sqlite").toString();
        assertEquals(0, run("backup", ledger).code());
        return ledger;
    }

    /** By keyboard alone: the last ride is muddy, its chain is due at once, and all is as before when it is taken back. */
    @ParameterizedTest
    @CsvSource({"360, dark", "1280, light"})
    void aRideIsTaggedAndTakenBack(int width, String scheme) throws Exception {
        served(copied("tagged-" + width), width, scheme, ledger -> {
            String before = due(ledger);
            step(width, scheme, "1-page");
            WebElement form = open("tag");
            form.findElement(By.cssSelector("input[name=ride]")).sendKeys(Keys.SPACE);
            form.findElement(By.cssSelector("select[name=moisture]")).sendKeys("wet");
            form.findElement(By.cssSelector("select[name=grit]")).sendKeys("gritty");
            form.findElement(By.cssSelector("button")).sendKeys(Keys.ENTER);
            awaitText("Not written yet");
            step(width, scheme, "2-looked-at");
            assertEquals(before, due(ledger));
            press("Do it");
            awaitText("Written.");
            assertTrue(
                    browser.findElement(By.tagName("main")).getText().contains("treat 2026-09-09 → now"),
                    browser.findElement(By.tagName("main")).getText());
            step(width, scheme, "3-done");
            assertNotEquals(before, due(ledger));
            press("Take it back");
            awaitText("taken back");
            step(width, scheme, "4-taken-back");
            assertEquals(before, due(ledger));
        });
    }

    /** Opens a fold by its heading. */
    private WebElement open(String form) {
        WebElement fold = browser.findElement(By.id("note-" + form));
        if (fold.getDomAttribute("open") == null) {
            fold.findElement(By.cssSelector(":scope > summary")).sendKeys(Keys.ENTER);
        }
        return fold.findElement(By.cssSelector("form#" + form));
    }

    private void fill(WebElement form, String field, String value) {
        WebElement in = form.findElement(By.name(field));
        if (in.getTagName().equals("input")) {
            in.clear();
        }
        in.sendKeys(value);
    }

    /** Sends a form, looks at what it changes, does it, and hands back what is said of it. */
    private String done(WebElement form, int width, String scheme, String name) throws Exception {
        form.findElement(By.cssSelector("button")).sendKeys(Keys.ENTER);
        awaitText("Not written yet");
        step(width, scheme, name);
        press("Do it");
        awaitText("Written.");
        return browser.findElement(By.cssSelector(".notice")).getText();
    }

    private void follow(String words) {
        browser.findElements(By.cssSelector("main a")).stream()
                .filter(a -> a.getText().startsWith(words))
                .findFirst()
                .orElseThrow(() -> new AssertionError(words + " in " + browser.getPageSource()))
                .click();
    }

    /** As a rider who has never seen a terminal: from nothing to a chain that was measured, by what the page offers. */
    @ParameterizedTest
    @CsvSource({"360, light", "360, dark", "1280, light", "1280, dark"})
    void fromAnEmptyLedgerToAMeasuredChain(int width, String scheme) throws Exception {
        Path rides = Files.createDirectories(shared.resolve("export-" + width + scheme));
        for (int day = 1; day <= 6; day++) {
            Files.writeString(rides.resolve("ride-" + day + ".gpx"), gpx("2026-08-0" + day));
        }
        Files.writeString(rides.resolve("torn.gpx"), "<gpx><trk>");
        served(shared.resolve("new-" + width + scheme + ".sqlite").toString(), width, scheme, ledger -> {
            step(width, scheme, "walk-01-empty");
            follow("Do it here: read ride files");
            WebElement chooser = browser.findElement(By.cssSelector("input[type=file]"));
            assertTrue(chooser.isDisplayed());
            try (Stream<Path> files = Files.list(rides)) {
                chooser.sendKeys(files.map(Path::toString).collect(Collectors.joining("\n")));
            }
            press("Take them in");
            awaitText("6 imported");
            step(width, scheme, "walk-02-imported");
            follow("Do it here: add a bike");
            WebElement form = open("bike-add");
            fill(form, "bike", "Heron");
            String said = done(form, width, scheme, "walk-03-bike");
            assertTrue(said.contains("bike Heron added"), said);
            for (String chain : List.of("Clover", "Yarrow")) {
                form = open("chain-add");
                fill(form, "chain", chain);
                fill(form, "speeds", "11");
                said = done(form, width, scheme, "walk-04-" + chain);
                assertTrue(said.contains("chain " + chain), said);
            }
            follow("Do it here: put a chain");
            form = open("install");
            fill(form, "chain", "Clover");
            fill(form, "bike", "Heron");
            fill(form, "on", "2026-08-01");
            said = done(form, width, scheme, "walk-05-installed");
            assertTrue(said.contains("Clover on Heron from 2026-08-01"), said);
            // Both in one session, on the day that the first went on.
            form = open("treat");
            form.findElements(By.cssSelector("input[name=chain]")).stream()
                    .filter(c -> !c.isSelected())
                    .forEach(c -> c.sendKeys(Keys.SPACE));
            fill(form, "product", "hot-wax");
            fill(form, "cleaning", "deep");
            fill(form, "minutes", "40");
            fill(form, "on", "2026-08-01");
            said = done(form, width, scheme, "walk-06-waxed");
            assertTrue(said.contains("20 minutes each"), said);
            String before = due(ledger);
            form = open("tag");
            form.findElement(By.cssSelector("input[name=ride]")).sendKeys(Keys.SPACE);
            fill(form, "moisture", "wet");
            said = done(form, width, scheme, "walk-07-tagged");
            assertTrue(said.contains("wet"), said);
            assertNotEquals(before, due(ledger));
            press("Take it back");
            awaitText("taken back");
            assertEquals(before, due(ledger));
            step(width, scheme, "walk-08-taken-back");
            // A wrong length first: it is told at its field, and stays to be mended.
            form = open("measure");
            assertTrue(browser.findElement(By.cssSelector("#note-measure svg.plot")).isDisplayed()
                    || browser.findElements(By.cssSelector("#note-measure svg.plot")).get(1).isDisplayed());
            fill(form, "chain", "Clover");
            fill(form, "length", "30mm");
            form.findElement(By.cssSelector("button")).click();
            awaitText("aria-invalid=\"true\"");
            step(width, scheme, "walk-09-wrong-length");
            form = browser.findElement(By.cssSelector("form#measure"));
            assertEquals("length", browser.switchTo().activeElement().getDomAttribute("name"));
            fill(form, "length", "305.2mm");
            said = done(form, width, scheme, "walk-10-measured");
            assertTrue(said.contains("0.13"), said);
            step(width, scheme, "walk-11-page");
            follow("All rides");
            awaitText("Show these rides");
            step(width, scheme, "walk-12-rides");
            // Dropped anywhere on the page, a folder or files: the same as chosen.
            browser.navigate().back();
            awaitText("id=\"note\"");
            drop(Map.of("away.gpx", gpx("2026-08-20"), "again.gpx", gpx("2026-08-01")));
            awaitText("2 files: 1 imported");
            step(width, scheme, "walk-13-dropped");
        });
    }

    /** What a file manager's drop is to a page. */
    private void drop(Map<String, String> files) {
        script(
                """
                const data = new DataTransfer();
                for (const [name, text] of Object.entries(arguments[0])) data.items.add(new File([text], name));
                document.body.dispatchEvent(new DragEvent('drop', {dataTransfer: data, bubbles: true, cancelable: true}));
                """,
                files);
    }

    /** An hour over a fifth of a degree of the equator: 22.3 km on the ellipsoid of WGS 84. */
    private static String gpx(String day) {
        StringBuilder points = new StringBuilder();
        for (int minute = 0; minute <= 60; minute++) {
            points.append(String.format(
                    Locale.ROOT,
                    "<trkpt lat=\"0\" lon=\"%.4f\"><time>%sT%02d:%02d:00Z</time></trkpt>",
                    20 + minute / 300.0,
                    day,
                    8 + minute / 60,
                    minute % 60));
        }
        return "<gpx version=\"1.1\"><trk><type>cycling</type><trkseg>" + points + "</trkseg></trk></gpx>";
    }

    /** Of two windows one is stale: it is told, nothing is lost, and the same form does it then. */
    @Test
    void aStaleWindowIsToldAndLosesNothing() throws Exception {
        served(copied("stale"), 1280, "light", ledger -> {
            String first = browser.getWindowHandle();
            String address = String.valueOf(browser.getCurrentUrl());
            WebElement form = open("remark");
            fill(form, "chain", "Amber");
            fill(form, "what", "noisy");
            form.findElement(By.cssSelector("button")).click();
            awaitText("Not written yet");
            browser.switchTo().newWindow(WindowType.TAB);
            show(1280, "light");
            browser.get(address);
            awaitText("id=\"note\"");
            form = open("tag");
            form.findElement(By.cssSelector("input[name=ride]")).sendKeys(Keys.SPACE);
            fill(form, "moisture", "damp");
            assertTrue(done(form, 1280, "light", "stale-1-other").contains("damp"));
            browser.close();
            browser.switchTo().window(first);
            press("Do it");
            awaitText("has changed since");
            // And the terminal meanwhile.
            assertEquals(
                    0,
                    Run.of("--ledger", ledger, "--at", AT, "--zone", "UTC", "remark", "Amber", "note", "meanwhile")
                            .code());
            step(1280, "light", "stale-2-told");
            press("Do it");
            awaitText("has changed since");
            press("Do it");
            awaitText("Written.");
            String log = Run.of("--ledger", ledger, "log").out();
            assertEquals(1, log.split("noisy", -1).length - Run.of("--ledger", shared.resolve("demo/ledger.sqlite").toString(), "log").out().split("noisy", -1).length, log);
        });
    }

    /** Until a page holds it, half a minute at most. */
    private void awaitText(String text) throws InterruptedException {
        Instant end = Instant.now().plus(Duration.ofSeconds(30));
        while (!String.valueOf(browser.getPageSource()).contains(text)) {
            assertTrue(Instant.now().isBefore(end), () -> text + " in " + browser.getPageSource());
            Thread.sleep(50);
        }
    }

    private static String due(String ledger) {
        return Run.of("--ledger", ledger, "--at", AT, "--zone", "UTC", "due", "--json")
                .out();
    }

    private void press(String button) {
        browser.findElements(By.cssSelector("main button")).stream()
                .filter(b -> b.getText().equals(button))
                .findFirst()
                .orElseThrow()
                .sendKeys(Keys.ENTER);
    }

    private void step(int width, String scheme, String name) throws IOException {
        picture("served-" + width + "-" + scheme + "-" + name);
        nothingSticksOut(width);
        axeFindsNothing();
    }
}
