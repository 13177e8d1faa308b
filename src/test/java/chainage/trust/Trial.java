package chainage.trust;

import java.util.List;

/** Tries one kind of fault. */
interface Trial {
    /**
     * Does it.
     *
     * @param site where, and how much
     * @return a row for each thing that was tried; what went wrong is in the rows, in the order tried
     * @throws Exception when the trial itself could not be made
     */
    List<Tried> on(Site site) throws Exception;
}
