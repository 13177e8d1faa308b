package chainage.store;

import chainage.quantity.ContentDigest;
import chainage.quantity.RideKey;
import chainage.quantity.UtcText;
import java.io.IOException;
import java.io.InputStream;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.DateTimeException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Brings the lines of an export into a ledger, inside a transaction of its caller, which takes all of it back when this
 * throws. What is there already stays as it is: rides are merged by content, and facts only go on where those of the
 * ledger end.
 */
final class ExportReader {
    private static final String AGAIN = "the file is damaged or was changed by hand; export it again";

    private final Connection connection;
    private final Lines lines;
    private final Set<String> newContents = new HashSet<>();
    private final Set<String> contents = new HashSet<>();
    private final Map<String, List<RideKey>> ridesById = new HashMap<>();
    private final Map<Part, Long> counts = new EnumMap<>(Part.class);
    private long entriesThere;
    private long entries;
    private long rides;

    /** The kinds of lines, in the order in which an export has them. */
    private enum Part {
        ENTRY("entry", "entries"),
        CONTENT("content", "contents"),
        RIDE("ride", "rides"),
        PLACE("place", "places"),
        SOURCE("source", "sources"),
        OBSERVATION("observation", "observations");

        final String word;
        final String many;

        Part(String word, String many) {
            this.word = word;
            this.many = many;
        }
    }

    ExportReader(Connection connection, InputStream in) {
        this.connection = connection;
        this.lines = new Lines(in);
    }

    Restored read() throws SQLException, IOException, ExportException {
        header();
        entriesThere = last();
        try (PreparedStatement entry = prepare("entry-insert");
                PreparedStatement content = prepare("export-content-insert");
                PreparedStatement ride = prepare("export-ride-insert");
                PreparedStatement place = prepare("place-insert");
                PreparedStatement source = prepare("export-source-insert");
                PreparedStatement observation = prepare("export-observation-insert")) {
            Map<Part, Taking> takings = Map.of(
                    Part.ENTRY, fields -> entry(fields, entry),
                    Part.CONTENT, fields -> content(fields, content),
                    Part.RIDE, fields -> ride(fields, ride),
                    Part.PLACE, fields -> place(fields, place),
                    Part.SOURCE, fields -> source(fields, source),
                    Part.OBSERVATION, fields -> observation(fields, observation));
            while (true) {
                String line = lines.next();
                if (line == null) {
                    throw bad("the export ends without its last line", "it was cut short; export it again");
                }
                try {
                    Json json = Json.parse(line);
                    Json end = json.optionalObject("end");
                    if (end != null) {
                        return finish(end);
                    }
                    take(json, takings);
                } catch (SQLException e) {
                    if (Disk.isConstraint(e)) {
                        throw bad("does not fit the rest (" + e.getMessage() + ")", AGAIN);
                    }
                    throw e;
                } catch (IllegalArgumentException
                        | ArithmeticException
                        | DateTimeException
                        | ClassCastException
                        | IndexOutOfBoundsException
                        | NullPointerException e) {
                    throw bad("cannot be understood (" + e.getMessage() + ")", AGAIN);
                }
            }
        }
    }

    private void header() throws IOException, ExportException {
        String line = lines.next();
        Json head;
        try {
            head = Json.parse(line == null ? "" : line);
            if (!ExportFormat.NAME.equals(head.optionalText("format"))) {
                throw bad("is no export of chainage", "name a file that chainage export wrote");
            }
            if (head.integer("version") > ExportFormat.VERSION) {
                throw bad("was made by a newer chainage", "upgrade this program");
            }
        } catch (IllegalArgumentException e) {
            throw bad("is no export of chainage (" + e.getMessage() + ")", "name a file that chainage export wrote");
        }
    }

    /** What becomes of a line of one kind. */
    private interface Taking {
        void of(Json fields) throws SQLException, ExportException;
    }

    private void take(Json json, Map<Part, Taking> takings) throws SQLException, ExportException {
        for (Part part : Part.values()) {
            Json fields = json.optionalObject(part.word);
            Taking taking = takings.get(part);
            if (fields != null && taking != null) {
                counts.merge(part, 1L, Long::sum);
                taking.of(fields);
                return;
            }
        }
        throw bad("is of no kind known here", "if a newer chainage wrote it, upgrade this program");
    }

