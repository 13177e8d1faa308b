package chainage.ridefile;

/** A file that cannot be read as a ride file: what is wrong, where in it, and how to mend it. */
public final class RideFileException extends Exception {
    private static final long serialVersionUID = 1L;

    private final String what;
    private final String hint;
    private final boolean torn;

    /**
     * @param what what is wrong and where in the file, one line, values quoted
     * @param hint what the rider can do, one line
     * @param torn true when the file ends too early, as one does that is still being written
     */
    public RideFileException(String what, String hint, boolean torn) {
        super(what + "; " + hint);
        this.what = what;
        this.hint = hint;
        this.torn = torn;
    }

    public String what() {
        return what;
    }

    public String hint() {
        return hint;
    }

    public boolean torn() {
        return torn;
    }
}
