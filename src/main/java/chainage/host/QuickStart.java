package chainage.host;

import chainage.store.file.Seal;
import chainage.store.file.SqliteLibrary;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;

/**
 * What makes the program start quickly: an archive of its classes as the virtual machine wants them in memory, and
 * SQLite's native library unpacked. Both depend on this very program file and this Java, so they are made on the
 * rider's machine, once, in the background after a first run, in a folder of the cache that start.sh names. Without them
 * everything works as well, a little later.
 */
public final class QuickStart {
    /** The class archive; start.sh uses the folder only where this is newer than the program, so it is made last. */
    static final String ARCHIVE = "classes.jsa";

    /** When this was last tried; held locked by the process that tries. */
    private static final String TRIED = "tried";

    /** After a vain attempt (a full disk, a Java without such archives) the next one waits so long; our choice. */
    private static final Duration RETRY = Duration.ofDays(1);

    private QuickStart() {}

    /**
     * Begins to make what is missing, in a process of its own that outlives this one; says nothing and never fails.
     *
     * @param entry its main method takes {@code make FOLDER PROGRAM}, which is to call {@link #make}, and {@code practise
     *     FOLDER}, which is to use the classes that most days need
     */
    public static void renew(Class<?> entry) {
        String folder = System.getProperty("chainage.start", "");
        // As start.sh gave it, with its whole path: the archive is bound to that.
        String program = System.getProperty("java.class.path", "");
        // What a timer or a service starts is stopped with it. A desktop's own terminal is a service too, but lasts.
        boolean stopped = System.getenv("INVOCATION_ID") != null && !Boolean.getBoolean("chainage.terminal");
        if (folder.isEmpty() || program.isEmpty() || stopped) {
            return;
        }
        try {
            Path kept = Path.of(folder);
            deleteDamagedArchive(kept);
            if (isWanted(kept, Path.of(program), Instant.now())) {
                start(List.of("-cp", program, entry.getName(), "make", folder, program));
            }
        } catch (IOException | RuntimeException e) {
            // A start that stays as it is harms nobody; a message about it would.
        }
    }

    /**
     * Deletes what was put by for a program that goes away. Only where start.sh found that no one else writes in the
     * cache; elsewhere, links of others could lead to things that are not ours to delete.
     */
    public static void forget(Path program) {
        String folder = System.getProperty("chainage.start", "");
        String running = System.getProperty("java.class.path", "");
        if (folder.isEmpty() || !folder.endsWith(running)) {
            return;
        }
        String start = folder.substring(0, folder.length() - running.length());
        Path kept = Path.of(start + program.toAbsolutePath().normalize());
        Path all = Path.of(start, "..").normalize();
        if (!Files.isDirectory(kept)) {
            return;
        }
        try {
            delete(kept);
        } catch (IOException | UncheckedIOException e) {
            // It is just being made, and stays: a cache that nobody uses.
        }
        for (Path f = kept.getParent(); f != null && f.startsWith(all); f = f.getParent()) {
            Machine.deleteEmpty(f);
        }
    }

    /** One that start.sh gave but the virtual machine refused, and not for being made by another Java. */
    private static void deleteDamagedArchive(Path kept) throws IOException {
        boolean taken = System.getProperty("java.vm.info", "").contains("sharing");
        if (!taken && Boolean.getBoolean("chainage.start.used")) {
            Seal seal = Seal.read(kept);
            if (seal.by().equals(java()) && !seal.holds(kept, ARCHIVE)) {
                Files.deleteIfExists(kept.resolve(ARCHIVE));
            }
        }
    }

    /**
     * True when there is nothing of this program and this Java yet, and no one tried lately; at once, when there was and
     * it is damaged.
     */
    static boolean isWanted(Path kept, Path program, Instant now) throws IOException {
        Instant built = Files.getLastModifiedTime(program).toInstant();
        // A program dated ahead of the clock never gets an archive newer than itself.
        if (!built.isBefore(now)) {
            return false;
        }
        Path tried = kept.resolve(TRIED);
        return switch (state(kept, built)) {
            case WHOLE -> false;
            case DAMAGED -> true;
            case NONE -> !isNewer(tried, built) || !isNewer(tried, now.minus(RETRY));
        };
    }

    /** How things stand in the folder; a seal is there only after all was made, and goes first when it is made anew. */
    private enum State {
        WHOLE,
        DAMAGED,
        NONE
    }

    private static State state(Path kept, Instant built) throws IOException {
        if (!isNewer(kept.resolve(Seal.FILE), built)) {
            return State.NONE;
        }
        Seal seal;
        try {
            seal = Seal.read(kept);
        } catch (IOException e) {
            return State.DAMAGED;
        }
        if (!seal.by().equals(java())) {
            return State.NONE;
        }
        // What start.sh asks for, too.
        int owner = (Integer) Files.getAttribute(kept, "unix:uid");
        boolean whole = ((Integer) Files.getAttribute(kept, "unix:mode") & 0777) == 0700
                && isNewer(kept.resolve(ARCHIVE), built)
                && isOurs(kept.resolve(Seal.FILE), owner);
        for (String name : seal.sums().keySet()) {
            whole = whole && isOurs(kept.resolve(name), owner);
        }
        return whole ? State.WHOLE : State.DAMAGED;
    }

