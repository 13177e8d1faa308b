package chainage.store;

/** An export that cannot be brought in: where, what is wrong, and how to mend it. Nothing of it was taken. */
public final class ExportException extends Exception {
    private static final long serialVersionUID = 1L;

    private final long line;
    private final String what;
    private final String hint;

    ExportException(long line, String what, String hint) {
        super("line " + line + ": " + what + "; " + hint);
        this.line = line;
        this.what = what;
        this.hint = hint;
    }

    /** Number of the line to blame, from 1. */
    public long line() {
        return line;
    }

    public String what() {
        return what;
    }

    public String hint() {
        return hint;
    }
}
