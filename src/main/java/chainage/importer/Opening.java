package chainage.importer;

import java.io.IOException;
import java.io.InputStream;

/** Opens a file to be read from its beginning; whoever opens it closes it. */
@FunctionalInterface
public interface Opening {
    InputStream open() throws IOException;
}
