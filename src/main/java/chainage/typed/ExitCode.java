package chainage.typed;

/** What the program returns; the meanings are a promise to scripts. */
public enum ExitCode {
    OK(0, "all is well"),
    DUE(1, "something is due (only with --fail-if-due)"),
    USAGE(64, "the command was not understood"),
    REFUSED(65, "some input was refused (the rest is in), or the ledger contradicts itself"),
    NO_SUCH_FILE(66, "no such file or folder"),
    BUG(70, "internal error"),
    CANNOT_CREATE(73, "the ledger cannot be created or written"),
    IO(74, "reading or writing failed"),
    BUSY(75, "the ledger is in use; try again"),
    CONFIGURATION(78, "the ledger cannot be used as it is"),
    INTERRUPTED(130, "stopped by the user");

    private final int code;
    private final String meaning;

    ExitCode(int code, String meaning) {
        this.code = code;
        this.meaning = meaning;
    }

    public int code() {
        return code;
    }

    public String meaning() {
        return meaning;
    }
}
