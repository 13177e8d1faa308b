package chainage.host;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Set;

/** Files that grow line by line and that only their owner may read, since they tell of rides. */
final class PrivateFile {
    private static final Set<PosixFilePermission> OWNERS = PosixFilePermissions.fromString("rw-------");

    private PrivateFile() {}

    /** Makes it where there is none; one that others may read is closed to them. */
    static void make(Path file) throws IOException {
        boolean posix = file.getFileSystem().supportedFileAttributeViews().contains("posix");
        Files.createDirectories(file.toAbsolutePath().resolveSibling(""));
        try {
            Files.createFile(
                    file,
                    posix
                            ? new FileAttribute<?>[] {PosixFilePermissions.asFileAttribute(OWNERS)}
                            : new FileAttribute<?>[0]);
        } catch (FileAlreadyExistsException e) {
            if (posix) {
                Files.setPosixFilePermissions(file, OWNERS);
            }
        }
    }

    /**
     * Adds to it.
     *
     * @param most bytes after which what is there makes room, as the file beside it
     */
    static void add(Path file, String text, long most, Path older) throws IOException {
        make(file);
        if (Files.size(file) > most) {
            Files.move(file, older, StandardCopyOption.REPLACE_EXISTING);
            make(file);
        }
        Files.writeString(file, text, StandardOpenOption.APPEND);
    }
}
