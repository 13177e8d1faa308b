package chainage.store;

import chainage.ledger.Event;
import chainage.store.row.DamagedRowException;
import chainage.store.row.EventCodec;
import chainage.store.row.ExportFormat;
import chainage.store.row.JsonRow;
import chainage.store.row.KeptRow;
import chainage.store.row.ObservationRow;
import chainage.store.row.PowerRow;
import chainage.store.row.RideRow;
import chainage.store.row.Sql;
import java.io.IOException;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.HashSet;
import java.util.HexFormat;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * Writes all facts as lines, row by row, inside a transaction of its caller. The order depends on the facts alone, not
 * on the order in which they came in, save that entries keep their numbers, and that rides whose ids begin alike stay in
 * the order which says what facts mean.
 */
final class ExportWriter {
    /** The columns of each kind of row, in the order of its sum. */
    private static final List<String> CONTENT = List.of("digest", "outcome", "reason", "mend", "ahead");

    private static final List<String> RIDE = List.of(
            "session",
            "id",
            "format",
            "start",
            "elapsed",
            "moving",
            "metres",
            "metres_from",
            "sport",
            "sub_sport",
            "kind",
            "indoor",
            "ascent",
            "celsius",
            "watts",
            "median_speed",
            "samples",
            "evidence",
            "pedalling",
            "digest");
    private static final List<String> POWER = List.of("session", "minutes", "digest");
    private static final List<String> PLACE = List.of("path", "digest");
    private static final List<String> SOURCE =
            List.of("path", "size", "modified", "digest", "outcome", "reason", "mend", "refused_parts");
    private static final List<String> OBSERVATION = List.of(
            "station", "at", "place", "entry", "seconds", "mm_an_hour", "seen", "celsius", "humidity", "wind", "cloud");

    /** So many facts may be missing between two; our guess: where more are, it is a number that is damaged. */
    private static final int MOST_MISSING = 100_000;

    private final Connection connection;
    private final FactReader reader;
    private final Set<String> unsound = new HashSet<>();

    /** @param reader is told what is left out */
    ExportWriter(Connection connection, FactReader reader) {
        this.connection = connection;
        this.reader = reader;
    }

    void write(Appendable out) throws SQLException, IOException {
        out.append(new JsonRow()
                        .with("format", ExportFormat.NAME)
                        .with("version", ExportFormat.VERSION)
                        .toString())
                .append('\n');
        JsonRow end = new JsonRow()
                .with("entries", entries(out))
                .with(
                        "contents",
                        lines(out, "content", "export-contents", FactReader.CONTENT, CONTENT, ExportWriter::content)
                                + contentsOfSoundRides(out))
                .with(
                        "rides",
                        lines(out, "ride", "export-rides", FactReader.RIDE, RIDE, ExportWriter::ride)
                                + lines(out, "ride", "export-rides-alike", FactReader.RIDE, RIDE, ExportWriter::ride))
                .with("powers", orNull(lines(out, "power", "powers", FactReader.POWER, POWER, PowerRow::line)))
                .with("places", lines(out, "place", "export-places", FactReader.PLACE, PLACE, ExportWriter::place))
                .with(
                        "sources",
                        lines(out, "source", "export-sources", FactReader.SOURCE, SOURCE, ExportWriter::source))
                .with(
                        "observations",
                        lines(
                                out,
                                "observation",
                                "export-observations",
                                FactReader.OBSERVATION,
                                OBSERVATION,
                                ExportWriter::observation));
        // Tells a whole export from one that was cut short.
        ExportFormat.line(out, "end", end);
    }

    /** An export that has none says nothing of them, as before there were any. */
    private static @Nullable Long orNull(long count) {
        return count == 0 ? null : count;
    }

    private interface Row {
        JsonRow fields(ResultSet row) throws SQLException, DamagedRowException;
    }

