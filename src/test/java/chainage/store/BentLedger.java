package chainage.store;

import chainage.store.row.RowSum;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;

/** Changes a value in a ledger file past the guards of its tables: as a bad disk does, or as a hand that means it. */
public final class BentLedger {
    private static final String POWER_SUMS = "update power set sum = (select row_sum(ride.session, power.minutes,"
            + " content.digest) from ride join content on content.id = ride.content where ride.number = power.ride)";

    private static final List<Long> WHOLE = List.of(
            0L,
            -1L,
            1L,
            2L,
            1_000L,
            2_147_483_648L,
            253_402_300_800_000L,
            4_102_444_800_000L,
            -86_400_000L,
            Long.MAX_VALUE,
            Long.MIN_VALUE);

    private static final List<Double> REAL = List.of(
            0.0, -1.0, 1e308, -1e308, Double.MIN_VALUE, 1e9, 0.5, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY);

    private BentLedger() {}

    /**
     * A column that holds something of the rider's.
     *
     * @param type as it is declared
     */
    public record Column(String table, String name, String type) {
        @Override
        public String toString() {
            return table + "." + name;
        }
    }

    /** All columns of the tables that hold facts and what is remembered, sums aside. */
    public static List<Column> columns(Path ledger) throws SQLException {
        List<Column> columns = new ArrayList<>();
        try (Connection c = connect(ledger);
                Statement s = c.createStatement();
                ResultSet row = s.executeQuery("select t.name, i.name, lower(i.type) from pragma_table_list t"
                        + " join pragma_table_info(t.name) i where t.schema = 'main' and t.type = 'table'"
                        + " and t.name not like 'sqlite%' and i.name <> 'sum' order by 1, 2")) {
            while (row.next()) {
                columns.add(new Column(row.getString(1), row.getString(2), row.getString(3)));
            }
        }
        return columns;
    }

    /**
     * Gives a value of some row of the column another value, with the sums put right: nothing tells it from a fact but
     * that no one can have meant it.
     *
     * @param json bends a text of JSON
     * @param texts for texts that are none
     * @return what was changed; null where there is no row, or the file refuses it
     */
    public static @Nullable String mean(
            Path ledger, Column column, Random random, UnaryOperator<String> json, List<String> texts)
            throws SQLException {
        return change(ledger, column, random, true, was -> {
            if (random.nextInt(12) == 0) {
                return null;
            }
            return switch (column.type()) {
                case "integer" ->
                    random.nextInt(3) == 0 && was instanceof Number n
                            ? (Object) (n.longValue() + random.nextInt(7) - 3)
                            : WHOLE.get(random.nextInt(WHOLE.size()));
                case "real" -> REAL.get(random.nextInt(REAL.size()));
                case "blob" -> bent(was instanceof byte[] b ? b : new byte[0], random);
                default -> {
                    String text = String.valueOf(was);
                    yield text.startsWith("{") ? json.apply(text) : texts.get(random.nextInt(texts.size()));
                }
            };
        });
    }

    private static byte[] bent(byte[] was, Random random) {
        if (was.length == 0 || random.nextInt(4) == 0) {
            return new byte[random.nextInt(40)];
        }
        byte[] is = random.nextInt(4) == 0 ? Arrays.copyOf(was, random.nextInt(was.length)) : was.clone();
        if (is.length > 0) {
            is[random.nextInt(is.length)] ^= (byte) (1 << random.nextInt(8));
        }
        return is;
    }

    /**
     * Turns a bit of a value of some row of the column; its sum stays as it was.
     *
     * @param place from 0 for the first bit of the value up to 1, just behind its last
     * @return what was changed; null where there is no value
     */
    public static @Nullable String rot(Path ledger, Column column, Random random, double place) throws SQLException {
        return change(ledger, column, random, false, was -> {
            if (was instanceof Long || was instanceof Integer) {
                return ((Number) was).longValue() ^ 1L << (int) (place * Long.SIZE);
            }
            if (was instanceof Double d) {
                return Double.longBitsToDouble(Double.doubleToRawLongBits(d) ^ 1L << (int) (place * Double.SIZE));
            }
            if (was == null) {
                return null;
            }
            byte[] bytes = was instanceof byte[] b ? b.clone() : ((String) was).getBytes(StandardCharsets.UTF_8);
            if (bytes.length == 0) {
                return was;
            }
            int bit = (int) (place * bytes.length * Byte.SIZE);
            bytes[bit / Byte.SIZE] ^= (byte) (1 << bit % Byte.SIZE);
            return bytes;
        });
    }

