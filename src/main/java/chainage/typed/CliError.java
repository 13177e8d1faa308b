package chainage.typed;

/** A command that cannot be carried out: what is wrong, and how to mend it. */
public final class CliError extends RuntimeException {
    private static final long serialVersionUID = 1L;

    private final ExitCode code;

    /**
     * Says what is wrong.
     *
     * @param what what is wrong, the value quoted, no full stop
     * @param hint what to type or do
     */
    public CliError(ExitCode code, String what, String hint) {
        super(what + "; " + hint);
        this.code = code;
    }

    public static CliError usage(String what, String hint) {
        return new CliError(ExitCode.USAGE, what, hint);
    }

    public static CliError noLedger(String place) {
        return new CliError(
                ExitCode.NO_SUCH_FILE,
                "there is no ledger at " + place + " yet",
                "import your rides, or name the right one with --ledger");
    }

    public ExitCode code() {
        return code;
    }
}
