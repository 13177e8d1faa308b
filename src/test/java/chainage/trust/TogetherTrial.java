package chainage.trust;

import chainage.bench.RideMaker;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/** Many processes on one ledger: what is left is what one alone would leave, and each ends well or says busy. */
final class TogetherTrial implements Trial {
    private static final int FILES = 500;
    private static final int MANY = 6_000;

    @Override
    public List<Tried> on(Site site) throws Exception {
        Path rides = site.folder("together-given").resolve("rides");
        RideMaker.fill(rides, RideMaker::ride, "fit", FILES, 3_600, 60);
        Path alone = site.folder("alone").resolve("ledger.sqlite");
        site.on(alone).must("import", rides.toString());
        String expected = Ledgers.facts(alone);
        List<Tried> table = new ArrayList<>();
        table.add(importers(site, rides, expected));
        table.add(writers(site));
        table.add(upgraders(site));
        table.add(backups(site, rides));
        table.add(backupsInTheMiddle(site));
        return table;
    }

    /**
     * Four that import the same folder into a ledger that none of them finds, and four that read meanwhile. A reader
     * that comes before the first importer has made the ledger says that there is none yet (66); an importer never
     * does, nor a reader that found the ledger there when it started.
     */
    private static Tried importers(Site site, Path rides, String expected) throws IOException, InterruptedException {
        List<String> lost = new ArrayList<>();
        int rounds = site.times(2, 20);
        int busy = 0;
        int early = 0;
        for (int round = 0; round < rounds; round++) {
            Path ledger = site.folder("together").resolve("ledger.sqlite");
            Program program = site.on(ledger);
            List<Program.Running> importers = new ArrayList<>();
            List<Program.Running> readers = new ArrayList<>();
            List<Program.Running> sure = new ArrayList<>();
            for (String reader : List.of("due", "rides", "check", "refused")) {
                importers.add(program.start("import", rides.toString()));
                boolean there = Files.exists(ledger);
                (there ? sure : readers).add(program.start(reader));
            }
            while (!Files.exists(ledger)
                    && importers.stream().anyMatch(i -> i.process().isAlive())) {
                Thread.onSpinWait();
            }
            for (String reader : List.of("due", "rides")) {
                sure.add(program.start(reader));
            }
            String title = "round " + round;
            busy += end(importers, Set.of(0, 75), title, lost);
            busy += end(sure, Set.of(0, 75), title, lost);
            for (Program.Running reader : readers) {
                Program.Ended ended = reader.end();
                boolean none = ended.code() == 66 && ended.toString().contains("there is no ledger at");
                early += none ? 1 : 0;
                busy += ended.code() == 75 ? 1 : 0;
                if (!none && ended.code() != 0 && ended.code() != 75) {
                    lost.add(title + ": " + ended);
                }
            }
            same(ledger, expected, title, lost);
        }
        return new Tried(
                "10 processes import and read at once",
                rounds,
                lost,
                busy + " said busy, " + early + " came before the ledger");
    }

    /** Each states a fact of its own; every one that was accepted is there. */
    private static Tried writers(Site site) throws IOException, InterruptedException {
        List<String> lost = new ArrayList<>();
        int rounds = site.times(1, 15);
        int busy = 0;
        for (int round = 0; round < rounds; round++) {
            Path ledger = site.folder("together").resolve("ledger.sqlite");
            Program program = site.on(ledger);
            List<Program.Running> running = new ArrayList<>();
            for (int i = 0; i < 8; i++) {
                running.add(program.start("chain", "add", "Chain " + i));
            }
            int refused = end(running, Set.of(0, 75), "round " + round, lost);
            busy += refused;
            String facts = Ledgers.facts(ledger);
            long there =
                    facts.lines().filter(l -> l.contains("chain-described")).count();
            if (there != 8 - refused) {
                lost.add("round " + round + ": " + there + " chains, " + refused + " said busy");
            }
            Ledgers.faults(ledger).forEach(lost::add);
        }
        return new Tried("8 processes state facts at once", rounds, lost, busy + " said busy");
    }

    private static Tried upgraders(Site site) throws IOException, InterruptedException {
        List<String> lost = new ArrayList<>();
        int rounds = site.times(1, 15);
        for (int round = 0; round < rounds; round++) {
            Path ledger = site.folder("together").resolve("ledger.sqlite");
            Files.copy(Path.of("src/test/resources/ledgers/version-1.sqlite"), ledger);
            Path other = Files.createDirectories(ledger.resolveSibling("none"));
            List<Program.Running> running = new ArrayList<>();
            for (int i = 0; i < 8; i++) {
                running.add(site.on(ledger).start("import", other.toString()));
            }
            end(running, Set.of(0, 75), "round " + round, lost);
            Ledgers.faults(ledger).forEach(lost::add);
        }
        return new Tried("8 processes upgrade a ledger at once", rounds, lost, "");
    }

