package chainage.store;

import chainage.store.file.Disk;
import chainage.store.file.Failures;
import chainage.store.file.Folders;
import chainage.store.file.LedgerException;
import chainage.store.file.LeftLog;
import chainage.store.file.Schema;
import chainage.store.file.Scratch;
import chainage.store.file.WholeFile;
import chainage.store.row.Sql;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.time.Duration;
import java.util.List;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * A copy put in the ledger's place.
 *
 * @param ledger where it is now
 * @param facts how many it states
 * @param rides how many it holds
 * @param before what was there, under its new name; null when nothing was
 */
public record PutBack(
        Path ledger, int facts, int rides, @Nullable Path before) {
    /**
     * Puts a copy of a ledger where the ledger is. The copy is read with its own log, looked over, and brought up to date
     * on the way; it stays as it is. What was there is kept beside, with its log, untouched: it may be damaged, which is
     * why a copy is wanted. The place holds one or the other at any moment.
     *
     * @param dryRun true to stop short of changing anything
     * @param tell is told, a line each, what had to be done to what lay beside the copy
     * @throws LedgerException when the copy is not sound or was made by a later program, or the ledger is in use
     */
    public static PutBack put(Path copy, Path ledger, boolean dryRun, Consumer<String> tell) throws IOException {
        Path from = Folders.real(copy);
        Path to = Folders.real(ledger);
        if (!Files.exists(from)) {
            throw new NoSuchFileException(copy.toString());
        }
        refuse(from, to);
        if (Files.exists(to)) {
            LeftLog.alone(to, () -> {}); // asked first, so that a rider need not wait for the answer
        }
        LeftLog.enter(from, tell);
        try {
            return dryRun ? rehearsed(from, to) : placed(from, to);
        } finally {
            LeftLog.leave(from);
        }
    }

    /**
     * Makes the ledger anew of all in it that is sound, and puts that in its place. Where a fact was damaged stands from
     * then on that it was lost. What was there is kept beside, untouched.
     *
     * @param tell is told, a line each, what had to be done to what lay beside the ledger
     * @throws LedgerException when more is damaged than single rows, or the ledger is in use
     */
    public static PutBack mend(Path given, Consumer<String> tell) throws IOException {
        Path ledger = Folders.real(given);
        LedgerFile.openReadOnly(ledger, tell).close(); // by which its log is played into it
        LeftLog.alone(ledger, () -> {});
        Folders.Stamp before = Folders.stamp(ledger);
        PutBack[] done = new PutBack[1];
        WholeFile.place(
                ledger,
                part -> done[0] = remake(ledger, part),
                part -> done[0] =
                        new PutBack(ledger, done[0].facts, done[0].rides, replace(part, ledger, ".before-mend", () -> {
                            if (!before.equals(Folders.stamp(ledger))) {
                                throw Failures.inUse(ledger);
                            }
                        })));
        return done[0];
    }

    private static PutBack remake(Path ledger, Path part) throws IOException {
        try (Scratch scratch = Scratch.inTemporary()) {
            Path text = scratch.file("sound.jsonl");
            try (LedgerFile file = LedgerFile.openReadOnly(ledger)) {
                file.export(text);
            }
            try (LedgerFile made = LedgerFile.open(part);
                    InputStream in = Files.newInputStream(text)) {
                Restored restored = made.restore(in, false);
                refuseUnsound(
                        ledger, made.integrityCheck().stream().map(Fault::what).toList(), "");
                return new PutBack(
                        ledger, Math.toIntExact(restored.entries()), Math.toIntExact(restored.rides()), null);
            }
        } catch (ExportException e) {
            throw Failures.corrupt(ledger, "what is sound in it does not fit together (" + e.what() + ")", e);
        }
    }

    private static PutBack rehearsed(Path from, Path to) throws IOException {
        try (Scratch scratch = Scratch.inTemporary()) {
            return fill(from, scratch.file("trial.sqlite"), to);
        }
    }

    private static PutBack placed(Path from, Path to) throws IOException {
        Folders.createFolders(Folders.folder(to));
        PutBack[] done = new PutBack[1];
        WholeFile.place(
                to,
                part -> done[0] = fill(from, part, to),
                part -> done[0] =
                        new PutBack(to, done[0].facts, done[0].rides, replace(part, to, ".before-restore", () -> {})));
        return done[0];
    }

    private static void refuse(Path from, Path to) throws IOException {
        try {
            Disk.refuseOtherFiles(from);
        } catch (LedgerException e) {
            throw e.kind() == LedgerException.Kind.NOT_A_LEDGER ? noCopy(from) : e;
        }
        if (Files.exists(to) && Files.isSameFile(from, to)) {
            throw new LedgerException(
                    LedgerException.Kind.NOT_A_LEDGER, from + " is the ledger itself", "name a copy of it", null);
        }
        if (Files.isDirectory(to)) {
            throw Failures.notALedger(to);
        }
        if (!Folders.isAtRest(from)) {
            // Copies that lie still may share one file under several names, as programs that keep many of them do.
            Disk.refuseSecondName(from);
        }
    }

    private static LedgerException noCopy(Path from) {
        return new LedgerException(
                LedgerException.Kind.NOT_A_LEDGER,
                from + " is not a chainage ledger",
                "name a copy that chainage backup made (an export is brought in with chainage import); nothing was changed",
                null);
    }

    private static PutBack fill(Path from, Path part, Path to) throws IOException {
        Schema schema = new Schema(Schema.SCRIPTS);
        try (Connection copy = LedgerFile.connectWithoutWriting(from);
                PreparedStatement into = copy.prepareStatement(Sql.of("copy"))) {
            if (schema.check(copy, from) == 0) {
                throw noCopy(from);
            }
            refuseUnsound(
                    from, new FactReader(from, copy, what -> {}).rows("integrity", row -> row.getString(1)), "ok");
            into.setString(1, part.toString());
            into.execute();
        } catch (SQLException e) {
            throw Failures.failure(from, e);
        }
        try (Connection made = Disk.connect(part, Duration.ZERO, false, false)) {
            schema.raise(made, part);
            FactReader reader = new FactReader(from, made, what -> {});
            refuseUnsound(
                    from,
                    new Inspection(reader, schema, made)
                            .faults().stream().map(Fault::what).toList(),
                    "");
            return new PutBack(
                    to,
                    reader.rows("entry-rows", row -> "").size(),
                    reader.rows("ride-names", row -> "").size(),
                    null);
        } catch (SQLException e) {
            throw Failures.failure(from, e);
        }
    }

    private static void refuseUnsound(Path from, List<String> found, String sound) throws LedgerException {
        List<String> troubles = found.stream().filter(f -> !f.equals(sound)).toList();
        if (!troubles.isEmpty()) {
            throw new LedgerException(
                    LedgerException.Kind.CORRUPT,
                    from + " is damaged: " + troubles.get(0)
                            + (troubles.size() == 1 ? "" : ", and " + (troubles.size() - 1) + " more"),
                    "take another copy; nothing was changed",
                    null);
        }
    }

    /**
     * Gives what is there another name, and then its name to the part.
     *
     * @param ending of that other name
     * @param asked first, when no one else can come between
     */
    private static @Nullable Path replace(Path part, Path to, String ending, LeftLog.Doing asked) throws IOException {
        if (!Files.exists(to)) {
            Files.move(part, to);
            return null;
        }
        Path before = LeftLog.free(to, ending);
        LeftLog.alone(to, () -> {
            asked.run();
            boolean done = false;
            try {
                second(to, before);
                LeftLog.moveParts(to, before);
                Files.move(part, to, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
                done = true;
            } finally {
                if (!done) {
                    LeftLog.moveParts(before, to);
                    Files.move(before, to, StandardCopyOption.REPLACE_EXISTING);
                    Files.deleteIfExists(before); // of two names for one file, to move one to the other leaves both
                }
            }
        });
        return before;
    }

    /** Gives a file another name, and leaves it its own for the moment, so that a kill here leaves a ledger there. */
    private static void second(Path file, Path name) throws IOException {
        try {
            Files.createLink(name, file);
        } catch (UnsupportedOperationException | FileSystemException e) {
            Files.move(file, name); // a file system without second names
        }
    }
}
