package chainage.importer;

import java.io.IOException;
import java.util.List;

/** Where outcomes go. A dry run is a sink that does nothing. */
@FunctionalInterface
public interface Sink {
    /**
     * Keeps a batch, all of it or nothing. Called by the importing thread only, in input order, save that files that
     * looked torn come last. Every outcome is new and is to be remembered under its stamp; those with rides hold them.
     *
     * @throws IOException to stop the import; batches written before stay
     */
    void write(List<Outcome> batch) throws IOException;
}
