package chainage.store;

import chainage.quantity.RideKey;
import chainage.store.file.LedgerException;
import chainage.store.file.Schema;
import chainage.store.row.DamagedRowException;
import chainage.store.row.EventCodec;
import chainage.store.row.PowerRow;
import chainage.store.row.RideRow;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;

/**
 * Looks a ledger over, from the pages of the file to the words of each fact, and names every fault it finds. What a
 * fault hides is not looked at: without a table there are no rows, and on broken pages no facts.
 */
final class Inspection {
    /** How what a reading of a logbook left begins. */
    private static final String READING = "logbook-read ";

    private static final String TWICE =
            " (without it the logbook is read as if new: take back then what it states a second time)";

    private final FactReader reader;
    private final Schema schema;
    private final Connection connection;
    private final List<Fault> found = new ArrayList<>();
    private long last;

    Inspection(FactReader reader, Schema schema, Connection connection) {
        this.reader = reader;
        this.schema = schema;
        this.connection = connection;
    }

    List<Fault> faults() throws SQLException, LedgerException {
        List<String> rules = new ArrayList<>();
        for (String line : reader.rows("integrity", row -> row.getString(1))) {
            if (line.startsWith("CHECK constraint failed")) {
                rules.add(line);
            } else if (!line.equals("ok")) {
                add(line);
            }
        }
        if (!found.isEmpty()) {
            return found;
        }
        schema.differences(connection).forEach(this::add);
        if (found.stream()
                .anyMatch(f -> f.what().startsWith("its table") && f.what().endsWith("missing"))) {
            return found;
        }
        reader
                .rows(
                        "foreign-keys",
                        row -> "a row of " + row.getString(1) + " points to a row of " + row.getString(3)
                                + " that is not there")
                .stream()
                .distinct()
                .sorted()
                .forEach(this::add);
        int before = found.size();
        entries();
        rides();
        reader.kept("powers", FactReader.POWER, PowerRow::read);
        reader.places();
        reader.contents(Instant.EPOCH, new HashMap<>(), new HashSet<>());
        reader.sources("sources");
        leftOut(Fault.Remedy.FILES);
        reader.weather(Instant.ofEpochMilli(Long.MIN_VALUE), Instant.ofEpochMilli(Long.MAX_VALUE));
        leftOut(Fault.Remedy.WEATHER);
        // The facts themselves say more than the rule that they break.
        if (found.size() == before) {
            rules.forEach(this::add);
        }
        return List.copyOf(found);
    }

    private void add(String what) {
        found.add(new Fault(what, Fault.Remedy.COPY));
    }

    private void leftOut(Fault.Remedy remedy) {
        reader.leftOut().forEach(what -> found.add(new Fault(what, remedy)));
    }

    private void entries() throws SQLException, LedgerException {
        reader.kept("entries", FactReader.ENTRY, row -> {
            long number = row.getLong("number");
            gap(number - 1);
            last = number;
            if (row.getLong("command") < 1 || row.getLong("command") > number) {
                add("entry " + number + " is of command " + row.getLong("command") + ", which cannot be");
            }
            try {
                FactReader.Stated stated = FactReader.stated(row);
                return EventCodec.checked(stated.kind(), stated.payload());
            } catch (DamagedRowException e) {
                // A rider who is to enter it again must know which it was.
                String left = FactReader.left(row);
                throw new DamagedRowException(
                        e.what() + " and reads " + left + (left.startsWith(READING) ? TWICE : ""), e);
            }
        });
        leftOut(Fault.Remedy.FACT);
        counted("facts", reader.extent().entries(), last);
        gap(reader.extent().entries());
    }

    /** One more than is there is told as missing. */
    private void counted(String what, long counted, long there) {
        if (counted < there) {
            add("its count of " + what + " is " + counted + ", and there are " + there);
        }
    }

    /** Names the entries that are missing up to one that should be there. */
    private void gap(long to) {
        if (to > last) {
            add(
                    to == last + 1
                            ? "entry " + to + " is missing"
                            : "entries " + (last + 1) + " to " + to + " are missing");
        }
    }

    private void rides() throws SQLException, LedgerException {
        long[] there = {0};
        reader.rides("check-rides", row -> {
            there[0]++;
            RideKey read = RideRow.readAll(row).key();
            RideKey key = new RideKey(read.digest(), read.session());
            String id = row.getString("id");
            if (!key.id().equals(id)) {
                add("ride " + id + " does not bear the name of its content, " + key.id());
            }
            return id;
        });
        leftOut(Fault.Remedy.FILES);
        counted("rides", reader.extent().rides(), there[0]);
    }
}
