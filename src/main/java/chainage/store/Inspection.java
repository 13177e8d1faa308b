package chainage.store;

import chainage.quantity.RideKey;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.DateTimeException;
import java.util.ArrayList;
import java.util.List;

/**
 * Looks a ledger over, from the pages of the file to the words of each fact, and names every fault it finds. What a
 * fault hides is not looked at: without a table there are no rows, and on broken pages no facts.
 */
final class Inspection {
    private final FactReader reader;
    private final Schema schema;
    private final Connection connection;
    private final List<String> found = new ArrayList<>();
    private long last;

    Inspection(FactReader reader, Schema schema, Connection connection) {
        this.reader = reader;
        this.schema = schema;
        this.connection = connection;
    }

    List<String> troubles() throws SQLException, LedgerException {
        List<String> rules = new ArrayList<>();
        for (String line : reader.rows("integrity", row -> row.getString(1))) {
            if (line.startsWith("CHECK constraint failed")) {
                rules.add(line);
            } else if (!line.equals("ok")) {
                found.add(line);
            }
        }
        if (!found.isEmpty()) {
            return found;
        }
        found.addAll(schema.differences(connection));
        if (found.stream().anyMatch(f -> f.startsWith("its table") && f.endsWith("missing"))) {
            return found;
        }
        found.addAll(reader
                .rows(
                        "foreign-keys",
                        row -> "a row of " + row.getString(1) + " points to a row of " + row.getString(3)
                                + " that is not there")
                .stream()
                .distinct()
                .sorted()
                .toList());
        int before = found.size();
        entries();
        rides();
        // The facts themselves say more than the rule that they break.
        if (found.size() == before) {
            found.addAll(rules);
        }
        return found;
    }

    private void entries() throws SQLException, LedgerException {
        reader.rows("entries", row -> {
            long number = row.getLong("number");
            if (number != last + 1) {
                found.add(
                        number == last + 2
                                ? "entry " + (last + 1) + " is missing"
                                : "entries " + (last + 1) + " to " + (number - 1) + " are missing");
            }
            last = number;
            if (row.getLong("command") < 1 || row.getLong("command") > number) {
                found.add("entry " + number + " is of command " + row.getLong("command") + ", which cannot be");
            }
            entry(number, row.getString("kind"), row.getString("payload"));
            return number;
        });
    }

    private void entry(long number, String kind, String payload) {
        try {
            EventCodec.checked(kind, payload);
        } catch (IllegalArgumentException | ArithmeticException | DateTimeException | ClassCastException e) {
            found.add("entry " + number + " cannot be understood (" + e.getMessage() + ")");
        }
    }

    private void rides() throws SQLException, LedgerException {
        reader.rows("check-rides", row -> {
            String id = row.getString("id");
            try {
                RideKey read = RideRow.readAll(row).key();
                RideKey key = new RideKey(read.digest(), read.session());
                if (!key.id().equals(id)) {
                    found.add("ride " + id + " does not bear the name of its content, " + key.id());
                }
            } catch (RuntimeException e) {
                found.add("ride " + id + " cannot be understood (" + e.getMessage() + ")");
            }
            return id;
        });
    }
}
