package chainage.store;

/**
 * Something wrong with a ledger file.
 *
 * @param what is wrong, such as "ride 3f2a was changed on the disk"
 * @param remedy what brings it back
 */
public record Fault(String what, Remedy remedy) {
    /** What the rider can do. */
    public enum Remedy {
        /** A copy of the whole ledger, put back. */
        COPY,
        /** The fact, stated once more, or a copy. */
        FACT,
        /** The ride files, read once more. */
        FILES,
        /** The weather records, read once more. */
        WEATHER
    }
}
