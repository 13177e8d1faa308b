package chainage.trust;

import chainage.bench.RideMaker;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.TimeUnit;

/**
 * A disk that fills up at any moment, and places that may not be written. Each command says so in one line with the right
 * exit code, the ledger stays sound, and the same command completes once there is room.
 */
final class DiskTrial implements Trial {
    private static final int FILES = 450;

    private final List<Tried> table = new ArrayList<>();
    private Path given = Path.of("");
    private Path rides = Path.of("");
    private Path season = Path.of("");

    @Override
    public List<Tried> on(Site site) throws Exception {
        given = site.folder("disk-given");
        rides = given.resolve("rides");
        RideMaker.fill(rides, RideMaker::ride, "fit", FILES, 3_600, 60);
        season = given.resolve("ledger.sqlite");
        Program program = site.on(season);
        program.must("import", rides.resolve("000").toString());
        program.must("bike", "add", "Dunlin");
        program.must("chain", "add", "Amber", "--speeds", "11");
        program.must("install", "Amber", "Dunlin", "--on", "2024-01-01");
        limits(site);
        full(site);
        unwritable(site);
        answerThatCannotBeWritten(site);
        return table;
    }

    /**
     * A command that writes.
     *
     * @param room bytes that are more than enough for it
     */
    private record Job(String what, boolean fresh, int room, List<String> words) {
        String[] array() {
            return words.toArray(String[]::new);
        }
    }

    private List<Job> jobs() {
        return List.of(
                new Job("import", true, 2_000_000, List.of("import", rides.toString())),
                new Job("import onto a season", false, 1_600_000, List.of("import", rides.toString())),
                new Job(
                        "treat",
                        false,
                        150_000,
                        List.of("treat", "Amber", "hot-wax", "--cleaning", "deep", "--on", "2024-01-02")),
                new Job("tag", false, 150_000, List.of("tag", "2024-01-01..2024-01-10", "muddy")));
    }

    /**
     * No file may grow beyond a limit, not even the library that the program unpacks to reach its ledger: what a full
     * disk is to a process without privileges.
     */
    private void limits(Site site) throws IOException, InterruptedException {
        List<String> lost = new ArrayList<>();
        int tries = 0;
        for (Job job : jobs()) {
            Path calm = ledger(site, "calm", job);
            site.on(calm).must(job.array());
            String expected = Ledgers.facts(calm);
            Path ledger = ledger(site, "limited", job);
            tries++;
            Program.Ended ended = site.on(ledger)
                    .after("sh", "-c", "ulimit -f 100; exec \"$@\"", "sh")
                    .run(job.array());
            survived(site, ledger, job, expected, ended, job.what() + ": ", lost);
        }
        table.add(new Tried("no file may grow at all", tries, lost, ""));
    }

    private void survived(
            Site site, Path ledger, Job job, String expected, Program.Ended ended, String title, List<String> lost)
            throws IOException, InterruptedException {
        if (ended.code() != 0 && !(Set.of(73, 74).contains(ended.code()) && isOneLine(ended.err()))) {
            lost.add(title + ended);
        }
        try {
            if (ended.code() != 0) {
                // What was not written is written now; what was, is not written twice.
                boolean done = Files.exists(ledger) && Files.size(ledger) > 0 && isWritten(ledger, expected);
                if (!done || job.what().startsWith("import")) {
                    site.on(ledger).must(job.array());
                }
            }
            Ledgers.faults(ledger).forEach(f -> lost.add(title + f));
            String facts = Ledgers.facts(ledger);
            if (!facts.equals(expected)) {
                lost.add(title + Ledgers.difference(expected, facts));
            }
        } catch (IOException e) {
            lost.add(title + ended + " and then " + e);
        }
    }

    private static boolean isWritten(Path ledger, String expected) throws IOException {
        try {
            return Ledgers.facts(ledger).equals(expected);
        } catch (chainage.store.file.LedgerException e) {
            return false;
        }
    }

    private static boolean isOneLine(String err) {
        return err.startsWith("chainage: ") && err.strip().indexOf('\n') < 0 && err.contains("; ");
    }

    private Path ledger(Site site, String name, Job job) throws IOException {
        Path ledger = site.folder(name).resolve("ledger.sqlite");
        if (!job.fresh()) {
            Files.copy(season, ledger);
        }
        return ledger;
    }

