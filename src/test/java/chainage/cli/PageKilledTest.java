package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.store.LedgerFile;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Collectors;
import org.jsoup.Jsoup;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A program that serves the page is killed while forms are sent: each change is in the ledger whole, or not at all. */
@Timeout(value = 60, unit = TimeUnit.MINUTES)
class PageKilledTest {
    private static final int KILLS = Integer.getInteger("page.kills", 4);

    /** Until it is killed so many milliseconds pass at most from the first form that was answered. */
    private static final int PATIENCE = 300;

    @TempDir
    Path dir = Path.of("");

    @Test
    void everyChangeIsWholeOrNotThere() throws Exception {
        Path season = dir.resolve("season.sqlite");
        for (String line : List.of(
                "bike add Dunlin",
                "chain add Amber --speeds 11",
                "chain add Ochre --speeds 11",
                "install Amber Dunlin --on 2026-03-01")) {
            assertEquals(
                    0, Run.of(("--ledger " + season + " " + line).split(" ")).code(), line);
        }
        Random random = new Random(1);
        int begun = 0;
        for (int kill = 0; kill < KILLS; kill++) {
            Path ledger = Files.createDirectory(dir.resolve("kill-" + kill)).resolve("ledger.sqlite");
            Files.copy(season, ledger);
            int answered = served(ledger, random.nextInt(PATIENCE));
            List<Entry> entries;
            try (LedgerFile file = LedgerFile.open(ledger)) {
                assertEquals(List.of(), file.integrityCheck(), "kill " + kill);
                entries = file.load().entries();
            }
            // Both chains of a session, under one command, or neither.
            Map<Long, Long> sessions = entries.stream()
                    .filter(e -> e.event() instanceof Event.Treated)
                    .collect(Collectors.groupingBy(Entry::command, Collectors.counting()));
            assertTrue(sessions.values().stream().allMatch(n -> n == 2), "kill " + kill + ": " + sessions);
            assertTrue(
                    sessions.size() == answered || sessions.size() == answered + 1,
                    "kill " + kill + ": " + answered + " answered, " + sessions.size() + " kept");
            assertEquals(List.of(), Ledger.of(entries).problems(), "kill " + kill);
            begun += sessions.size();
            Run after = Run.of("--ledger", ledger.toString(), "treat", "Amber", "Ochre", "hot-wax");
            assertEquals(0, after.code(), after.err());
        }
        assertTrue(begun >= KILLS, begun + " changes");
    }

    /** Serves a ledger, sends changes one after the other, and kills it; how many were answered. */
    private int served(Path ledger, int patience) throws Exception {
        Process process = new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "--enable-native-access=ALL-UNNAMED",
                        "-cp",
                        System.getProperty("java.class.path"),
                        Main.class.getName(),
                        "--ledger",
                        ledger.toString(),
                        "page",
                        "--no-open")
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .start();
        try (BufferedReader said =
                new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))) {
            String address = String.valueOf(said.readLine());
            String site = address.replaceFirst("\\?.*", "");
            HttpClient client = HttpClient.newHttpClient();
            HttpResponse<String> entered = client.send(
                    HttpRequest.newBuilder(URI.create(address)).build(), HttpResponse.BodyHandlers.ofString());
            String cookie =
                    entered.headers().firstValue("Set-Cookie").orElseThrow().replaceFirst(";.*", "");
            String page = client.send(
                            HttpRequest.newBuilder(URI.create(site))
                                    .header("Cookie", cookie)
                                    .build(),
                            HttpResponse.BodyHandlers.ofString())
                    .body();
            String token = Jsoup.parse(page).select("input[name=token]").get(0).attr("value");
            HttpRequest change = HttpRequest.newBuilder(URI.create(site + "do"))
                    .header("Cookie", cookie)
                    .header("Origin", site.replaceFirst("(http://[^/]*)/.*", "$1"))
                    .header("Content-Type", "application/x-www-form-urlencoded")
                    .POST(HttpRequest.BodyPublishers.ofString(
                            "form=treat&chain=Amber&chain=Ochre&product=hot-wax&cleaning=deep&token=" + token))
                    .build();
            AtomicInteger answered = new AtomicInteger();
            send(client, change, answered);
            assertEquals(1, answered.get(), "the first form was refused");
            Thread sender = new Thread(() -> {
                try {
                    while (answered.get() < 1000) {
                        send(client, change, answered);
                    }
                } catch (IOException killed) {
                    // As it was to be.
                } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                }
            });
            sender.start();
            sender.join(patience + 1L);
            process.destroyForcibly().waitFor();
            sender.join();
            return answered.get();
        } finally {
            process.destroyForcibly().waitFor();
        }
    }

    private static void send(HttpClient client, HttpRequest change, AtomicInteger answered)
            throws IOException, InterruptedException {
        int status = client.send(change, HttpResponse.BodyHandlers.discarding()).statusCode();
        if (status != 303) {
            throw new IOException("answered " + status);
        }
        answered.incrementAndGet();
    }
}