    private long count(Part part) {
        return counts.getOrDefault(part, 0L);
    }

    private void entry(Json fields, PreparedStatement insert) throws SQLException, ExportException {
        long number = fields.integer("number");
        String kind = fields.text("kind");
        String fact = fields.object("fact").toString();
        EventCodec.checked(kind, fact);
        if (number <= entriesThere) {
            compare(number, kind, fact);
            return;
        }
        long command = fields.integer("command");
        if (command < 1 || command > number) {
            throw new IllegalArgumentException("entry " + number + " of command " + command);
        }
        insert.setLong(1, number);
        insert.setLong(2, command);
        insert.setLong(3, ExportFormat.millis(fields.text("recorded")));
        insert.setString(4, kind);
        insert.setString(5, fact);
        insert.executeUpdate();
        entries++;
    }

    /** Two histories cannot be joined: the numbers that each gave to its facts mean something. */
    private void compare(long number, String kind, String fact) throws SQLException, ExportException {
        try (PreparedStatement select = prepare("entry-by-number")) {
            select.setLong(1, number);
            try (ResultSet row = select.executeQuery()) {
                if (!row.next()
                        || !kind.equals(row.getString("kind"))
                        || !fact.equals(Json.parse(row.getString("payload")).toString())) {
                    throw bad(
                            "this ledger states something else as its entry " + number
                                    + ", and two histories cannot be joined",
                            "bring the export into a ledger of its own: --ledger FILE");
                }
            }
        }
    }

    private void content(Json fields, PreparedStatement insert) throws SQLException {
        String digest = fields.text("digest");
        insert.setBytes(1, bytes(digest));
        insert.setString(2, fields.text("outcome"));
        insert.setString(3, fields.text("reason"));
        insert.setString(4, fields.text("mend"));
        String ahead = fields.optionalText("ahead");
        FactWriter.millis(insert, 5, ahead == null ? null : UtcText.read(ahead));
        contents.add(digest);
        if (insert.executeUpdate() > 0) {
            newContents.add(digest);
        }
    }

    private void ride(Json fields, PreparedStatement insert) throws SQLException {
        String digest = stated(fields.text("digest"));
        int session = Math.toIntExact(fields.integer("session"));
        RideKey key = new RideKey(new ContentDigest(digest), session);
        String id = key.shortestId();
        ridesById.computeIfAbsent(id, i -> new ArrayList<>(1)).add(key);
        if (!newContents.contains(digest)) {
            return;
        }
        if (!id.equals(fields.text("id"))) {
            throw new IllegalArgumentException("a ride called " + fields.text("id") + " that is " + id);
        }
        int i = 0;
        insert.setInt(++i, session);
        insert.setString(++i, id);
        insert.setString(++i, fields.text("format"));
        insert.setLong(++i, ExportFormat.millis(fields.text("start")));
        insert.setDouble(++i, finite(fields.real("elapsed_s")));
        insert.setDouble(++i, finite(fields.real("moving_s")));
        insert.setDouble(++i, finite(fields.real("metres")));
        insert.setString(++i, fields.text("metres_from"));
        insert.setString(++i, fields.text("sport"));
        insert.setString(++i, fields.text("sub_sport"));
        insert.setString(++i, fields.text("kind"));
        insert.setInt(++i, fields.truth("indoor") ? 1 : 0);
        for (String name : List.of("ascent_metres", "celsius", "watts", "median_speed_mps")) {
            real(insert, ++i, fields.optionalReal(name));
        }
        insert.setInt(++i, Math.toIntExact(fields.integer("samples")));
        insert.setString(++i, fields.object("evidence").toString());
        Json pedalling = fields.optionalObject("pedalling");
        insert.setString(++i, pedalling == null ? null : pedalling.toString());
        insert.setBytes(++i, bytes(digest));
        insert.executeUpdate();
        rides++;
        readBack(digest, session);
    }

    /** A ride that no one could read later is refused now. */
    private void readBack(String digest, int session) throws SQLException {
        try (PreparedStatement select = prepare("ride-by-key")) {
            select.setBytes(1, bytes(digest));
            select.setInt(2, session);
            try (ResultSet row = select.executeQuery()) {
                if (row.next()) {
                    RideRow.readAll(row);
                }
            }
        }
    }

