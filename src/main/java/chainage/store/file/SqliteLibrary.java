package chainage.store.file;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.sqlite.util.LibraryLoaderUtil;

/**
 * The native library that the driver brings for each platform. The driver unpacks it at every start unless it finds it
 * in the folder that the system property {@code org.sqlite.lib.path} names.
 */
public final class SqliteLibrary {
    private SqliteLibrary() {}

    /**
     * Writes this platform's library into a folder, under the name that the driver looks for.
     *
     * @return that name; empty where the driver brings none for this platform
     */
    public static Optional<String> unpack(Path folder) throws IOException {
        String name = LibraryLoaderUtil.getNativeLibName();
        try (InputStream in = LibraryLoaderUtil.class.getResourceAsStream(
                LibraryLoaderUtil.getNativeLibResourcePath() + "/" + name)) {
            if (in == null) {
                return Optional.empty();
            }
            Files.copy(in, folder.resolve(name));
            return Optional.of(name);
        }
    }

    /**
     * Before the driver looks: names it the folder where start.sh found an unpacked library that no one else can have put
     * there. A damaged one would end the process, or worse; it is deleted, and made anew like anything missing.
     */
    static void choose() {
        if (!Boolean.getBoolean("chainage.start.used")) {
            return;
        }
        String folder = System.getProperty("chainage.start", "");
        Path kept = Path.of(folder);
        String name = LibraryLoaderUtil.getNativeLibName();
        try {
            if (Seal.read(kept).holds(kept, name)) {
                System.setProperty("org.sqlite.lib.path", folder);
            } else {
                Files.deleteIfExists(kept.resolve(name));
            }
        } catch (IOException e) {
            // Without a seal, or where nothing can be deleted, the driver unpacks its own.
        }
    }
}
