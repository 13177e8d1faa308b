package chainage.logbook;

/** A line, or a whole reading, that cannot be taken as it stands: why, and what to write or do instead. */
public final class Refusal extends Exception {
    private static final long serialVersionUID = 1L;

    private final String what;
    private final String hint;

    /** @param what why; a hint is in it, or there is none */
    public Refusal(String what) {
        this(what, "");
    }

    /**
     * A reason and its mend.
     *
     * @param what why, in one line
     * @param hint what to write or do instead
     */
    public Refusal(String what, String hint) {
        super(hint.isEmpty() ? what : what + "; " + hint);
        this.what = what;
        this.hint = hint;
    }

    /** Why. */
    public String what() {
        return what;
    }

    /** What to write or do instead; empty where the reason says it. */
    public String hint() {
        return hint;
    }

    /** Why, and what to write instead. */
    public String reason() {
        return String.valueOf(getMessage());
    }
}
