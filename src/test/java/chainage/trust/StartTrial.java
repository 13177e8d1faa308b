package chainage.trust;

import chainage.store.file.Seal;
import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * What is put by for a quick start: damaged, prepared by others, half made. The answer is that of a start without it, no
 * crash and no trace of one; damage is mended behind the next run's back.
 */
final class StartTrial implements Trial {
    private static final String ARCHIVE = "classes.jsa";
    private static final int NOBODY = 65534;

    private Path ledger = Path.of("");
    private Path kept = Path.of("");
    private Path whole = Path.of("");
    private Path quiet = Path.of("");
    private String library = "";
    private String expected = "";

    @Override
    public List<Tried> on(Site site) throws Exception {
        Path season = site.folder("start-season");
        site.on(season.resolve("none"))
                .must("demo", "--folder", season.resolve("demo").toString());
        ledger = season.resolve("demo/ledger.sqlite");
        quiet = site.folder("start-here");
        Path cache = site.folder("start-cache");
        kept = Path.of(cache + "/chainage/start" + site.program());
        expected = due(site, site.folder("start-no-cache"), "INVOCATION_ID=1").out();
        make(site).waitFor();
        whole = site.folder("start-whole");
        Site.copy(kept, whole);
        library = Seal.read(whole).sums().keySet().stream()
                .filter(n -> !n.equals(ARCHIVE))
                .findFirst()
                .orElseThrow();
        return List.of(damaged(site, cache), mended(site, cache), killed(site), others(site, cache));
    }

    /** Asks what is due, in a folder where a crash would leave its log; INVOCATION_ID lets nothing be made behind. */
    private Program.Ended due(Site site, Path cache, String also) throws IOException, InterruptedException {
        return site.on(ledger)
                .after("sh", "-c", "cd '" + quiet + "' && exec env \"$@\"", "sh", "XDG_CACHE_HOME=" + cache, also)
                .run("--at", "2026-08-31T20:00Z", "due");
    }

    private void isCalm(Program.Ended ended, String how, List<String> lost) throws IOException {
        if (ended.code() != 0 || !ended.err().isEmpty() || !ended.out().equals(expected)) {
            lost.add(how + ": " + ended);
        }
        for (String left : names(quiet)) {
            lost.add(how + " left " + left);
            Files.delete(quiet.resolve(left));
        }
    }

