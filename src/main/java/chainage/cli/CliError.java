package chainage.cli;

/** A command that cannot be carried out: what is wrong, and how to mend it. */
final class CliError extends RuntimeException {
    private static final long serialVersionUID = 1L;

    private final ExitCode code;

    /**
     * Says what is wrong.
     *
     * @param what what is wrong, the value quoted, no full stop
     * @param mend what to type or do
     */
    CliError(ExitCode code, String what, String mend) {
        super(what + "; " + mend);
        this.code = code;
    }

    static CliError usage(String what, String mend) {
        return new CliError(ExitCode.USAGE, what, mend);
    }

    ExitCode code() {
        return code;
    }
}