    private static boolean isOurs(Path file, int owner) throws IOException {
        return Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)
                && (Integer) Files.getAttribute(file, "unix:uid", LinkOption.NOFOLLOW_LINKS) == owner;
    }

    private static boolean isNewer(Path file, Instant than) throws IOException {
        return Files.exists(file) && Files.getLastModifiedTime(file).toInstant().isAfter(than);
    }

    private static String java() {
        return System.getProperty("java.home") + " " + Runtime.version() + " " + System.getProperty("java.vm.name");
    }

    private static Process start(List<String> arguments) throws IOException {
        List<String> command = new ArrayList<>(
                List.of(Path.of(System.getProperty("java.home"), "bin", "java").toString(), "-XX:TieredStopAtLevel=1"));
        command.addAll(arguments);
        ProcessBuilder builder = new ProcessBuilder(command)
                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                .redirectError(ProcessBuilder.Redirect.DISCARD);
        Process process = builder.start();
        process.getOutputStream().close();
        return process;
    }

    /**
     * Makes what is missing; in the process in the background.
     *
     * @param kept the folder to make it in
     * @param program the one file of the program
     * @param entry as for {@link #renew}
     */
    public static void make(Path kept, Path program, Class<?> entry) throws IOException, InterruptedException {
        Set<PosixFilePermission> ours = PosixFilePermissions.fromString("rwx------");
        Files.createDirectories(kept, PosixFilePermissions.asFileAttribute(ours));
        try (FileChannel tried =
                        FileChannel.open(kept.resolve(TRIED), StandardOpenOption.CREATE, StandardOpenOption.WRITE);
                FileLock lock = tried.tryLock()) {
            // Another process may have made it since this one was asked to.
            if (lock == null || state(kept, Files.getLastModifiedTime(program).toInstant()) == State.WHOLE) {
                return;
            }
            Files.setLastModifiedTime(kept.resolve(TRIED), FileTime.from(Instant.now()));
            Files.setPosixFilePermissions(kept, ours);
            clear(kept);
            Path work = Files.createTempDirectory(kept, "making-");
            try {
                make(kept, program.toString(), entry, work);
            } finally {
                delete(work);
            }
        }
    }

    /** Of what a killed process left half done, what is damaged, and what is out of date, nothing is of use. */
    private static void clear(Path kept) throws IOException {
        Files.deleteIfExists(kept.resolve(Seal.FILE));
        try (Stream<Path> all = Files.list(kept)) {
            for (Path old : all.filter(p -> !p.endsWith(TRIED)).toList()) {
                delete(old);
            }
        }
    }

    private static void make(Path kept, String program, Class<?> entry, Path work)
            throws IOException, InterruptedException {
        List<String> made = new ArrayList<>(SqliteLibrary.unpack(work).stream().toList());
        Path list = work.resolve("classes.txt");
        // Without the platform's own archive, or its classes would be missing from ours, which takes its place.
        run(
                "-Xshare:off",
                "-XX:DumpLoadedClassList=" + list,
                "-cp",
                program,
                entry.getName(),
                "practise",
                work.toString());
        // By the collector that can put objects into the archive too, whatever this machine would choose.
        run(
                "-XX:+UseG1GC",
                "-Xshare:dump",
                "-XX:SharedClassListFile=" + list,
                "-XX:SharedArchiveFile=" + work.resolve(ARCHIVE),
                "-cp",
                program);
        made.add(Seal.FILE);
        made.add(ARCHIVE);
        Seal.put(work, java(), made.stream().filter(n -> !n.equals(Seal.FILE)).toList());
        for (String name : made) {
            move(work, kept, name);
        }
    }

    /** Whole or not at all, after a power cut too: what is half there would end the program, not slow it down. */
    private static void move(Path from, Path to, String name) throws IOException {
        try (FileChannel written = FileChannel.open(from.resolve(name), StandardOpenOption.READ)) {
            written.force(true);
        }
        Files.move(
                from.resolve(name),
                to.resolve(name),
                StandardCopyOption.ATOMIC_MOVE,
                StandardCopyOption.REPLACE_EXISTING);
    }

    private static void run(String... arguments) throws IOException, InterruptedException {
        int code = start(List.of(arguments)).waitFor();
        if (code != 0) {
            throw new IOException("exit code " + code + " of java " + String.join(" ", arguments));
        }
    }

    private static void delete(Path folder) throws IOException {
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(path);
            }
        }
    }
}
