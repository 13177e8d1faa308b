package chainage.store;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.Map;

/** The statements of {@code statements.sql}, by name. */
final class Sql {
    private static final String MARK = "-- @";
    private static final Map<String, String> STATEMENTS = parse(resource("statements.sql"));

    private Sql() {}

    static String of(String name) {
        String sql = STATEMENTS.get(name);
        if (sql == null) {
            throw new AssertionError("no statement named " + name);
        }
        return sql;
    }

    /** Text of a resource beside this class. */
    static String resource(String name) {
        try (InputStream in = Sql.class.getResourceAsStream(name)) {
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
