package chainage.store.file;

import chainage.store.row.RowSum;
import chainage.store.row.Sql;
import java.io.DataInputStream;
import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/**
 * The schema's versions, oldest first: script n brings a ledger from version n − 1 to n and sets {@code user_version}
 * itself, so that a rollback takes both back.
 */
public final class Schema {
    /** The letters "chng", which tell a ledger from any other SQLite file. */
    static final int APPLICATION_ID = 0x63686e67;

    /** Every version up to this program's own. */
    public static final List<String> SCRIPTS = List.of(
            Sql.resource("001-facts.sql"),
            Sql.resource("002-weather.sql"),
            Sql.resource("003-ahead.sql"),
            Sql.resource("004-stamp.sql"),
            Sql.resource("005-air.sql"),
            Sql.resource("006-sums.sql"),
            Sql.resource("007-power.sql"));

    private final List<String> scripts;

    public Schema(List<String> scripts) {
        this.scripts = List.copyOf(scripts);
    }

    public int version() {
        return scripts.size();
    }

    /**
     * Checks what an open file is, without changing it.
     *
     * @return its version; 0 for a database that is still empty
     */
    public int check(Connection connection, Path path) throws SQLException, LedgerException {
        int application;
        int version;
        int objects;
        // In one statement, so that a ledger that another process makes meanwhile is seen before or after, not half
        // way.
        try (Statement statement = connection.createStatement();
                ResultSet row = statement.executeQuery(Sql.of("identity"))) {
            row.next();
            application = row.getInt(1);
            version = row.getInt(2);
            objects = row.getInt(3);
        }
        if (application != APPLICATION_ID) {
            if (version == 0 && objects == 0) {
                return 0;
            }
            throw Failures.notALedger(path);
        }
        if (version > version()) {
            throw new LedgerException(
                    LedgerException.Kind.NEWER,
                    path + " was made by a newer chainage (ledger version " + version + ", this one knows " + version()
                            + ")",
                    "upgrade this program; the file was left as it is",
                    null);
        }
        return version;
    }

    /** Brings a ledger up to date in one transaction. An older one is copied beside itself first. */
    public void upgrade(Connection connection, Path path) throws SQLException, IOException {
        int before = check(connection, path);
        if (before == version()) {
            return;
        }
        if (before > 0) {
            copy(connection, path, before);
        }
        raise(connection, path);
    }

    /** As {@link #upgrade}, without a copy. */
    public void raise(Connection connection, Path path) throws SQLException, IOException {
        RowSum.register(connection);
        try (Statement statement = connection.createStatement()) {
            statement.executeUpdate(Sql.of("begin-write"));
            boolean done = false;
            try {
                // Asked again under the lock: another process may have been faster.
                for (int v = check(connection, path); v < version(); v++) {
                    run(statement, scripts.get(v), path);
                }
                statement.executeUpdate(Sql.of("stamp-renew"));
                statement.executeUpdate(Sql.of("commit"));
                done = true;
            } finally {
                if (!done) {
                    Disk.rollback(connection);
                }
            }
        }
    }

    private static void run(Statement statement, String script, Path path) throws SQLException, LedgerException {
        try {
            statement.executeUpdate(script);
        } catch (SQLException e) {
            if (Failures.isError(e)) {
                // A script fits any ledger of the version before.
                throw Failures.corrupt(path, "it is not of the version that it bears (" + e.getMessage() + ")", e);
            }
            throw e;
        }
    }

    /** Name of the copy: the ledger's own and its version, with a number behind it when that is taken. */
    private static Path copyOf(Path path, int version) {
        String name = path.getFileName() + ".version-" + version;
        Path copy = path.resolveSibling(name);
        for (int n = 2; Files.exists(copy); n++) {
            copy = path.resolveSibling(name + "." + n);
        }
        return copy;
    }

    /** Copies a ledger of an older version beside itself, whole or not at all. */
    private static void copy(Connection connection, Path path, int version) throws IOException {
        boolean done = false;
        while (!done) {
            Path copy = copyOf(path, version);
            try {
                WholeFile.whole(copy, part -> {
                    try (PreparedStatement statement = connection.prepareStatement(Sql.of("copy"))) {
                        statement.setString(1, part.toString());
                        statement.execute();
                    } catch (SQLException e) {
                        throw Failures.failure(copy, e);
                    }
                    if (versionOf(part) != version) {
                        throw new Overtaken();
                    }
                });
                done = true;
            } catch (FileAlreadyExistsException e) {
                // Another process upgrades the same ledger, and made a copy of that name meanwhile: the next name.
            } catch (Overtaken e) {
                done = true;
            }
        }
    }

    /** Another process has upgraded the ledger, and so has made the copy. */
    private static final class Overtaken extends IOException {
        private static final long serialVersionUID = 1L;
    }

    /** The version of a ledger at rest: a number of four bytes in the file's header. */
    private static int versionOf(Path file) throws IOException {
        try (DataInputStream in = new DataInputStream(Files.newInputStream(file))) {
            in.skipNBytes(60);
            return in.readInt();
        }
    }

    /**
     * What a file of this version lacks of its tables, indexes and triggers, or has otherwise; a line each.
     *
     * @return an empty list for a sound one
     */
    public List<String> differences(Connection connection) throws SQLException {
        Map<String, String> there = objects(connection);
        Map<String, String> expected;
        try (Connection fresh = DriverManager.getConnection("jdbc:sqlite::memory:");
                Statement statement = fresh.createStatement()) {
            RowSum.register(fresh);
            for (String script : scripts) {
                statement.executeUpdate(script);
            }
            expected = objects(fresh);
        }
        List<String> found = new ArrayList<>();
        expected.forEach((name, sql) -> {
            if (!there.containsKey(name)) {
                found.add("its " + name + " is missing");
            } else if (!sql.equals(there.get(name))) {
                found.add("its " + name + " was changed");
            }
        });
        return found;
    }

    /** Tables, indexes and triggers by kind and name, each as its statement with quotes and spacing evened out. */
    private static Map<String, String> objects(Connection connection) throws SQLException {
        Map<String, String> objects = new TreeMap<>();
        try (Statement statement = connection.createStatement();
                ResultSet row = statement.executeQuery(Sql.of("schema-objects"))) {
            while (row.next()) {
                objects.put(
                        row.getString(1) + " " + row.getString(2),
                        row.getString(3)
                                .replaceAll("--[^\n]*", "")
                                .replaceAll("[\"\\s]+", " ")
                                .toLowerCase(Locale.ROOT)
                                .strip());
            }
        }
        return objects;
    }
}