    /** A real file system that fills up. */
    private void full(Site site) throws IOException, InterruptedException {
        String what = "a disk that fills up";
        Path disk = site.folder("small disk");
        if (!mount("-t", "tmpfs", "-o", "size=1m", "tmpfs", disk.toString())) {
            table.add(Tried.skipped(what, "no disk can be mounted here"));
            return;
        }
        try {
            Random random = site.random("full");
            for (Job job : jobs()) {
                Path calm = ledger(site, "calm", job);
                site.on(calm).must(job.array());
                String expected = Ledgers.facts(calm);
                List<String> lost = new ArrayList<>();
                int tries = site.times(3, 30);
                int refused = 0;
                for (int i = 0; i < tries; i++) {
                    mount("-o", "remount,size=64m", disk.toString());
                    for (Path left : list(disk)) {
                        Files.delete(left);
                    }
                    Path ledger = disk.resolve("ledger.sqlite");
                    if (!job.fresh()) {
                        Files.copy(season, ledger);
                    }
                    long size = (job.fresh() ? 16_384 : Files.size(ledger)) + random.nextInt(job.room());
                    mount("-o", "remount,size=" + size, disk.toString());
                    Program.Ended ended = site.on(ledger).run(job.array());
                    refused += ended.code() == 0 ? 0 : 1;
                    Program.Ended reader = site.on(ledger).run("due");
                    if (!Set.of(0, 73, 74).contains(reader.code())) {
                        lost.add(job.what() + ", due on the full disk: " + reader);
                    }
                    mount("-o", "remount,size=64m", disk.toString());
                    survived(site, ledger, job, expected, ended, job.what() + " on " + size + " bytes: ", lost);
                }
                table.add(new Tried(what + ": " + job.what(), tries, lost, refused + " times there was no room"));
            }
            copies(site, disk);
        } finally {
            run("umount", disk.toString());
        }
    }

    /** Backup and export onto the full disk leave nothing half done there. */
    private void copies(Site site, Path disk) throws IOException, InterruptedException {
        for (Path left : list(disk)) {
            Files.delete(left);
        }
        mount("-o", "remount,size=16k", disk.toString());
        List<String> lost = new ArrayList<>();
        for (List<String> words : List.of(
                List.of("backup", disk.resolve("copy.sqlite").toString()),
                List.of("export", "-o", disk.resolve("facts.jsonl").toString()))) {
            Program.Ended ended = site.on(season).run(words.toArray(String[]::new));
            if (ended.code() != 74 || !isOneLine(ended.err())) {
                lost.add(words.get(0) + ": " + ended);
            }
            List<Path> left = list(disk);
            if (!left.isEmpty()) {
                lost.add(words.get(0) + " left " + left);
            }
        }
        table.add(new Tried("backup and export onto a full disk leave nothing half done", 2, lost, ""));
    }

    /** Places that may not be written, in the ways a machine has for that. */
    private void unwritable(Site site) throws IOException, InterruptedException {
        String what = "a ledger that may not be written: read, and refused to writers";
        Path folder = site.folder("mine");
        Path ledger = folder.resolve("ledger.sqlite");
        Files.copy(season, ledger);
        String expected = Ledgers.facts(ledger);
        Program program = site.on(ledger);
        List<String> lost = new ArrayList<>();
        int tried = 0;
        StringBuilder not = new StringBuilder();
        if (mount("--bind", folder.toString(), folder.toString())
                && mount("-o", "remount,bind,ro", folder.toString())) {
            tried += readersGoOn(program, "read-only disk", lost);
            run("umount", folder.toString());
        } else {
            not.append("no read-only disk; ");
        }
        if (run("chattr", "+i", ledger.toString()) == 0) {
            tried += readersGoOn(program, "immutable ledger", lost);
            run("chattr", "-i", ledger.toString());
        } else {
            not.append("no immutable file; ");
        }
        run("chmod", "a+rx", site.work().toString());
        Program nobody = site.isRoot()
                ? program.after("setpriv", "--reuid=65534", "--regid=65534", "--clear-groups", "--")
                : program;
        if (nobody.run("--version").code() == 0 || !site.isRoot()) {
            run("chmod", "-R", "a+rX,a-w", folder.toString());
            tried += readersGoOn(nobody, "permissions", lost);
            run("chmod", "-R", "a-r", ledger.toString());
            Program.Ended ended = nobody.run("due");
            tried++;
            if (ended.code() != 74 || !isOneLine(ended.err())) {
                lost.add("a ledger that may not be read: " + ended);
            }
            run("chmod", "-R", "u+rwX", folder.toString());
            tried += unreadable(site, nobody, lost);
        } else {
            not.append("no other user");
        }
        if (!Ledgers.facts(ledger).equals(expected)) {
            lost.add("the ledger is not what it was");
        }
        table.add(new Tried(what, tried, lost, not.toString()));
    }

