package chainage.trust;

import chainage.bench.RideMaker;
import chainage.cli.Run;
import chainage.importer.Members;
import chainage.ledger.Event;
import chainage.store.KilledWriter;
import chainage.store.LedgerFile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;

/**
 * What stands in a ledger's place or beside it, and one content in several parts: copies put back beside the log of a
 * killed writer, other names of a ledger, gzip files of several members. All of it but the killed writers is run in one
 * process.
 */
final class BesideTrial implements Trial {
    private static final Instant NOW = Instant.parse("2026-03-01T08:00:00Z");

    /** Old enough not to be taken for a file that is still being written. */
    private static final FileTime OLD = FileTime.from(Instant.parse("2026-01-01T00:00:00Z"));

    /** So many copies are put back beside each log. */
    private static final int COPIES = 20;

    private static final int FILES = 20;

    /** Where what reads for us has its bounds. */
    private static final int READ = 65_536;

    @Override
    public List<Tried> on(Site site) throws Exception {
        return List.of(putBack(site), links(site), together(site), members(site));
    }

    /** The facts are those of the copy, and the log is kept; beside its own file it is played. */
    private static Tried putBack(Site site) throws IOException, InterruptedException {
        Random random = site.random("put-back");
        List<String> lost = new ArrayList<>();
        int rounds = site.times(40, 400);
        int tried = 0;
        while (tried < rounds) {
            Path folder = site.folder("put-back");
            Path ledger = folder.resolve("ledger.sqlite");
            List<Path> copies = new ArrayList<>();
            List<String> states = new ArrayList<>();
            for (int n = 0; n < COPIES; n++) {
                append(ledger, 1 + random.nextInt(12));
                Path copy = folder.resolve("copy-" + n);
                if (random.nextBoolean()) {
                    Files.copy(ledger, copy);
                } else {
                    try (LedgerFile file = LedgerFile.openReadOnly(ledger)) {
                        file.backup(copy);
                    }
                }
                copies.add(copy);
                states.add(Ledgers.facts(ledger));
            }
            append(ledger, 1);
            long written;
            try (KilledWriter writer = KilledWriter.start(ledger, 400, "store")) {
                written = writer.await(2 + random.nextInt(200));
                written = Math.max(written, writer.kill());
            }
            byte[] file = Files.readAllBytes(ledger);
            byte[] log = Files.readAllBytes(Path.of(ledger + "-wal"));
            for (int n = 0; n < COPIES; n++, tried++) {
                Files.copy(copies.get(n), ledger, StandardCopyOption.REPLACE_EXISTING);
                Files.write(Path.of(ledger + "-wal"), log);
                Files.deleteIfExists(Path.of(ledger + "-shm"));
                if (!Ledgers.facts(ledger).equals(states.get(n))) {
                    lost.add("copy " + n + " of " + tried + " is not as it was");
                }
                Path aside = Path.of(ledger + ".other" + (n == 0 ? "" : "." + (n + 1)) + "-wal");
                if (!Files.exists(aside) || !Arrays.equals(log, Files.readAllBytes(aside))) {
                    lost.add("copy " + n + " of " + tried + ": the log is gone");
                }
            }
            Files.write(ledger, file);
            Files.write(Path.of(ledger + "-wal"), log);
            Files.deleteIfExists(Path.of(ledger + "-shm"));
            int facts = entries(ledger);
            if (facts < written) {
                lost.add(facts + " of " + written + " facts beside their own log");
            }
        }
        return new Tried("copies put back beside the log of a killed writer", tried, lost, "");
    }

    /** A second name is refused, to read and to write; a link to nowhere makes a private ledger where it leads. */
    private static Tried links(Site site) throws IOException {
        Random random = site.random("links");
        List<String> lost = new ArrayList<>();
        int rounds = site.times(60, 600);
        for (int round = 0; round < rounds; round++) {
            Path folder = site.folder("links");
            Path real = Files.createDirectories(folder.resolve("kept")).resolve("ledger.sqlite");
            int facts = 1 + random.nextInt(4);
            boolean dangling = random.nextBoolean();
            Path link = folder.resolve("a.sqlite");
            Files.createSymbolicLink(link, random.nextBoolean() ? real : folder.relativize(real));
            if (!dangling) {
                append(real, facts);
            }
            for (int hop = random.nextInt(3); hop > 0; hop--) {
                link = Files.createSymbolicLink(folder.resolve("link-" + hop), link);
            }
            if (dangling) {
                append(link, facts);
                String mode = PosixFilePermissions.toString(Files.getPosixFilePermissions(real));
                if (!mode.equals("rw-------") || !Files.isSymbolicLink(link)) {
                    lost.add("round " + round + ": made through a link as " + mode);
                }
            }
            Path second = Files.createLink(folder.resolve("second.sqlite"), real);
            byte[] before = Files.readAllBytes(real);
            for (Path name : List.of(real, second, link)) {
                for (String command : List.of("due", "undo")) {
                    Run run = Run.of(command, "--ledger", name.toString());
                    if (run.code() != 78 || !run.err().contains("hard links")) {
                        lost.add("round " + round + ": " + command + " on " + name + ": " + run);
                    }
                }
            }
            if (!Arrays.equals(before, Files.readAllBytes(real))) {
                lost.add("round " + round + ": what was refused was changed");
            }
            Files.delete(second);
            append(link, 1);
            if (entries(real) != facts + 1) {
                lost.add("round " + round + ": " + entries(real) + " facts of " + (facts + 1));
            }
        }
        return new Tried("ledgers under a second name, behind links, and links to nowhere yet", rounds, lost, "");
    }

