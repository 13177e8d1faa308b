package chainage.store.row;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** The statements of {@code statements.sql}, by name. */
public final class Sql {
    private static final String MARK = "-- @";
    private static final Map<String, String> STATEMENTS = parse(resource("statements.sql"));

    private Sql() {}

    public static String of(String name) {
        String sql = STATEMENTS.get(name);
        if (sql == null) {
            throw new AssertionError("no statement named " + name);
        }
        return sql;
    }

    /** The first column of all that a statement answers. */
    public static List<String> column(Connection connection, String statement) throws SQLException {
        List<String> found = new ArrayList<>();
        try (PreparedStatement select = connection.prepareStatement(of(statement));
                ResultSet row = select.executeQuery()) {
            while (row.next()) {
                found.add(row.getString(1));
            }
        }
        return found;
    }

    /** Text of a resource of the store. */
    public static String resource(String name) {
        try (InputStream in = Sql.class.getResourceAsStream("/chainage/store/" + name)) {
            if (in == null) {
                throw new AssertionError("no resource " + name);
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new AssertionError("unreadable resource " + name, e);
        }
    }

    private static Map<String, String> parse(String text) {
        Map<String, String> found = new HashMap<>();
        int at = text.indexOf(MARK);
        while (at >= 0) {
            int end = text.indexOf('\n', at);
            int next = text.indexOf(MARK, end);
            String body = text.substring(end, next < 0 ? text.length() : next);
            found.put(text.substring(at + MARK.length(), end).strip(), body.strip());
            at = next;
        }
        return Map.copyOf(found);
    }
}