    private static int readersGoOn(Program program, String how, List<String> lost)
            throws IOException, InterruptedException {
        for (String reader : List.of("due", "rides", "check", "export")) {
            Program.Ended ended = program.run(reader);
            if (ended.code() != 0) {
                lost.add(how + ", " + reader + ": " + ended);
            }
        }
        for (List<String> words : List.of(
                List.of("treat", "Amber", "hot-wax", "--cleaning", "deep", "--on", "2024-01-02"),
                List.of("import", "/etc/hostname"),
                List.of("undo"))) {
            Program.Ended ended = program.run(words.toArray(String[]::new));
            if (ended.code() != 73 || !isOneLine(ended.err())) {
                lost.add(how + ", " + words.get(0) + ": " + ended);
            }
        }
        return 7;
    }

    /** Files and folders that may not be read are named; all others come in. */
    private int unreadable(Site site, Program nobody, List<String> lost) throws IOException, InterruptedException {
        Path closed = site.folder("closed");
        Site.copy(rides.resolve("000"), closed.resolve("open"));
        Files.createDirectories(closed.resolve("shut"));
        Files.copy(rides.resolve("001/00100.fit"), closed.resolve("shut/00100.fit"));
        Files.copy(rides.resolve("001/00101.fit"), closed.resolve("open/secret.fit"));
        run("chmod", "-R", "a+rX", site.work().toString());
        run(
                "chmod",
                "000",
                closed.resolve("shut").toString(),
                closed.resolve("open/secret.fit").toString());
        Path own = site.folder("own");
        run("chmod", "777", own.toString());
        Program program = new Program(nobody.file(), own.resolve("ledger.sqlite"), nobody.prefix(), nobody.scratch());
        Program.Ended ended = program.run("import", closed.toString());
        if (ended.code() != 65
                || ended.err().lines().count() != 2
                || !ended.out().contains("100 rides")) {
            lost.add("unreadable entries: " + ended + " " + ended.out());
        }
        run(
                "chmod",
                "755",
                closed.resolve("shut").toString(),
                closed.resolve("open/secret.fit").toString());
        String again = program.must("import", closed.toString());
        if (!again.contains("2 rides")) {
            lost.add("entries that may be read now: " + again);
        }
        return 2;
    }

    /** Standard output on a device that is always full. */
    private void answerThatCannotBeWritten(Site site) throws IOException, InterruptedException {
        List<String> lost = new ArrayList<>();
        Path ledger = season;
        for (String reader : List.of("export", "rides", "due")) {
            Program.Ended ended = site.on(ledger)
                    .after("sh", "-c", "exec \"$@\" >/dev/full", "sh")
                    .run(reader);
            if (ended.code() != 74 || !isOneLine(ended.err())) {
                lost.add(reader + ": " + ended);
            }
        }
        table.add(new Tried("an answer onto a full disk is no success", 3, lost, ""));
    }

    private static boolean mount(String... words) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>(List.of("mount"));
        command.addAll(List.of(words));
        return run(command.toArray(String[]::new)) == 0;
    }

    /** Runs a tool of the system; its exit code, 127 where there is none. */
    static int run(String... command) throws InterruptedException {
        try {
            Process process = new ProcessBuilder(command)
                    .redirectErrorStream(true)
                    .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                    .start();
            return process.waitFor(1, TimeUnit.MINUTES) ? process.exitValue() : 127;
        } catch (IOException e) {
            return 127;
        }
    }

    private static List<Path> list(Path folder) throws IOException {
        try (var files = Files.list(folder)) {
            return files.toList();
        }
    }
}
