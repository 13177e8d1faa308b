package chainage.store;

import chainage.analysis.Snapshot;
import chainage.ledger.Entry;
import chainage.quantity.ContentDigest;
import chainage.quantity.RideKey;
import chainage.quantity.UtcText;
import chainage.ride.FiledRide;
import chainage.ride.PowerTrace;
import chainage.ride.Ride;
import chainage.store.file.Failures;
import chainage.store.file.LedgerException;
import chainage.store.row.DamagedRowException;
import chainage.store.row.EventCodec;
import chainage.store.row.KeptRow;
import chainage.store.row.ObservationRow;
import chainage.store.row.PowerRow;
import chainage.store.row.RideRow;
import chainage.store.row.Sql;
import chainage.weather.Observation;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Consumer;

/** Reads rows into facts, inside a transaction of its caller. */
final class FactReader {
    /** More than any road stays wet. */
    private static final Duration AROUND = Duration.ofDays(7);

    /** So much is told of a damaged fact; our guess at what tells a rider which one it was. */
    private static final int MOST_LEFT = 500;

    private final Path path;
    private final Connection connection;
    private final Consumer<String> late;
    private final List<String> leftOut = new ArrayList<>();

    /** @param late is told what had to be left out once it was looked at, which may be when the ledger is closed */
    FactReader(Path path, Connection connection, Consumer<String> late) {
        this.path = path;
        this.connection = connection;
        this.late = late;
    }

    /**
     * All that can be read. What is damaged is left out, so that one turned bit does not take all answers away; what is
     * left out is told by {@link #leftOut()}.
     */
    Snapshot snapshot() throws SQLException, LedgerException {
        List<Entry> entries = entries();
        List<FiledRide> rides = rides();
        return Snapshot.of(entries, rides, weather(rides));
    }

    /** What had to be left out since this was last asked, each once and with what is wrong with it. */
    List<String> leftOut() {
        List<String> told = leftOut.stream().distinct().toList();
        leftOut.clear();
        return told;
    }

    /** How far the facts and the rides go, as was counted when they were written. */
    record Extent(long entries, long rides) {}

    Extent extent() throws SQLException, LedgerException {
        return rows("extent", row -> new Extent(row.getLong(1), row.getLong(2))).get(0);
    }

    /** The stamp of this state; see LeftLog. Empty where it cannot be read: what it is for can do without. */
    String state() {
        try (PreparedStatement select = connection.prepareStatement(Sql.of("stamp"));
                ResultSet row = select.executeQuery()) {
            return row.next() ? HexFormat.of().formatHex(row.getBytes(1)) : "";
        } catch (SQLException e) {
            return "";
        }
    }

    /** Observations around the rides; what lies before and after them all has no ride to speak for. */
    private Map<Long, List<Observation>> weather(List<FiledRide> rides) throws SQLException, LedgerException {
        if (rides.isEmpty()) {
            return Map.of();
        }
        Instant first = rides.stream()
                .map(r -> r.ride().start())
                .min(Instant::compareTo)
                .orElseThrow();
        Instant last =
                rides.stream().map(r -> r.ride().end()).max(Instant::compareTo).orElseThrow();
        return weather(first.minus(AROUND), last.plus(AROUND));
    }

    /** Observations of a time, by the entry that brought them. */
    Map<Long, List<Observation>> weather(Instant from, Instant to) throws SQLException, LedgerException {
        Map<Long, List<Observation>> byEntry = new TreeMap<>();
        try (PreparedStatement select = connection.prepareStatement(Sql.of("observations"))) {
            select.setLong(1, from.toEpochMilli());
            select.setLong(2, to.toEpochMilli());
            for (ObservationRow.Kept kept : rows(select, OBSERVATION, ObservationRow::read)) {
                byEntry.computeIfAbsent(kept.entry(), e -> new ArrayList<>()).add(kept.observation());
            }
        }
        return byEntry;
    }

    List<Entry> entries() throws SQLException, LedgerException {
        int before = leftOut.size();
        List<Entry> entries = kept("entries", ENTRY, this::entry);
        missing("an entry", "entries", extent().entries() - entries.size() - (leftOut.size() - before));
        return entries;
    }

    private Entry entry(ResultSet row) throws SQLException, LedgerException, DamagedRowException {
        Stated stated = stated(row);
        try {
            return new Entry(
                    stated.number(),
                    stated.command(),
                    Instant.ofEpochMilli(stated.recorded()),
                    EventCodec.checked(stated.kind(), stated.payload()));
        } catch (RuntimeException e) {
            if (!EventCodec.knows(stated.kind())) {
                // Of a later program, not damaged; to answer without it would be to answer wrong.
                throw Failures.corrupt(
                        path, "entry " + stated.number() + " cannot be understood (" + e.getMessage() + ")", e);
            }
            throw e;
        }
    }