    private Process make(Site site) throws IOException {
        return new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin/java").toString(),
                        "-cp",
                        site.program().toString(),
                        "chainage.cli.Practice",
                        "make",
                        kept.toString(),
                        site.program().toString())
                .redirectErrorStream(true)
                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                .start();
    }

    /** Harm to a file, by name. */
    private record Harm(String what, Doing doing) {}

    private interface Doing {
        void to(Path file) throws IOException;
    }

    private List<Harm> harms(Site site, String name) {
        Random random = site.random("start " + name);
        List<Harm> harms = new ArrayList<>();
        harms.add(new Harm("emptied", file -> cut(file, 0)));
        harms.add(new Harm("cut to half", file -> cut(file, Files.size(file) / 2)));
        harms.add(new Harm("one byte short", file -> cut(file, Files.size(file) - 1)));
        harms.add(new Harm("zeroed", file -> overwrite(file, 0, new byte[(int) Files.size(file)])));
        harms.add(new Harm("zeroed from the middle", file -> {
            int half = (int) Files.size(file) / 2;
            overwrite(file, half, new byte[half]);
        }));
        harms.add(new Harm("replaced", file -> {
            byte[] other = new byte[(int) Files.size(file)];
            random.nextBytes(other);
            overwrite(file, 0, other);
        }));
        harms.add(new Harm("gone", Files::delete));
        harms.add(new Harm(
                "swapped",
                file -> Files.write(
                        file, Files.readAllBytes(whole.resolve(name.equals(ARCHIVE) ? library : ARCHIVE)))));
        for (int i = 0; i < site.times(4, 60); i++) {
            harms.add(new Harm("a bit turned", file -> {
                // Half of them near the beginning, where the file says what it holds.
                long size = Files.size(file);
                long at = random.nextBoolean() ? random.nextInt(4_096) % size : (long) (random.nextDouble() * size);
                byte[] bytes = Files.readAllBytes(file);
                overwrite(file, at, new byte[] {(byte) (bytes[(int) at] ^ 1 << random.nextInt(8))});
            }));
        }
        return harms;
    }

    private Tried damaged(Site site, Path cache) throws IOException, InterruptedException {
        List<String> lost = new ArrayList<>();
        int tried = 0;
        for (String name : List.of(ARCHIVE, library, Seal.FILE)) {
            for (Harm harm : harms(site, name)) {
                restore();
                harm.doing().to(kept.resolve(name));
                isCalm(due(site, cache, "INVOCATION_ID=1"), name + " " + harm.what(), lost);
                tried++;
            }
        }
        return new Tried("what is put by for a quick start is damaged: the same answer, no crash", tried, lost, "");
    }

    private Tried mended(Site site, Path cache) throws IOException, InterruptedException {
        List<String> lost = new ArrayList<>();
        for (String name : List.of(ARCHIVE, library, Seal.FILE)) {
            restore();
            overwrite(kept.resolve(name), 0, new byte[(int) Files.size(kept.resolve(name))]);
            isCalm(due(site, cache, "TRIAL=1"), name, lost);
            long until = System.nanoTime() + TimeUnit.MINUTES.toNanos(3);
            while (!isWhole() && System.nanoTime() < until) {
                TimeUnit.MILLISECONDS.sleep(200);
            }
            if (!isWhole()) {
                lost.add(name + " was not made anew");
            }
            isCalm(due(site, cache, "INVOCATION_ID=1"), name + ", made anew", lost);
        }
        return new Tried("and is made anew after one run", 3, lost, "");
    }

    /** Killed while it is made, then made: nothing half done is left. */
    private Tried killed(Site site) throws IOException, InterruptedException {
        List<String> lost = new ArrayList<>();
        Random random = site.random("start killed");
        int tries = site.times(2, 15);
        int parts = 0;
        for (int i = 0; i < tries; i++) {
            restore();
            Files.delete(kept.resolve(ARCHIVE));
            Process making = make(site);
            TimeUnit.MILLISECONDS.sleep(300 + random.nextInt(4_000));
            List<ProcessHandle> all = Stream.concat(Stream.of(making.toHandle()), making.descendants())
                    .toList();
            all.forEach(ProcessHandle::destroyForcibly);
            making.waitFor();
            parts += names(kept).stream().anyMatch(n -> n.startsWith("making-")) ? 1 : 0;
            make(site).waitFor();
            if (!isWhole()) {
                lost.add("after a kill: " + names(kept));
            }
        }
        return new Tried("killed while it is made: the next making clears up", tries, lost, parts + " left parts");
    }

    /** A cache of another user holds a library that would end the process: it is neither used nor touched. */
    private Tried others(Site site, Path cache) throws IOException, InterruptedException {
        String what = "a cache of another user: neither used nor touched";
        if (!site.isRoot()) {
            return Tried.skipped(what, "only root gives things away");
        }
        List<String> lost = new ArrayList<>();
        List<Path> levels = new ArrayList<>();
        for (Path f = kept; f != null && f.startsWith(cache); f = f.getParent()) {
            levels.add(f);
        }
        restore();
        cut(kept.resolve(library), 100_000);
        for (Path level : levels) {
            Files.setAttribute(level, "unix:uid", NOBODY);
            Set<String> before = names(kept);
            isCalm(due(site, cache, "TRIAL=1"), "as root, " + level, lost);
            if (!names(kept).equals(before) || Files.size(kept.resolve(library)) != 100_000) {
                lost.add("as root, " + level + ": now there are " + names(kept));
            }
            Files.setAttribute(level, "unix:uid", 0);
        }
        return new Tried(what, levels.size(), lost, "");
    }

    /** All as it was made. */
    private void restore() throws IOException {
        for (String name : names(kept)) {
            Site.delete(kept.resolve(name));
        }
        Site.copy(whole, kept);
        Files.setPosixFilePermissions(kept, PosixFilePermissions.fromString("rwx------"));
    }

    private boolean isWhole() throws IOException {
        try {
            Seal seal = Seal.read(kept);
            return names(kept).equals(names(whole)) && seal.holds(kept, ARCHIVE) && seal.holds(kept, library);
        } catch (IOException e) {
            return false;
        }
    }

    private static void cut(Path file, long size) throws IOException {
        try (RandomAccessFile open = open(file)) {
            open.setLength(size);
        }
    }

    private static void overwrite(Path file, long at, byte[] bytes) throws IOException {
        try (RandomAccessFile open = open(file)) {
            open.seek(at);
            open.write(bytes);
        }
    }

    private static RandomAccessFile open(Path file) throws IOException {
        Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-------"));
        return new RandomAccessFile(file.toFile(), "rw");
    }

    private static Set<String> names(Path folder) throws IOException {
        try (Stream<Path> all = Files.list(folder)) {
            return all.map(p -> p.getFileName().toString()).collect(Collectors.toCollection(TreeSet::new));
        }
    }
}