    /**
     * Writes all entries. In the place of one that is damaged or missing stands that it was lost, since the others are
     * counted on from it.
     */
    private long entries(Appendable out) throws SQLException, IOException {
        reader.entries(); // which tells what is damaged, and refuses what a later program wrote
        long last = reader.extent().entries();
        long count = 0;
        long recorded = 0;
        try (PreparedStatement select = connection.prepareStatement(Sql.of("entries"));
                ResultSet row = select.executeQuery()) {
            while (row.next()) {
                long number = row.getLong("number");
                JsonRow entry = soundEntry(row);
                if (entry == null && (number <= count || number > last)) {
                    continue; // its number is what is damaged
                }
                if (number - count > MOST_MISSING) {
                    reader.leaveOut(
                            FactReader.ENTRY, row, new DamagedRowException("has a number far from the others'", null));
                    continue;
                }
                while (++count < number) {
                    ExportFormat.line(out, "entry", lost(count, recorded, ""));
                }
                recorded = entry == null ? recorded : row.getLong("recorded");
                ExportFormat.line(out, "entry", entry == null ? lost(number, recorded, FactReader.left(row)) : entry);
            }
        }
        return count;
    }

    /** An entry that is as it was written and can be understood; else null. */
    private static @Nullable JsonRow soundEntry(ResultSet row) throws SQLException {
        try {
            FactReader.Stated stated = FactReader.stated(row);
            EventCodec.checked(stated.kind(), stated.payload());
            return stated.command() < 1 || stated.command() > stated.number() ? null : entry(row);
        } catch (DamagedRowException | RuntimeException e) {
            return null;
        }
    }

    private static JsonRow lost(long number, long recorded, String was) {
        EventCodec.Encoded lost = EventCodec.encode(new Event.Lost(was));
        return new JsonRow()
                .with("number", number)
                .with("command", number)
                .with("recorded", ExportFormat.time(recorded))
                .with("kind", lost.kind())
                .with("fact", JsonRow.parse(lost.payload()));
    }

    /** Writes a line for each row that is as it was written. */
    private long lines(
            Appendable out, String kind, String statement, FactReader.Title title, List<String> summed, Row fields)
            throws SQLException, IOException {
        long count = 0;
        try (PreparedStatement select = connection.prepareStatement(Sql.of(statement));
                ResultSet row = select.executeQuery()) {
            while (row.next()) {
                if (!isSound(row, title, summed)) {
                    continue;
                }
                JsonRow json;
                try {
                    json = fields.fields(row);
                } catch (DamagedRowException e) {
                    leaveOut(row, title, summed, e);
                    continue;
                } catch (RuntimeException e) {
                    leaveOut(row, title, summed, DamagedRowException.of(e));
                    continue;
                }
                count++;
                ExportFormat.line(out, kind, json);
            }
        }
        return count;
    }

    /** Whether a row is as it was written, and the content that it speaks of was written out. */
    private boolean isSound(ResultSet row, FactReader.Title title, List<String> summed) throws SQLException {
        String digest = summed.contains("digest") ? digest(row) : null;
        try {
            KeptRow.verify(row, summed);
        } catch (DamagedRowException e) {
            leaveOut(row, title, summed, e);
            return false;
        }
        return digest == null || !unsound.contains(digest);
    }

    private void leaveOut(ResultSet row, FactReader.Title title, List<String> summed, DamagedRowException why)
            throws SQLException {
        reader.leaveOut(title, row, why);
        if (summed.equals(CONTENT)) {
            unsound.add(digest(row));
        }
    }

    /** What was made of contents that are damaged themselves, and of which sound rides tell. */
    private long contentsOfSoundRides(Appendable out) throws SQLException, IOException {
        Set<String> told = new TreeSet<>();
        for (String statement : unsound.isEmpty() ? List.<String>of() : List.of("export-rides", "export-rides-alike")) {
            try (PreparedStatement select = connection.prepareStatement(Sql.of(statement));
                    ResultSet row = select.executeQuery()) {
                while (row.next()) {
                    String digest = digest(row);
                    if (unsound.contains(digest) && isAsWritten(row)) {
                        told.add(digest);
                    }
                }
            }
        }
        for (String digest : told) {
            ExportFormat.line(
                    out,
                    "content",
                    new JsonRow()
                            .with("digest", digest)
                            .with("outcome", Source.Verdict.IMPORTED.word())
                            .with("reason", "")
                            .with("mend", "")
                            .with("ahead", (String) null));
        }
        unsound.removeAll(told);
        return told.size();
    }