    /** A row of entry, as it was written. */
    record Stated(long number, long command, long recorded, String kind, String payload) {}

    static Stated stated(ResultSet kept) throws SQLException, DamagedRowException {
        KeptRow row = new KeptRow(kept);
        Stated stated = new Stated(
                row.whole("number"),
                row.whole("command"),
                row.whole("recorded"),
                row.text("kind"),
                row.text("payload"));
        row.verify();
        return stated;
    }

    /** What can still be read of a damaged entry, shortened. */
    static String left(ResultSet row) throws SQLException {
        String left = row.getString("kind") + " " + row.getString("payload");
        return left.codePointCount(0, left.length()) > MOST_LEFT
                ? left.substring(0, left.offsetByCodePoints(0, MOST_LEFT))
                : left;
    }

    /** Every path that a content was seen under, by content. */
    Map<Long, List<String>> places() throws SQLException, LedgerException {
        Map<Long, List<String>> paths = new HashMap<>();
        kept("places", PLACE, kept -> {
            KeptRow row = new KeptRow(kept);
            String place = row.text("path");
            row.bytes("digest");
            row.verify();
            return paths.computeIfAbsent(kept.getLong("content"), content -> new ArrayList<>())
                    .add(place);
        });
        return paths;
    }

    /** In the order in which they are kept. */
    private List<FiledRide> rides() throws SQLException, LedgerException {
        Map<Long, List<String>> paths = places();
        Overlaps overlaps = new Overlaps();
        List<FiledRide> rides = rides("rides", row -> {
            String id = row.getString("id");
            Ride ride = RideRow.read(
                    row, e -> late.accept("ride " + id + " cannot be understood (" + e.getMessage() + ")"));
            overlaps.add(row.getLong("number"), ride);
            return new FiledRide(ride, paths.getOrDefault(row.getLong("content"), List.of()));
        });
        Map<RideKey, PowerTrace> powers = powers(overlaps.numbers());
        if (!powers.isEmpty()) {
            rides.replaceAll(r -> {
                PowerTrace power = powers.get(r.ride().key());
                return power == null ? r : new FiledRide(r.ride().withPower(power), r.paths());
            });
        }
        return rides;
    }

    private Map<RideKey, PowerTrace> powers(Set<Long> rides) throws SQLException, LedgerException {
        Map<RideKey, PowerTrace> powers = new HashMap<>();
        if (!rides.isEmpty()) {
            try (PreparedStatement select = connection.prepareStatement(Sql.of("power-of"))) {
                select.setString(1, rides.toString());
                rows(
                        select,
                        POWER,
                        row -> powers.put(
                                new RideKey(RideRow.digest(row.getBytes("digest")), row.getInt("session")),
                                PowerRow.read(row)));
            }
        }
        return powers;
    }

    /** All rides, by one of the statements that select them; those that are missing are told with the damaged. */
    <T> List<T> rides(String statement, Row<T> reader) throws SQLException, LedgerException {
        int before = leftOut.size();
        List<T> rides = kept(statement, RIDE, reader);
        missing("a ride", "rides", extent().rides() - rides.size() - (leftOut.size() - before));
        return rides;
    }

    /** Notes rows that were written and are not there. */
    void missing(String one, String many, long count) {
        if (count > 0) {
            leftOut.add(count == 1 ? one + " is missing" : count + " " + many + " are missing");
        }
    }

    /** Notes a row that cannot be used. */
    void leaveOut(Title title, ResultSet row, DamagedRowException why) throws SQLException {
        leftOut.add(title.of(row) + " " + why.what());
    }

    Map<Instant, List<Long>> contentsByStart() throws SQLException, LedgerException {
        Map<Instant, List<Long>> contents = new HashMap<>();
        rows(
                "starts",
                row -> contents.computeIfAbsent(Instant.ofEpochMilli(row.getLong(1)), s -> new ArrayList<>(1))
                        .add(row.getLong(2)));
        return contents;
    }

    List<Ride> ridesOf(long content) throws SQLException, LedgerException {
        try (PreparedStatement select = connection.prepareStatement(Sql.of("rides-of-content"))) {
            select.setLong(1, content);
            return rows(select, RIDE, RideRow::readAll);
        }
    }