    /**
     * Runs a statement that changes one row, or takes one away, past the guards of its table.
     *
     * @throws IllegalArgumentException when it changes no row, or several
     */
    public static void damage(Path ledger, String table, String statement) throws SQLException {
        try (Connection c = connect(ledger);
                Statement s = c.createStatement()) {
            List<String> names = new ArrayList<>();
            List<String> guards = new ArrayList<>();
            try (ResultSet row = s.executeQuery("select name, sql from sqlite_schema where type = 'trigger'"
                    + " and tbl_name = '" + table + "' and name like '%!_is!_not!_%' escape '!'")) {
                while (row.next()) {
                    names.add(row.getString(1));
                    guards.add(row.getString(2));
                }
            }
            for (String name : names) {
                s.executeUpdate("drop trigger " + name);
            }
            if (s.executeUpdate(statement) != 1) {
                throw new IllegalArgumentException(statement);
            }
            for (String guard : guards) {
                s.executeUpdate(guard);
            }
        }
    }

    private static Connection connect(Path ledger) throws SQLException {
        Connection connection = DriverManager.getConnection("jdbc:sqlite:" + ledger);
        RowSum.register(connection);
        return connection;
    }

    private static @Nullable String change(
            Path ledger, Column column, Random random, boolean meant, UnaryOperator<@Nullable Object> change)
            throws SQLException {
        try (Connection c = connect(ledger);
                Statement s = c.createStatement()) {
            s.execute("pragma foreign_keys = off");
            s.execute("pragma ignore_check_constraints = on");
            c.setAutoCommit(false);
            // The n-th row by its order in the table, whatever its key is.
            String rows = "select row_number() over () - 1 as n, * from " + column.table();
            int count;
            try (ResultSet row = s.executeQuery("select count(*) from " + column.table())) {
                count = row.getInt(1);
            }
            if (count == 0) {
                return null;
            }
            int at = random.nextInt(count);
            List<String> keys = keys(s, column.table());
            List<Object> key = new ArrayList<>();
            Object was;
            try (ResultSet row = s.executeQuery("select * from (" + rows + ") where n = " + at)) {
                was = row.getObject(column.name());
                for (String k : keys) {
                    key.add(row.getObject(k));
                }
            }
            Object is = change.apply(was);
            List<String> guards = guards(s, column.table());
            String cast = column.type().equals("text") && is instanceof byte[] ? "cast(? as text)" : "?";
            try (PreparedStatement update = c.prepareStatement("update " + column.table() + " set " + column.name()
                    + " = " + cast + " where " + String.join(" is ? and ", keys) + " is ?")) {
                update.setObject(1, is);
                for (int i = 0; i < key.size(); i++) {
                    update.setObject(i + 2, key.get(i));
                }
                if (update.executeUpdate() != 1) {
                    c.rollback();
                    return null;
                }
                if (meant) {
                    for (String sums : sums()) {
                        if (sums.startsWith("update " + column.table() + " ")
                                || column.table().equals("content")) {
                            s.executeUpdate(sums);
                        }
                    }
                }
            } catch (SQLException e) {
                // A column that takes no such value cannot hold it either.
                c.rollback();
                return null;
            }
            for (String guard : guards) {
                s.executeUpdate(guard);
            }
            c.commit();
            return column + " of row " + at + " " + text(was) + " → " + text(is);
        }
    }

    private static List<String> sums() {
        List<String> sums = new ArrayList<>(List.of(BrokenLedgerTest.SUMS));
        sums.add(POWER_SUMS);
        return sums;
    }

    private static List<String> keys(Statement s, String table) throws SQLException {
        List<String> keys = new ArrayList<>();
        try (ResultSet row = s.executeQuery("select name from pragma_table_info('" + table + "') where pk > 0")) {
            while (row.next()) {
                keys.add(row.getString(1));
            }
        }
        return keys;
    }

    /** Takes the guards of changes away, of all tables since sums of several may be put right. */
    private static List<String> guards(Statement s, String table) throws SQLException {
        List<String> made = new ArrayList<>();
        List<String> names = new ArrayList<>();
        String of = table.equals("content") ? "%" : table;
        try (ResultSet row = s.executeQuery("select name, sql from sqlite_schema where type = 'trigger' and name like '"
                + of + "!_is!_not!_changed' escape '!'")) {
            while (row.next()) {
                names.add(row.getString(1));
                made.add(row.getString(2));
            }
        }
        for (String name : names) {
            s.executeUpdate("drop trigger " + name);
        }
        return made;
    }

    private static String text(@Nullable Object value) {
        String text =
                value instanceof byte[] bytes ? new String(bytes, StandardCharsets.ISO_8859_1) : String.valueOf(value);
        return text.length() > 160 ? text.substring(0, 160) + "…" : text;
    }
}
