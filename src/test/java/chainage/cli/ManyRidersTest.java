package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.evidence.Club;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a large club has shown is weighed once and then kept, and no answer is another for it. */
class ManyRidersTest {
    private static final Instant NOW = Instant.parse("2026-11-01T12:00:00Z");
    private static final int RIDERS = Integer.getInteger("many.riders", 40);
    private static final int LIVES = Integer.getInteger("many.lives", 20);

    @TempDir
    Path folder;

    private Path club;

    @BeforeEach
    void season() throws IOException {
        club = Files.write(
                folder.resolve("club.jsonl"), Club.file(RIDERS, LIVES).toList());
        for (String line : List.of(
                "bike add Heron",
                "chain add Flint --speeds 11",
                "product add Moss --method hot-wax",
                "import fixtures/season/rides",
                "install Flint Heron --on 2026-03-01",
                "treat Flint Moss --on 2026-03-01",
                "treat Flint Moss --on 2026-04-15 --heard noisy")) {
            run(SmallSeason.split(line).toArray(String[]::new));
        }
    }

    private Run run(String... args) {
        return run(Map.of("XDG_CACHE_HOME", folder.resolve("cache").toString()), args);
    }

    /** By a program that keeps nothing. */
    private Run fresh(String... args) {
        return run(Map.of(), args);
    }

    private Run run(Map<String, String> environment, String... args) {
        String ledger = folder.resolve("ledger.sqlite").toString();
        Run run = Run.in(
                environment,
                NOW,
                Stream.concat(Stream.of("--ledger", ledger), Arrays.stream(args))
                        .toArray(String[]::new));
        assertTrue(run.code() == 0 || List.of("import", "check").contains(args[0]), run::toString);
        return run;
    }

    private void add() {
        run("evidence", "add", club.toString(), "--as", "club");
    }

    private Path kept() throws IOException {
        try (Stream<Path> all = Files.list(folder.resolve("cache/chainage/kept"))) {
            return all.filter(f -> f.toString().endsWith(".others")).findFirst().orElseThrow();
        }
    }

    private static double seconds(Runnable command) {
        List<Double> times = new ArrayList<>();
        for (int i = 0; i < 5; i++) {
            long from = System.nanoTime();
            command.run();
            times.add((System.nanoTime() - from) / 1e9);
        }
        Collections.sort(times);
        return times.get(2);
    }

    /** Before, with and after: what others' lives, readings and power meters say goes as it came. */
    @Test
    void whatIsRemovedLeavesEveryByteAsItWas() {
        List<String> questions = List.of(
                "due --json",
                "loss --json",
                "loss --pairs --json",
                "compare Moss Kettle --json",
                "compare Moss Kettle");
        run("product", "add", "Kettle", "--method", "wet-lube");
        List<String> before = questions.stream().map(this::said).toList();
        add();
        List<String> told = questions.stream().map(this::said).toList();
        for (int i = 0; i < questions.size(); i++) {
            assertNotEquals(before.get(i), told.get(i), questions.get(i));
            assertEquals(
                    fresh(SmallSeason.split(questions.get(i)).toArray(String[]::new))
                            .out(),
                    told.get(i));
        }
        assertEquals(0, run("check").code());
        run("evidence", "remove", "club");
        assertEquals(before, questions.stream().map(this::said).toList());
    }

    private String said(String question) {
        return run(SmallSeason.split(question).toArray(String[]::new)).out();
    }

    @Test
    void aLargeClubIsWeighedOnceAndThenKept() throws IOException {
        String before = run("due", "--json").out();
        double without = seconds(() -> run("due", "--json"));
        double withoutShort = seconds(() -> run("due"));
        long from = System.nanoTime();
        add();
        double first = (System.nanoTime() - from) / 1e9;
        byte[] kept = Files.readAllBytes(kept());
        String told = run("due", "--json").out();
        assertNotEquals(before, told);
        assertEquals(fresh("due", "--json").out(), told);
        double with = seconds(() -> run("due", "--json"));
        double withShort = seconds(() -> run("due"));
        assertArrayEqualsKept(kept);
        run("evidence", "remove", "club");
        assertEquals(before, run("due", "--json").out());
        System.out.printf(
                Locale.ROOT,
                "%d riders of %d lives: brought in and weighed in %.2f s; due --json afterwards %.2f times, due %.2f times as"
                        + " long as without%n",
                RIDERS,
                LIVES,
                first,
                with / without,
                withShort / withoutShort);
    }

    private void assertArrayEqualsKept(byte[] kept) throws IOException {
        assertTrue(Arrays.equals(kept, Files.readAllBytes(kept())), "kept anew");
    }

    /** A ring for each rider of the file who has lives of the product, and a row of figures for each ring. */
    @Test
    void thePagePlotsLivesWithRidersAsRings() throws IOException {
        Path page = folder.resolve("page.html");
        run("page", "-o", page.toString());
        assertFalse(Files.readString(page).contains("another rider"));
        add();
        long moss = Files.readAllLines(club).stream()
                .filter(line -> line.contains("\"end\"") && line.contains("\"Moss\""))
                .map(line -> line.substring(0, line.indexOf(',')))
                .distinct()
                .count();
        run("page", "-o", page.toString());
        String html = Files.readString(page);
        // Drawn for a desk and for a hand.
        assertEquals(2 * moss, html.split("another rider: ", -1).length - 1);
        assertTrue(html.contains("A ring is another rider"), html);
        String table = html.substring(html.indexOf("Other riders, a row for each"));
        assertEquals(moss, table.substring(0, table.indexOf("</table>")).split("Moss", -1).length - 1);
    }

    @Test
    void itIsMadeAnewWhereWhatItFollowsFromChanges() throws IOException {
        add();
        for (String line : List.of(
                "factors set riders.spread 0.3", "product same Moss Thistle", "product add Teasel --method drip-wax")) {
            byte[] kept = Files.readAllBytes(kept());
            run(SmallSeason.split(line).toArray(String[]::new));
            assertEquals(fresh("due", "--json").out(), run("due", "--json").out(), line);
            assertFalse(Arrays.equals(kept, Files.readAllBytes(kept())), line);
        }
    }

    @Test
    void whatIsDamagedOrWrongIsNotTaken() throws IOException {
        add();
        String told = run("due", "--json").out();
        byte[] bytes = Files.readAllBytes(kept());
        bytes[bytes.length / 2] ^= 4;
        Files.write(kept(), bytes);
        assertEquals(told, run("due", "--json").out());
        assertFalse(
                run("check").out().contains("remembered"), () -> run("check").toString());
    }
}
