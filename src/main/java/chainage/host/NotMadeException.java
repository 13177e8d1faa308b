package chainage.host;

/** A file that was not made, since its place is not there or is taken. */
public final class NotMadeException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    /**
     * Says what is in the way.
     *
     * @param what what is wrong, the file quoted, no full stop
     * @param hint what to do about it
     */
    NotMadeException(String what, String hint) {
        super(what + "; " + hint);
    }
}
