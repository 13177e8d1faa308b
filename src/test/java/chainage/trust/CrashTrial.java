package chainage.trust;

import chainage.bench.RideMaker;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

/**
 * Kills the program at random moments of commands that write. Afterwards the file is sound, the command run again
 * completes, and all facts are those of a run that no one disturbed.
 */
final class CrashTrial implements Trial {
    private static final int FILES = 900;
    private static final int REPORTS = 6_000;

    /** How a command is tried: from what, and whether a second run may add to what a first one did. */
    private record Victim(String what, Path before, boolean repeatable, List<String> words) {
        /** An upgrade is a transaction of its own: what was there is whole before the command's one fact is stated. */
        boolean upgraded(int size, int whole) {
            return what.equals("upgrade") && size == whole - 1;
        }
    }

    @Override
    public List<Tried> on(Site site) throws Exception {
        Path given = site.folder("crash-given");
        Path rides = given.resolve("rides");
        RideMaker.fill(rides, RideMaker::ride, "fit", FILES, 3_600, 60);
        Path reports = given.resolve("metar-2024-01.txt");
        Files.writeString(reports, reports());
        Path none = given.resolve("none");
        Path season = prepared(site, given.resolve("season/ledger.sqlite"), rides);
        Path notes = Files.createDirectories(given.resolve("notes")).resolve("notes.txt");
        Files.writeString(notes, notes());
        Path old = Files.createDirectories(given.resolve("old")).resolve("ledger.sqlite");
        Files.copy(Path.of("src/test/resources/ledgers/version-1.sqlite"), old);
        List<Victim> victims = List.of(
                new Victim("import", none, true, List.of("import", rides.toString())),
                new Victim("treat", season, false, words("treat Amber hot-wax --cleaning deep --on 2024-01-20")),
                new Victim("tag", season, false, words("tag 2024-01-03..2024-01-30 muddy")),
                new Victim("undo", season, false, words("undo")),
                new Victim("read a logbook", season, false, List.of("import", notes.toString())),
                new Victim("weather add", season, true, List.of("weather", "add", reports.toString())),
                new Victim("upgrade", old, false, words("remark Amber noisy --on 2026-03-20")));
        List<Tried> table = new ArrayList<>();
        for (Victim victim : victims) {
            table.add(kill(site, victim, site.times(5, 55)));
        }
        return table;
    }

    private static List<String> words(String line) {
        return List.of(line.split(" ", -1));
    }

