package chainage.store.file;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import org.jspecify.annotations.Nullable;
import org.sqlite.SQLiteErrorCode;
import org.sqlite.SQLiteException;

/** What goes wrong with a ledger's file, and what a failure of the database means. */
public final class Failures {
    private Failures() {}

    public static LedgerException notWritable(Path path, @Nullable Throwable cause) {
        return new LedgerException(
                LedgerException.Kind.READ_ONLY,
                path + " cannot be written",
                "check the permissions of it and its folder, or name another ledger with --ledger",
                cause);
    }

    public static LedgerException corrupt(Path path, String what, @Nullable Throwable cause) {
        return new LedgerException(
                LedgerException.Kind.CORRUPT,
                path + " is damaged: " + what,
                "put a copy of it back (chainage restore COPY), or move it away and import the ride files again",
                cause);
    }

    public static LedgerException notALedger(Path path) {
        return new LedgerException(
                LedgerException.Kind.NOT_A_LEDGER,
                path + " is not a chainage ledger",
                "give the ledger another name; the file was left as it is",
                null);
    }

    public static LedgerException inUse(Path path) {
        return new LedgerException(
                LedgerException.Kind.BUSY,
                path + " is in use by another process",
                "try again when that has finished",
                null);
    }

    /**
     * Says what a failure of the database means.
     *
     * @throws IllegalStateException when it is our own mistake
     */
    public static LedgerException failure(Path path, SQLException e) {
        int primary = primary(e);
        if (isBusy(e)) {
            return new LedgerException(
                    LedgerException.Kind.BUSY,
                    path + " is being written by another process",
                    "try again when that has finished",
                    e);
        } else if (primary == SQLiteErrorCode.SQLITE_NOTADB.code) {
            return Failures.notALedger(path);
        } else if (primary == SQLiteErrorCode.SQLITE_CORRUPT.code) {
            return corrupt(path, String.valueOf(e.getMessage()), e);
        } else if (String.valueOf(e.getMessage()).contains("no such table")
                || String.valueOf(e.getMessage()).contains("no such column")) {
            // Our statements name only what the schema has, so another hand took it away.
            return corrupt(path, "a part of it is missing (" + e.getMessage() + ")", e);
        } else if (primary == SQLiteErrorCode.SQLITE_CANTOPEN.code
                && !Files.isWritable(Folders.folder(path))
                && hasLog(path)) {
            return new LedgerException(
                    LedgerException.Kind.READ_ONLY,
                    "beside " + path + " lies a log with its latest facts, and to read it takes leave to write in "
                            + Folders.folder(path),
                    "ask who keeps it for that leave, or for a copy (chainage backup)",
                    e);
        } else if (primary == SQLiteErrorCode.SQLITE_READONLY.code || primary == SQLiteErrorCode.SQLITE_PERM.code) {
            return notWritable(path, e);
        } else if (primary == SQLiteErrorCode.SQLITE_CONSTRAINT.code
                || primary == SQLiteErrorCode.SQLITE_MISUSE.code
                || primary == SQLiteErrorCode.SQLITE_ERROR.code
                || primary == SQLiteErrorCode.SQLITE_RANGE.code) {
            throw new IllegalStateException("the ledger file refused a statement", e);
        }
        return new LedgerException(
                LedgerException.Kind.IO,
                path + " cannot be used: " + e.getMessage(),
                "check free space and the permissions of its folder",
                e);
    }

    /** True when a row broke a rule of the schema. */
    public static boolean isConstraint(SQLException e) {
        return primary(e) == SQLiteErrorCode.SQLITE_CONSTRAINT.code;
    }

    /** True when a statement does not fit what is there. */
    static boolean isError(SQLException e) {
        return primary(e) == SQLiteErrorCode.SQLITE_ERROR.code;
    }

    /** True when another process or connection holds the lock that was needed. */
    public static boolean isBusy(SQLException e) {
        int primary = primary(e);
        return primary == SQLiteErrorCode.SQLITE_BUSY.code || primary == SQLiteErrorCode.SQLITE_LOCKED.code;
    }

    private static int primary(SQLException e) {
        SQLiteErrorCode code =
                e instanceof SQLiteException s ? s.getResultCode() : SQLiteErrorCode.getErrorCode(e.getErrorCode());
        // The low byte is the primary code, the rest tells variants of it apart.
        return code.code & 0xff;
    }

    private static boolean hasLog(Path path) {
        try {
            return !Folders.isAtRest(path);
        } catch (IOException e) {
            return true;
        }
    }
}
