package chainage.store;

import chainage.analysis.Snapshot;
import chainage.ledger.Entry;
import chainage.quantity.ContentDigest;
import chainage.ride.FiledRide;
import chainage.ride.Ride;
import chainage.weather.Observation;
import java.io.UncheckedIOException;
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
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/** Reads rows into facts, inside a transaction of its caller. */
final class FactReader {
    /** More than any road stays wet. */
    private static final Duration AROUND = Duration.ofDays(7);

    private final Path path;
    private final Connection connection;

    FactReader(Path path, Connection connection) {
        this.path = path;
        this.connection = connection;
    }

    Snapshot snapshot() throws SQLException, LedgerException {
        List<Entry> entries = entries();
        List<FiledRide> rides = rides();
        return Snapshot.of(entries, rides, weather(rides));
    }

    /** Observations around the rides; what lies before and after them all has no ride to speak for. */
    private Map<Long, List<Observation>> weather(List<FiledRide> rides) throws SQLException, LedgerException {
        Map<Long, List<Observation>> byEntry = new TreeMap<>();
        if (rides.isEmpty()) {
            return byEntry;
        }
        Instant first = rides.stream()
                .map(r -> r.ride().start())
                .min(Instant::compareTo)
                .orElseThrow();
        Instant last =
                rides.stream().map(r -> r.ride().end()).max(Instant::compareTo).orElseThrow();
        try (PreparedStatement select = connection.prepareStatement(Sql.of("observations"))) {
            select.setLong(1, first.minus(AROUND).toEpochMilli());
            select.setLong(2, last.plus(AROUND).toEpochMilli());
            try (ResultSet row = select.executeQuery()) {
                while (row.next()) {
                    byEntry.computeIfAbsent(row.getLong(4), e -> new ArrayList<>())
                            .add(ObservationRow.read(row));
                }
            }
        } catch (IllegalArgumentException e) {
            throw Disk.corrupt(path, "an observation cannot be understood (" + e.getMessage() + ")", e);
        }
        return byEntry;
    }

    List<Entry> entries() throws SQLException, LedgerException {
        return rows("entries", row -> {
            long number = row.getLong(1);
            try {
                return new Entry(
                        number,
                        row.getLong(2),
                        Instant.ofEpochMilli(row.getLong(3)),
                        EventCodec.decode(row.getString(4), row.getString(5)));
            } catch (RuntimeException e) {
                throw Disk.corrupt(path, "entry " + number + " cannot be understood (" + e.getMessage() + ")", e);
            }
        });
    }

    /** In the order in which they are kept. */
    private List<FiledRide> rides() throws SQLException, LedgerException {
        Map<Long, List<String>> paths = new HashMap<>();
        rows(
                "places",
                row -> paths.computeIfAbsent(row.getLong(1), content -> new ArrayList<>())
                        .add(row.getString(2)));
        return rows("rides", row -> {
            String id = row.getString("id");
            try {
                return new FiledRide(
                        RideRow.read(row, e -> new UncheckedIOException(corrupt(id, e))),
                        paths.getOrDefault(row.getLong("content"), List.of()));
            } catch (RuntimeException e) {
                throw corrupt(id, e);
            }
        });
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
        List<Ride> rides = new ArrayList<>();
        try (PreparedStatement select = connection.prepareStatement(Sql.of("rides-of-content"))) {
            select.setLong(1, content);
            try (ResultSet row = select.executeQuery()) {
                while (row.next()) {
                    rides.add(RideRow.readAll(row));
                }
            }
        } catch (RuntimeException e) {
            throw Disk.corrupt(path, "a ride cannot be understood (" + e.getMessage() + ")", e);
        }
        return rides;
    }

    private LedgerException corrupt(String ride, RuntimeException e) {
        return Disk.corrupt(path, "ride " + ride + " cannot be understood (" + e.getMessage() + ")", e);
    }

    /** What is remembered of files, but for verdicts that hung on the clock and that {@code latest} puts in doubt. */
    SeenSources seen(Instant latest) throws SQLException, LedgerException {
        Map<ContentDigest, SeenSources.Content> byDigest = new HashMap<>();
        Set<ContentDigest> doubtful = new HashSet<>();
        rows("contents", row -> {
            ContentDigest digest = RideRow.digest(row.getBytes(1));
            long millis = row.getLong(5);
            Instant ahead = row.wasNull() ? null : Instant.ofEpochMilli(millis);
            if (ahead != null && !ahead.isAfter(latest)) {
                return doubtful.add(digest);
            }
            Source.Verdict verdict = Source.Verdict.of(row.getString(2));
            byDigest.put(digest, new SeenSources.Content(verdict, row.getString(3), row.getString(4), ahead));
            return true;
        });
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

    /** Sources by one of the two statements that select them. */
    List<Source> sources(String statement) throws SQLException, LedgerException {
        return rows(statement, row -> {
            byte[] digest = row.getBytes(4);
            return new Source(
                    row.getString(1),
                    row.getLong(2),
                    row.getLong(3),
                    digest == null ? null : RideRow.digest(digest),
                    Source.Verdict.of(row.getString(5)),
                    row.getString(6),
                    row.getString(7),
                    row.getInt(8));
        });
    }

    interface Row<T> {
        T read(ResultSet row) throws SQLException, LedgerException;
    }

    <T> List<T> rows(String statement, Row<T> reader) throws SQLException, LedgerException {
        List<T> found = new ArrayList<>();
        try (PreparedStatement select = connection.prepareStatement(Sql.of(statement));
                ResultSet row = select.executeQuery()) {
            while (row.next()) {
                found.add(reader.read(row));
            }
        }
        return found;
    }
}