    /** Backups made while an import runs are sound ledgers, each of some moment. */
    private static Tried backups(Site site, Path rides) throws IOException, InterruptedException {
        List<String> lost = new ArrayList<>();
        int rounds = site.times(1, 10);
        int copies = 0;
        int part = 0;
        for (int round = 0; round < rounds; round++) {
            Path ledger = site.folder("together").resolve("ledger.sqlite");
            Program program = site.on(ledger);
            program.must("bike", "add", "Dunlin");
            Program.Running importing = program.start("import", rides.toString());
            while (importing.process().isAlive()) {
                Path copy = ledger.resolveSibling("copy-" + copies++ + ".sqlite");
                program.must("backup", copy.toString());
                Ledgers.faults(copy).forEach(lost::add);
                int size = Ledgers.size(copy);
                part += size > 2 && size < 2 + FILES ? 1 : 0;
                // What a copy lacks, an import brings.
                site.on(copy).must("import", rides.toString());
                if (Ledgers.size(copy) != 2 + FILES) {
                    lost.add(copy + " lacks rides");
                }
            }
            end(List.of(importing), Set.of(0), "import " + round, lost);
        }
        return new Tried("backups while an import runs", copies, lost, part + " of them in its middle");
    }

    /** The import is stopped when it has written a part, wherever that finds it, and goes on after the backup. */
    private static Tried backupsInTheMiddle(Site site) throws IOException, InterruptedException {
        Path rides = site.folder("together-many").resolve("rides");
        RideMaker.fill(rides, RideMaker::ride, "fit", MANY, 3_600, 60);
        List<String> lost = new ArrayList<>();
        int rounds = site.times(2, 20);
        int middle = 0;
        // Some imports are done before they can be stopped; far fewer than every second one.
        for (int round = 0; middle < rounds && round < 3 * rounds; round++) {
            Path ledger = site.folder("together").resolve("ledger.sqlite");
            Program program = site.on(ledger);
            program.must("bike", "add", "Dunlin");
            int before = Ledgers.size(ledger);
            Program.Running importing = program.start("import", rides.toString());
            while (importing.process().isAlive() && Ledgers.size(ledger) == before) {
                Thread.onSpinWait();
            }
            signal("STOP", importing);
            int written = Ledgers.size(ledger);
            boolean part = written > before && written < before + MANY;
            Path copy = ledger.resolveSibling("copy.sqlite");
            if (part) {
                middle++;
                program.must("backup", copy.toString());
                Ledgers.faults(copy).forEach(lost::add);
                if (Ledgers.size(copy) != written) {
                    lost.add("round " + round + ": " + Ledgers.size(copy) + " in the copy, " + written
                            + " in the ledger");
                }
            }
            signal("CONT", importing);
            end(List.of(importing), Set.of(0), "import " + round, lost);
            Ledgers.faults(ledger).forEach(lost::add);
            if (Ledgers.size(ledger) != before + MANY) {
                lost.add("round " + round + ": " + Ledgers.size(ledger) + " after the import");
            }
        }
        if (middle < rounds) {
            lost.add("only " + middle + " of " + rounds + " imports could be stopped in their middle");
        }
        return new Tried("backups while an import stands still in its middle", middle, lost, "");
    }

    private static void signal(String name, Program.Running to) throws IOException, InterruptedException {
        new ProcessBuilder("kill", "-" + name, Long.toString(to.process().pid()))
                .start()
                .waitFor();
    }

    /** Waits for all; how many said busy. */
    private static int end(List<Program.Running> running, Set<Integer> codes, String title, List<String> lost)
            throws IOException, InterruptedException {
        int busy = 0;
        for (Program.Running r : running) {
            Program.Ended ended = r.end();
            busy += ended.code() == 75 ? 1 : 0;
            if (!codes.contains(ended.code())) {
                lost.add(title + ": " + ended);
            }
        }
        return busy;
    }

    private static void same(Path ledger, String expected, String title, List<String> lost) throws IOException {
        Ledgers.faults(ledger).forEach(f -> lost.add(title + ": " + f));
        String facts = Ledgers.facts(ledger);
        if (!facts.equals(expected)) {
            lost.add(title + ": " + Ledgers.difference(expected, facts));
        }
    }
}
