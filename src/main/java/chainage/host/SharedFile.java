package chainage.host;

import chainage.store.file.WholeFile;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Arrays;

/** A file of the rider's that others write as well: an editor, a phone's synchronisation. */
public final class SharedFile {
    private SharedFile() {}

    /**
     * Puts bytes behind all that is there, on the disk when it returns; what others write behind it meanwhile stays.
     *
     * @throws IOException when it cannot be written; then it is as it was, unless others wrote meanwhile
     */
    public static void append(Path file, byte[] bytes) throws IOException {
        try (FileChannel channel = FileChannel.open(file, StandardOpenOption.WRITE, StandardOpenOption.APPEND)) {
            long before = channel.size();
            ByteBuffer left = ByteBuffer.wrap(bytes);
            boolean whole = false;
            try {
                while (left.hasRemaining()) {
                    channel.write(left);
                }
                channel.force(true);
                whole = true;
            } finally {
                if (!whole && channel.size() == before + left.position()) {
                    channel.truncate(before);
                }
            }
        }
    }

    /**
     * Puts another content in place of what is there, whole or not at all.
     *
     * @param from what is there
     * @return false when something else is there by now; then that stays
     */
    public static boolean replace(Path file, byte[] from, byte[] to) throws IOException {
        // A link to the file stays one.
        Path real = file.toRealPath();
        try {
            WholeFile.replace(real, PosixFilePermissions.toString(Files.getPosixFilePermissions(real)), part -> {
                Files.write(part, to);
                if (!Arrays.equals(Files.readAllBytes(real), from)) {
                    throw new ChangedMeanwhile();
                }
            });
            return true;
        } catch (ChangedMeanwhile e) {
            return false;
        }
    }

    private static final class ChangedMeanwhile extends IOException {
        private static final long serialVersionUID = 1L;
    }
}
