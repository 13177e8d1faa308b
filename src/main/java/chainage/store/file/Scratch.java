package chainage.store.file;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;

/**
 * A folder for files that are not yet in their place or never will be, for its owner alone. It goes when it is closed;
 * where the process is killed first, the next one that works in the same place removes it.
 *
 * <p>While it is in use its process holds a lock on a file in it, which ends with the process, whatever ends that. A
 * number of a process would tell nothing about one in another container or on another machine.
 */
public final class Scratch implements AutoCloseable {
    private static final String NAME = ".chainage-";
    private static final String LOCK = "in-use";

    /** Those of this process, whose own locks tell it nothing. */
    private static final Set<Path> OURS = ConcurrentHashMap.newKeySet();

    private final Path folder;
    private final FileChannel held;

    private Scratch(Path folder, FileChannel held) {
        this.folder = folder;
        this.held = held;
    }

    /** Makes one in a folder, and removes those there that a killed process left. */
    public static Scratch in(Path place) throws IOException {
        while (true) {
            // One after the other: a folder of ours must not be swept by another thread before it is known as ours.
            synchronized (OURS) {
                Path made = Files.createTempDirectory(place, NAME, Folders.ownersOnly(place, "rwx------"));
                OURS.add(made);
                FileChannel held = hold(made, StandardOpenOption.CREATE_NEW);
                if (held != null) {
                    sweep(place, made);
                    return new Scratch(made, held);
                }
                // Another process took it for one that was left, between the folder and the lock.
                OURS.remove(made);
            }
        }
    }

    /** Makes one in the system's folder for such. */
    public static Scratch inTemporary() throws IOException {
        return in(Path.of(System.getProperty("java.io.tmpdir", ".")));
    }

    /** Takes hold of a folder; null when another process has it, or it has gone. */
    private static @Nullable FileChannel hold(Path folder, StandardOpenOption... how) throws IOException {
        Path file = folder.resolve(LOCK);
        FileChannel channel = null;
        boolean held = false;
        try {
            channel = how.length == 0
                    ? FileChannel.open(file, StandardOpenOption.WRITE, LinkOption.NOFOLLOW_LINKS)
                    : FileChannel.open(file, StandardOpenOption.WRITE, how[0]);
            @Nullable FileLock lock = channel.tryLock();
            held = lock != null && Files.exists(file);
            return held ? channel : null;
        } catch (NoSuchFileException e) {
            return null;
        } finally {
            if (channel != null && !held) {
                channel.close();
            }
        }
    }

    /** What goes wrong here is no harm to what is to be done: the next one tries again. */
    private static void sweep(Path place, Path own) {
        try (DirectoryStream<Path> all = Files.newDirectoryStream(place, NAME + "*")) {
            for (Path left : all) {
                if (Files.isDirectory(left, LinkOption.NOFOLLOW_LINKS)
                        && !OURS.contains(left)
                        && Files.getOwner(left, LinkOption.NOFOLLOW_LINKS).equals(Files.getOwner(own))) {
                    removeLeft(left);
                }
            }
        } catch (IOException | UnsupportedOperationException e) {
            // As said.
        }
    }

    private static void removeLeft(Path left) {
        try {
            if (!Files.exists(left.resolve(LOCK), LinkOption.NOFOLLOW_LINKS)) {
                Files.delete(left); // killed before it could write anything; not ours when something is in it
                return;
            }
            try (FileChannel held = hold(left)) {
                if (held != null) {
                    delete(left);
                }
            }
        } catch (IOException e) {
            // As said.
        }
    }

    private static void delete(Path folder) throws IOException {
        try (DirectoryStream<Path> files = Files.newDirectoryStream(folder)) {
            for (Path file : files) {
                Files.deleteIfExists(file);
            }
        }
        Files.deleteIfExists(folder);
    }

    /** A name in it. */
    public Path file(String name) {
        return folder.resolve(name);
    }

    @Override
    public void close() throws IOException {
        try (held) {
            delete(folder);
        } finally {
            OURS.remove(folder);
        }
    }
}
