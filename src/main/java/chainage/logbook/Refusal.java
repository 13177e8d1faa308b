package chainage.logbook;

/** A line, or a whole reading, that cannot be taken as it stands: why, and what to write or do instead. */
public final class Refusal extends Exception {
    private static final long serialVersionUID = 1L;

    /** @param reason in one line, the mend in it */
    public Refusal(String reason) {
        super(reason);
    }

    Refusal(String what, String hint) {
        super(what + "; " + hint);
    }

    /** Why, and what to write instead. */
    public String reason() {
        return String.valueOf(getMessage());
    }
}
