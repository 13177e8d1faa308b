package chainage.store;

import chainage.quantity.ContentDigest;
import chainage.quantity.RideKey;
import chainage.quantity.UtcText;
import chainage.store.file.Failures;
import chainage.store.row.DamagedRowException;
import chainage.store.row.EventCodec;
import chainage.store.row.ExportFormat;
import chainage.store.row.JsonRow;
import chainage.store.row.KeptInsert;
import chainage.store.row.PowerRow;
import chainage.store.row.RideRow;
import chainage.store.row.Sql;
import java.io.IOException;
import java.io.InputStream;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
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
        POWER("power", "powers"),
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
                PreparedStatement power = prepare("power-insert");
                PreparedStatement place = prepare("place-insert");
                PreparedStatement source = prepare("export-source-insert");
                PreparedStatement observation = prepare("export-observation-insert")) {
            Map<Part, Taking> takings = new EnumMap<>(Part.class);
            takings.put(Part.ENTRY, taking(entry, this::entry));
            takings.put(Part.CONTENT, taking(content, this::content));
            takings.put(Part.RIDE, taking(ride, this::ride));
            takings.put(Part.POWER, taking(power, this::power));
            takings.put(Part.PLACE, taking(place, this::place));
            takings.put(Part.SOURCE, taking(source, this::source));
            takings.put(Part.OBSERVATION, taking(observation, this::observation));
            while (true) {
                String line = lines.next();
                if (line == null) {
                    throw bad("the export ends without its last line", "it was cut short; export it again");
                }
                try {
                    JsonRow json = JsonRow.parse(line);
                    JsonRow end = json.optionalObject("end");
                    if (end != null) {
                        return finish(end);
                    }
                    take(json, takings);
                } catch (SQLException e) {
                    if (Failures.isConstraint(e)) {
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
        JsonRow head;
        try {
            head = JsonRow.parse(line == null ? "" : line);
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
        void of(JsonRow fields) throws SQLException, ExportException;
    }

    private interface Insertion {
        void of(JsonRow fields, KeptInsert insert) throws SQLException, ExportException;
    }

    private static Taking taking(PreparedStatement statement, Insertion insertion) {
        KeptInsert insert = new KeptInsert(statement);
        return fields -> insertion.of(fields, insert);
    }

    private void take(JsonRow json, Map<Part, Taking> takings) throws SQLException, ExportException {
        for (Part part : Part.values()) {
            JsonRow fields = json.optionalObject(part.word);
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

    private void entry(JsonRow fields, KeptInsert insert) throws SQLException, ExportException {
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
        insert.whole(number)
                .whole(command)
                .whole(ExportFormat.millis(fields.text("recorded")))
                .text(kind)
                .text(fact)
                .execute();
        entries++;
    }

    /** Two histories cannot be joined: the numbers that each gave to its facts mean something. */
    private void compare(long number, String kind, String fact) throws SQLException, ExportException {
        try (PreparedStatement select = prepare("entry-by-number")) {
            select.setLong(1, number);
            try (ResultSet row = select.executeQuery()) {
                if (!row.next()
                        || !kind.equals(row.getString("kind"))
                        || !fact.equals(JsonRow.parse(row.getString("payload")).toString())) {
                    throw bad(
                            "this ledger states something else as its entry " + number
                                    + ", and two histories cannot be joined",
                            "bring the export into a ledger of its own: --ledger FILE");
                }
            }
        }
    }

    private void content(JsonRow fields, KeptInsert insert) throws SQLException {
        String digest = fields.text("digest");
        String ahead = fields.optionalText("ahead");
        insert.bytes(bytes(digest))
                .text(fields.text("outcome"))
                .text(fields.text("reason"))
                .text(fields.text("mend"))
                .whole(ahead == null ? null : UtcText.read(ahead).toEpochMilli());
        contents.add(digest);
        if (insert.execute() > 0) {
            newContents.add(digest);
        }
    }

    private void ride(JsonRow fields, KeptInsert insert) throws SQLException {
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
        insert.whole(session)
                .text(id)
                .text(fields.text("format"))
                .whole(ExportFormat.millis(fields.text("start")))
                .real(finite(fields.real("elapsed_s")))
                .real(finite(fields.real("moving_s")))
                .real(finite(fields.real("metres")))
                .text(fields.text("metres_from"))
                .text(fields.text("sport"))
                .text(fields.text("sub_sport"))
                .text(fields.text("kind"))
                .whole(fields.truth("indoor") ? 1 : 0);
        for (String name : List.of("ascent_metres", "celsius", "watts", "median_speed_mps")) {
            insert.real(finiteOrNone(fields.optionalReal(name)));
        }
        JsonRow pedalling = fields.optionalObject("pedalling");
        int samples = Math.toIntExact(fields.integer("samples"));
        insert.whole(samples)
                .text(fields.object("evidence").toString())
                .text(pedalling == null ? null : pedalling.toString())
                .bytes(bytes(digest))
                .execute();
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
        } catch (DamagedRowException e) {
            throw new IllegalArgumentException(e.what(), e);
        }
    }

    private void power(JsonRow fields, KeptInsert insert) throws SQLException {
        int session = Math.toIntExact(fields.integer("session"));
        PowerRow.restore(insert, new RideKey(new ContentDigest(stated(fields.text("digest"))), session), fields);
    }

    private void source(JsonRow fields, KeptInsert insert) throws SQLException {
        String digest = fields.optionalText("digest");
        insert.text(fields.text("path"))
                .whole(fields.integer("bytes"))
                .whole(ExportFormat.millis(fields.text("modified")))
                .bytes(digest == null ? null : bytes(stated(digest)))
                .text(fields.text("outcome"))
                .text(fields.text("reason"))
                .text(fields.text("mend"))
                .whole(fields.integer("refused_parts"))
                .execute();
    }

    private void place(JsonRow fields, KeptInsert insert) throws SQLException {
        insert.text(fields.text("path"))
                .bytes(bytes(stated(fields.text("digest"))))
                .execute();
    }

    private void observation(JsonRow fields, KeptInsert insert) throws SQLException {
        long entry = fields.integer("entry");
        if (entry <= entriesThere) {
            return; // its entry is known, and so is what the entry brought
        }
        insert.text(fields.text("station"))
                .whole(ExportFormat.millis(fields.text("at")))
                .text(fields.text("place"))
                .whole(entry)
                .whole(fields.integer("seconds"))
                .real(finiteOrNone(fields.optionalReal("mm_an_hour")))
                .text(fields.text("seen"))
                .real(finiteOrNone(fields.optionalReal("celsius")))
                .real(finiteOrNone(fields.optionalReal("humidity")))
                .real(finiteOrNone(fields.optionalReal("wind")))
                .real(finiteOrNone(fields.optionalReal("cloud")))
                .execute();
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

    private Restored finish(JsonRow end) throws IOException, SQLException, ExportException {
        for (Part part : Part.values()) {
            long there = count(part);
            // An export without any traces of power says nothing of them, as those of before.
            if (!(part == Part.POWER && there == 0 && end.optionalReal(part.many) == null)
                    && end.integer(part.many) != there) {
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
        try (PreparedStatement select = prepare("extent");
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

    private static double finiteOrNone(@Nullable Double value) {
        return value == null ? Double.NaN : finite(value);
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
