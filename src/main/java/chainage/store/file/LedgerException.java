package chainage.store.file;

import java.io.IOException;
import org.jspecify.annotations.Nullable;

/** The ledger file cannot be used as asked: of what kind the trouble is, what happened, and how to mend it. */
public final class LedgerException extends IOException {
    private static final long serialVersionUID = 1L;

    private final Kind kind;
    private final String what;
    private final String hint;

    public LedgerException(Kind kind, String what, String hint, @Nullable Throwable cause) {
        super(what + "; " + hint, cause);
        this.kind = kind;
        this.what = what;
        this.hint = hint;
    }

    public Kind kind() {
        return kind;
    }

    public String what() {
        return what;
    }

    public String hint() {
        return hint;
    }

    /** What kind of trouble, so that the caller can choose an exit code. */
    public enum Kind {
        /** Another process is writing and did not finish in time. */
        BUSY,
        /** Made by a later version of this program; left untouched. */
        NEWER,
        /** A ledger whose content is damaged. */
        CORRUPT,
        /** A file of some other kind; left untouched. */
        NOT_A_LEDGER,
        /** One file under several names, each of which would have a log of its own; left untouched. */
        SECOND_NAME,
        /** The file or its folder may not be written, or the ledger was opened for reading only. */
        READ_ONLY,
        /** The disk failed, is full, or the path cannot be opened. */
        IO
    }
}
