package chainage.store.row;

import org.jspecify.annotations.Nullable;

/** A row that is not as it was written, or that no one can have meant; the others of its table can still be read. */
public final class DamagedRowException extends Exception {
    private static final long serialVersionUID = 1L;

    /** @param what is wrong with it, such as "was changed on the disk" */
    public DamagedRowException(String what, @Nullable Throwable cause) {
        super(what, cause);
    }

    /** Of values that are as they were written and that nothing can be made of. */
    public static DamagedRowException of(RuntimeException e) {
        return new DamagedRowException("cannot be understood (" + e.getMessage() + ")", e);
    }

    public String what() {
        return String.valueOf(getMessage());
    }
}