    private static boolean isAsWritten(ResultSet ride) throws SQLException {
        try {
            KeptRow.verify(ride, RIDE);
            return true;
        } catch (DamagedRowException e) {
            return false;
        }
    }

    private static JsonRow entry(ResultSet row) throws SQLException {
        return new JsonRow()
                .with("number", row.getLong("number"))
                .with("command", row.getLong("command"))
                .with("recorded", ExportFormat.time(row.getLong("recorded")))
                .with("kind", row.getString("kind"))
                .with("fact", JsonRow.parse(row.getString("payload")));
    }

    private static JsonRow content(ResultSet row) throws SQLException {
        return new JsonRow()
                .with("digest", digest(row))
                .with("outcome", row.getString("outcome"))
                .with("reason", row.getString("reason"))
                .with("mend", row.getString("mend"))
                .with("ahead", time(row, "ahead"));
    }

    private static JsonRow ride(ResultSet row) throws SQLException, DamagedRowException {
        RideRow.readAll(row); // what no answer takes for a ride is none here
        return new JsonRow()
                .with("digest", digest(row))
                .with("session", row.getInt("session"))
                .with("id", row.getString("id"))
                .with("format", row.getString("format"))
                .with("start", ExportFormat.time(row.getLong("start")))
                .with("elapsed_s", row.getDouble("elapsed"))
                .with("moving_s", row.getDouble("moving"))
                .with("metres", row.getDouble("metres"))
                .with("metres_from", row.getString("metres_from"))
                .with("sport", row.getString("sport"))
                .with("sub_sport", row.getString("sub_sport"))
                .with("kind", row.getString("kind"))
                .with("indoor", row.getInt("indoor") == 1)
                .with("ascent_metres", real(row, "ascent"))
                .with("celsius", real(row, "celsius"))
                .with("watts", real(row, "watts"))
                .with("median_speed_mps", real(row, "median_speed"))
                .with("samples", row.getLong("samples"))
                .with("evidence", JsonRow.parse(row.getString("evidence")))
                .with("pedalling", json(row.getString("pedalling")));
    }

    private static JsonRow place(ResultSet row) throws SQLException {
        return new JsonRow().with("digest", digest(row)).with("path", row.getString("path"));
    }

    private static JsonRow source(ResultSet row) throws SQLException {
        return new JsonRow()
                .with("path", row.getString("path"))
                .with("bytes", row.getLong("size"))
                .with("modified", ExportFormat.time(row.getLong("modified")))
                .with("digest", digest(row))
                .with("outcome", row.getString("outcome"))
                .with("reason", row.getString("reason"))
                .with("mend", row.getString("mend"))
                .with("refused_parts", row.getLong("refused_parts"));
    }

    private static JsonRow observation(ResultSet row) throws SQLException, DamagedRowException {
        ObservationRow.read(row);
        return new JsonRow()
                .with("entry", row.getLong("entry"))
                .with("station", row.getString("station"))
                .with("at", ExportFormat.time(row.getLong("at")))
                .with("place", row.getString("place"))
                .with("seconds", row.getLong("seconds"))
                .with("mm_an_hour", real(row, "mm_an_hour"))
                .with("seen", row.getString("seen"))
                .with("celsius", real(row, "celsius"))
                .with("humidity", real(row, "humidity"))
                .with("wind", real(row, "wind"))
                .with("cloud", real(row, "cloud"));
    }

    private static @Nullable String digest(ResultSet row) throws SQLException {
        byte[] digest = row.getBytes("digest");
        return digest == null ? null : HexFormat.of().formatHex(digest);
    }

    private static @Nullable Double real(ResultSet row, String column) throws SQLException {
        double value = row.getDouble(column);
        return row.wasNull() ? null : value;
    }

    private static @Nullable String time(ResultSet row, String column) throws SQLException {
        long millis = row.getLong(column);
        return row.wasNull() ? null : ExportFormat.time(millis);
    }

    private static @Nullable JsonRow json(@Nullable String text) {
        return text == null ? null : JsonRow.parse(text);
    }
}