    /** Two processes, one by the ledger's own name and one by a link: all facts of both, but for a kill. */
    private static Tried together(Site site) throws IOException, InterruptedException {
        Random random = site.random("links-together");
        List<String> lost = new ArrayList<>();
        int rounds = site.times(3, 20);
        for (int round = 0; round < rounds; round++) {
            Path folder = site.folder("links-together");
            Path real = folder.resolve("ledger.sqlite");
            append(real, 1);
            Path link = Files.createSymbolicLink(folder.resolve("link.sqlite"), real);
            int facts = 5 + random.nextInt(20);
            try (KilledWriter one = KilledWriter.start(real, facts, "store");
                    KilledWriter two = KilledWriter.start(link, facts, "store")) {
                one.await();
                two.await();
                one.kill();
                two.kill();
            }
            if (entries(real) != 1 + 2 * facts || !Ledgers.faults(real).isEmpty()) {
                lost.add("round " + round + ": " + entries(real) + " facts of " + (1 + 2 * facts));
            }
        }
        return new Tried("two processes at once, one of them through a link, then killed", rounds, lost, "");
    }

    /** In however many members a ride comes, and wherever they end, it is the ride; cut anywhere else, it is told. */
    private static Tried members(Site site) throws IOException {
        Random random = site.random("members");
        List<String> lost = new ArrayList<>();
        int rounds = site.times(6, 50);
        int cuts = 0;
        for (int round = 0; round < rounds; round++) {
            Path plain = site.folder("members-plain");
            Path packed = site.folder("members-packed");
            Path torn = site.folder("members-torn");
            for (int n = 0; n < FILES; n++) {
                byte[] ride = RideMaker.ride(n, n * 86_400L, 600 + random.nextInt(9_000));
                byte[] gzip = packed(ride, random);
                write(plain.resolve(n + ".fit"), ride);
                write(packed.resolve(n + ".fit.gz"), gzip);
                int length = 1 + random.nextInt(gzip.length - 1);
                write(torn.resolve(n + ".fit.gz"), Arrays.copyOf(gzip, length));
            }
            Path one = site.folder("members-ledgers").resolve("plain.sqlite");
            Path two = one.resolveSibling("packed.sqlite");
            Path three = one.resolveSibling("torn.sqlite");
            Run whole = Run.of("import", packed.toString(), "--ledger", two.toString());
            Run.of("import", plain.toString(), "--ledger", one.toString());
            if (whole.code() != 0 || rides(one).size() != FILES || !rides(one).equals(rides(two))) {
                lost.add("round " + round + ": not the same rides: " + whole);
            }
            Run told = Run.of("import", torn.toString(), "--ledger", three.toString());
            Run refused = Run.of("refused", "--ledger", three.toString());
            try (Stream<Path> files = Files.list(torn)) {
                for (Path file : files.toList()) {
                    cuts++;
                    if (!(told.out() + told.err() + refused.out()).contains(String.valueOf(file.getFileName()))
                            && !isWhole(file, packed)) {
                        lost.add("round " + round + ": nothing is said of " + file.getFileName() + ": " + told);
                    }
                }
            }
        }
        return new Tried(
                "rides in gzip files of several members, then each cut anywhere", rounds * FILES + cuts, lost, "");
    }

    /** Cut to a byte that holds nothing but what may follow the last member. */
    private static boolean isWhole(Path cut, Path packed) throws IOException {
        return Files.size(cut) == Files.size(packed.resolve(cut.getFileName()));
    }

    /** In one to five members, some stored so that one ends about where a read does. */
    private static byte[] packed(byte[] content, Random random) {
        byte[] gzip = new byte[0];
        int from = 0;
        for (int members = random.nextInt(5); members > 0 && from < content.length; members--) {
            int to = from + random.nextInt(content.length - from + 1);
            int bound = (gzip.length / READ + 1) * READ - gzip.length - 23 + random.nextInt(21) - 10;
            boolean stored = bound > 0 && from + bound < content.length && random.nextBoolean();
            to = stored ? from + bound : to;
            gzip = Members.joined(
                    gzip, Members.member(Arrays.copyOfRange(content, from, to), stored ? 0 : 6, 0, new byte[0]));
            from = to;
        }
        return Members.joined(
                gzip, Members.member(Arrays.copyOfRange(content, from, content.length), 6, 0, new byte[0]));
    }

    private static void write(Path file, byte[] content) throws IOException {
        Files.write(file, content);
        Files.setLastModifiedTime(file, OLD);
    }

    private static List<String> rides(Path ledger) throws IOException {
        return Ledgers.facts(ledger)
                .lines()
                .filter(l -> l.startsWith("{\"ride\""))
                .toList();
    }

    private static void append(Path ledger, int facts) throws IOException {
        try (LedgerFile file = LedgerFile.open(ledger)) {
            for (int n = 0; n < facts; n++) {
                file.append(List.of(new Event.Undone(1)), NOW);
            }
        }
    }

    private static int entries(Path ledger) throws IOException {
        try (LedgerFile file = LedgerFile.openReadOnly(ledger)) {
            return file.entries().size();
        }
    }
}