    /** What is remembered of files, but for verdicts that hung on the clock and that {@code latest} puts in doubt. */
    SeenSources seen(Instant latest) throws SQLException, LedgerException {
        Map<ContentDigest, SeenSources.Content> byDigest = new HashMap<>();
        Set<ContentDigest> doubtful = new HashSet<>();
        contents(latest, byDigest, doubtful);
        Map<String, Source> byPath = new HashMap<>();
        List<String> again = new ArrayList<>();
        for (Source source : sources("sources")) {
            if (doubtful.contains(source.digest())) {
                again.add(source.path());
            } else {
                byPath.put(source.path(), source);
            }
        }
        for (String path : again) {
            // An entry is read again only with its archive.
            for (int end = path.indexOf("!/"); end >= 0; end = path.indexOf("!/", end + 1)) {
                byPath.remove(path.substring(0, end));
            }
        }
        return new SeenSources(byPath, byDigest);
    }

    /**
     * What was made of each content.
     *
     * @param doubtful gets those whose verdict hung on the clock and is in doubt now, or is damaged
     */
    void contents(Instant latest, Map<ContentDigest, SeenSources.Content> byDigest, Set<ContentDigest> doubtful)
            throws SQLException, LedgerException {
        kept("contents", CONTENT, kept -> {
            KeptRow row = new KeptRow(kept);
            ContentDigest digest = RideRow.digest(row.bytes("digest"));
            String verdict = row.text("outcome");
            String reason = row.text("reason");
            String hint = row.text("mend");
            Long millis = row.optionalWhole("ahead");
            Instant ahead = millis == null ? null : Instant.ofEpochMilli(millis);
            try {
                row.verify();
            } catch (DamagedRowException e) {
                doubtful.add(digest);
                throw e;
            }
            if (ahead != null && !ahead.isAfter(latest)) {
                return doubtful.add(digest);
            }
            byDigest.put(digest, new SeenSources.Content(Source.Verdict.of(verdict), reason, hint, ahead));
            return true;
        });
    }

    /** Sources by one of the two statements that select them. */
    List<Source> sources(String statement) throws SQLException, LedgerException {
        return kept(statement, SOURCE, kept -> {
            KeptRow row = new KeptRow(kept);
            String source = row.text("path");
            long size = row.whole("size");
            long modified = row.whole("modified");
            byte[] digest = row.optionalBytes("digest");
            String verdict = row.text("outcome");
            String reason = row.text("reason");
            String hint = row.text("mend");
            int refused = (int) row.whole("refused_parts");
            row.verify();
            return new Source(
                    source,
                    size,
                    modified,
                    digest == null ? null : RideRow.digest(digest),
                    Source.Verdict.of(verdict),
                    reason,
                    hint,
                    refused);
        });
    }

    /** Makes something of a row. What it throws unchecked says that nothing can be made of it. */
    interface Row<T> {
        T read(ResultSet row) throws SQLException, LedgerException, DamagedRowException;
    }

    /** What a row is called to the rider. */
    interface Title {
        String of(ResultSet row) throws SQLException;
    }

    static final Title ENTRY = row -> "entry " + row.getLong("number");
    static final Title RIDE = row -> "ride " + row.getString("id");
    static final Title PLACE = row -> "a path of rides, " + row.getString("path") + ",";
    static final Title POWER = row -> "the power of ride " + row.getString("id");
    static final Title CONTENT = row -> "what was made of a file's content";
    static final Title SOURCE = row -> "what is remembered of " + row.getString("path");
    static final Title OBSERVATION = row -> "an observation"
            + (row.getString("station").isEmpty() ? "" : " of " + row.getString("station")) + ", "
            + UtcText.of(Instant.ofEpochMilli(row.getLong("at"))) + ",";

    <T> List<T> rows(String statement, Row<T> reader) throws SQLException, LedgerException {
        return kept(statement, row -> "a row", reader);
    }

    /** Rows of a table, but for those that are damaged. */
    <T> List<T> kept(String statement, Title title, Row<T> reader) throws SQLException, LedgerException {
        try (PreparedStatement select = connection.prepareStatement(Sql.of(statement))) {
            return rows(select, title, reader);
        }
    }

    private <T> List<T> rows(PreparedStatement select, Title title, Row<T> reader)
            throws SQLException, LedgerException {
        List<T> found = new ArrayList<>();
        try (ResultSet row = select.executeQuery()) {
            while (row.next()) {
                try {
                    found.add(reader.read(row));
                } catch (DamagedRowException e) {
                    leaveOut(title, row, e);
                } catch (RuntimeException e) {
                    leaveOut(title, row, DamagedRowException.of(e));
                }
            }
        }
        return found;
    }
}