    private void source(Json fields, PreparedStatement insert) throws SQLException {
        String digest = fields.optionalText("digest");
        insert.setString(1, fields.text("path"));
        insert.setLong(2, fields.integer("bytes"));
        insert.setLong(3, ExportFormat.millis(fields.text("modified")));
        insert.setBytes(4, digest == null ? null : bytes(stated(digest)));
        insert.setString(5, fields.text("outcome"));
        insert.setString(6, fields.text("reason"));
        insert.setString(7, fields.text("mend"));
        insert.setLong(8, fields.integer("refused_parts"));
        insert.executeUpdate();
    }

    private void place(Json fields, PreparedStatement insert) throws SQLException {
        insert.setString(1, fields.text("path"));
        insert.setBytes(2, bytes(stated(fields.text("digest"))));
        insert.executeUpdate();
    }

    private void observation(Json fields, PreparedStatement insert) throws SQLException {
        long entry = fields.integer("entry");
        if (entry <= entriesThere) {
            return; // its entry is known, and so is what the entry brought
        }
        int i = 0;
        insert.setString(++i, fields.text("station"));
        insert.setLong(++i, ExportFormat.millis(fields.text("at")));
        insert.setLong(++i, entry);
        insert.setString(++i, fields.text("place"));
        insert.setLong(++i, fields.integer("seconds"));
        real(insert, ++i, fields.optionalReal("mm_an_hour"));
        insert.setString(++i, fields.text("seen"));
        real(insert, ++i, fields.optionalReal("celsius"));
        real(insert, ++i, fields.optionalReal("humidity"));
        real(insert, ++i, fields.optionalReal("wind"));
        real(insert, ++i, fields.optionalReal("cloud"));
        insert.executeUpdate();
    }

    private static void real(PreparedStatement insert, int index, @Nullable Double value) throws SQLException {
        if (value == null) {
            insert.setNull(index, Types.REAL);
        } else {
            insert.setDouble(index, finite(value));
        }
    }

    /** Of rides that begin alike the first one kept is meant by a fact, here and in the ledger of the export. */
    private void checkAlike() throws SQLException, ExportException {
        Map<String, List<RideKey>> here = new LinkedHashMap<>();
        try (PreparedStatement select = prepare("rides-alike");
                ResultSet row = select.executeQuery()) {
            while (row.next()) {
                here.computeIfAbsent(row.getString("id"), i -> new ArrayList<>())
                        .add(new RideKey(RideRow.digest(row.getBytes("digest")), row.getInt("session")));
            }
        }
        for (Map.Entry<String, List<RideKey>> alike : here.entrySet()) {
            List<RideKey> there = ridesById.getOrDefault(alike.getKey(), List.of());
            if (Collections.indexOfSubList(alike.getValue(), there) != 0) {
                throw bad(
                        "the export calls another ride " + alike.getKey() + " than this ledger, and facts that name it"
                                + " would change sides",
                        "bring the export into a ledger of its own: --ledger FILE");
            }
        }
    }

    private Restored finish(Json end) throws IOException, SQLException, ExportException {
        for (Part part : Part.values()) {
            long there = count(part);
            if (end.integer(part.many) != there) {
                throw bad(
                        "the export should hold " + end.integer(part.many) + " " + part.many + " and holds " + there,
                        AGAIN);
            }
        }
        if (lines.next() != null) {
            throw bad("something stands behind the last line of the export", AGAIN);
        }
        if (entries + rides > 0) {
            checkAlike();
        }
        long allRides = count(Part.RIDE);
        return new Restored(entries, count(Part.ENTRY) - entries, rides, allRides - rides);
    }

    private long last() throws SQLException {
        try (PreparedStatement select = prepare("last-entry");
                ResultSet row = select.executeQuery()) {
            return row.getLong(1);
        }
    }

    /** A digest that a line before has named as a content. */
    private String stated(String digest) {
        if (!contents.contains(digest)) {
            throw new IllegalArgumentException("its content stands on no line before");
        }
        return digest;
    }

    private static double finite(double value) {
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException("a figure without bounds");
        }
        return value;
    }

    private static byte[] bytes(@Nullable String digest) {
        return HexFormat.of().parseHex(Objects.requireNonNull(digest));
    }

    private ExportException bad(String what, String hint) {
        return new ExportException(lines.number(), what, hint);
    }

    private PreparedStatement prepare(String statement) throws SQLException {
        return connection.prepareStatement(Sql.of(statement));
    }
}