    private static String reports() {
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < REPORTS; i++) {
            text.append(String.format(
                    java.util.Locale.ROOT,
                    "METAR X%c%c%c %02d%02d%02dZ 24008KT 9999 RA SCT020 11/09 Q1012=%n",
                    'A' + i / 720 % 26,
                    'A' + i / 720 / 26,
                    'A',
                    1 + i % 720 / 24,
                    i % 24,
                    20));
        }
        return text.toString();
    }

    /** Two thousand lines, so that a reading takes a while. */
    private static String notes() {
        StringBuilder text = new StringBuilder("chainage logbook\n");
        for (int i = 0; i < 2_000; i++) {
            text.append(java.time.LocalDate.of(2024, 1, 3).plusDays(i % 700))
                    .append(i % 7 == 0 ? " treat Amber hot-wax --cleaning deep" : " remark Amber note n" + i)
                    .append('\n');
        }
        return text.toString();
    }

    private static Path prepared(Site site, Path ledger, Path rides) throws IOException, InterruptedException {
        Program program = site.on(ledger);
        program.must("import", rides.toString());
        program.must("bike", "add", "Dunlin");
        program.must("chain", "add", "Amber", "--speeds", "11");
        program.must("install", "Amber", "Dunlin", "--on", "2024-01-01");
        program.must("treat", "Amber", "hot-wax", "--cleaning", "deep", "--on", "2024-01-02");
        return ledger;
    }

    private static Tried kill(Site site, Victim victim, int kills) throws IOException, InterruptedException {
        Random random = site.random(victim.what());
        String[] words = victim.words().toArray(String[]::new);
        Path calm = fresh(site, victim);
        long from = System.nanoTime();
        site.on(calm).must(words);
        long nanos = System.nanoTime() - from;
        String expected = Ledgers.facts(calm);
        List<String> lost = new ArrayList<>();
        int whole = size(calm, lost, victim.what());
        int start = size(victim.before(), lost, victim.what());
        int killed = 0;
        int begun = 0;
        int done = 0;
        for (int tries = 0; killed < kills && tries < 4 * kills; tries++) {
            Path ledger = fresh(site, victim);
            Process process = site.on(ledger).start(words).process();
            // Half of the kills wait until the ledger's log is written to: that is the moment that matters.
            boolean atWriting = random.nextBoolean();
            long patience = atWriting ? random.nextLong(30_000_000) : random.nextLong(nanos);
            boolean ended = atWriting && awaitWriting(process, ledger);
            if (ended || process.waitFor(patience, TimeUnit.NANOSECONDS)) {
                continue; // it was faster
            }
            process.destroyForcibly().waitFor();
            killed++;
            String title = "kill " + killed + " of " + victim.what() + ": ";
            try {
                int size = size(ledger, lost, title);
                boolean part = size > start && size < whole;
                begun += part ? 1 : 0;
                if (part && !victim.repeatable() && !victim.upgraded(size, whole)) {
                    lost.add(title + "a part was written: " + (size - start) + " of " + (whole - start) + " facts");
                }
                boolean complete = size != start && size == whole;
                done += complete ? 1 : 0;
                if (victim.repeatable() || !complete) {
                    site.on(ledger).must(words);
                }
                String facts = Ledgers.facts(ledger);
                if (!facts.equals(expected)) {
                    lost.add(title + Ledgers.difference(expected, facts));
                }
                Ledgers.faults(ledger).forEach(f -> lost.add(title + "afterwards " + f));
                copiesAreSound(ledger, lost, title);
            } catch (IOException e) {
                lost.add(title + e);
            }
        }
        if (killed < kills) {
            lost.add("only " + killed + " of " + kills + " kills came in time");
        }
        return new Tried(
                "killed while it runs: " + victim.what(),
                killed,
                lost,
                begun + " had written a part, " + done + " all");
    }

    /** Waits until something was written; true when the process ended before. */
    private static boolean awaitWriting(Process process, Path ledger) throws IOException, InterruptedException {
        Path log = ledger.resolveSibling(ledger.getFileName() + "-wal");
        while (!Files.exists(log) || Files.size(log) == 0) {
            if (process.waitFor(1, TimeUnit.MILLISECONDS)) {
                return true;
            }
        }
        return false;
    }

    /** How many facts a sound ledger holds; 0 where there is none, -1 before its schema is there. */
    private static int size(Path ledger, List<String> lost, String title) throws IOException {
        if (!Files.exists(ledger) || Files.size(ledger) == 0) {
            return 0;
        }
        try {
            Ledgers.faults(ledger).forEach(f -> lost.add(title + f));
            return Ledgers.size(ledger);
        } catch (chainage.store.file.LedgerException e) {
            if (e.kind() == chainage.store.file.LedgerException.Kind.READ_ONLY) {
                return -1; // the next command that writes makes it
            }
            throw e;
        }
    }

    /** A copy beside an upgraded ledger is one a rider may fall back on, so it must open. */
    private static void copiesAreSound(Path ledger, List<String> lost, String title) throws IOException {
        try (Stream<Path> beside = Files.list(ledger.getParent())) {
            for (Path copy : beside.filter(p -> p.getFileName().toString().contains(".version-"))
                    .filter(p -> !p.toString().endsWith("-wal") && !p.toString().endsWith("-shm"))
                    .toList()) {
                try (chainage.store.LedgerFile file = chainage.store.LedgerFile.open(copy)) {
                    file.integrityCheck().forEach(f -> lost.add(title + copy.getFileName() + ": " + f));
                    if (file.load().entries().isEmpty()) {
                        lost.add(title + copy.getFileName() + " is empty");
                    }
                } catch (IOException e) {
                    lost.add(title + e.getMessage());
                }
            }
        }
    }

    private static Path fresh(Site site, Victim victim) throws IOException {
        Path ledger = site.folder("crash").resolve("ledger.sqlite");
        if (Files.exists(victim.before())) {
            Files.copy(victim.before(), ledger);
        }
        return ledger;
    }
}
