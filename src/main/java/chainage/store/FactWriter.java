package chainage.store;

import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ride.Ride;
import chainage.store.row.EventCodec;
import chainage.store.row.KeptInsert;
import chainage.store.row.PowerRow;
import chainage.store.row.RideRow;
import chainage.store.row.Sql;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Writes facts as rows, inside a transaction of its caller. */
final class FactWriter {
    private final Connection connection;

    FactWriter(Connection connection) {
        this.connection = connection;
    }

    List<Entry> entries(List<Event> events, Instant recorded) throws SQLException {
        List<Entry> entries = new ArrayList<>();
        long number = lastEntry();
        try (PreparedStatement statement = prepare("entry-insert")) {
            KeptInsert insert = new KeptInsert(statement);
            long command = number + 1;
            Instant kept = Instant.ofEpochMilli(recorded.toEpochMilli());
            for (Event event : events) {
                EventCodec.Encoded encoded = EventCodec.encode(event);
                insert.whole(++number)
                        .whole(command)
                        .whole(kept.toEpochMilli())
                        .text(encoded.kind())
                        .text(encoded.payload())
                        .execute();
                entries.add(new Entry(number, command, kept, EventCodec.decode(encoded.kind(), encoded.payload())));
            }
        }
        return List.copyOf(entries);
    }

    /**
     * Writes new observations, and then the entry that brought them.
     *
     * @param inForce numbers of the entries whose observations are known already
     * @return the entry; empty when nothing was new
     */
    <X extends Exception> Optional<Entry> weather(WeatherFeed<X> feed, Set<Long> inForce, Instant recorded)
            throws SQLException, X {
        NewObservations brought;
        try (PreparedStatement insert = prepare("observation-insert")) {
            brought = new NewObservations(insert, lastEntry() + 1, inForce.toString());
            feed.pour(brought);
            brought.rethrow();
        }
        Optional<Event> event = brought.event(feed);
        return event.isEmpty()
                ? Optional.empty()
                : Optional.of(entries(List.of(event.get()), recorded).get(0));
    }

    /** The number of the last entry, damaged or not; where the count of them is damaged, it is put right first. */
    long lastEntry() throws SQLException {
        try (PreparedStatement raise = prepare("extent-raise")) {
            raise.executeUpdate();
        }
        try (PreparedStatement last = prepare("extent");
                ResultSet row = last.executeQuery()) {
            return row.getLong(1);
        }
    }

    void deliveries(List<Delivery> batch) throws SQLException {
        try (PreparedStatement overtaken = prepare("content-overtaken");
                PreparedStatement drop = prepare("sources-drop-content");
                PreparedStatement content = prepare("content-insert");
                PreparedStatement ride = prepare("ride-insert");
                PreparedStatement power = prepare("power-insert");
                PreparedStatement place = prepare("place-insert");
                PreparedStatement source = prepare("source-upsert");
                PreparedStatement sum = prepare("source-sum");
                PreparedStatement stale = prepare("source-drop-stale-entries")) {
            KeptInsert contents = new KeptInsert(content);
            KeptInsert rides = new KeptInsert(ride);
            KeptInsert powers = new KeptInsert(power);
            KeptInsert places = new KeptInsert(place);
            for (Delivery delivery : batch) {
                Source s = delivery.source();
                byte[] digest = RideRow.bytes(s.digest());
                if (digest != null && s.verdict() != Source.Verdict.KNOWN) {
                    forget(delivery, overtaken, drop);
                    contents.bytes(digest)
                            .text(s.verdict().word())
                            .text(s.reason())
                            .text(s.hint())
                            .whole(
                                    delivery.ahead() == null
                                            ? null
                                            : delivery.ahead().toEpochMilli())
                            .execute();
                }
                for (Ride r : delivery.rides()) {
                    RideRow.bind(rides, r);
                    rides.execute();
                    if (!r.power().isEmpty()) {
                        PowerRow.insert(powers, r);
                    }
                }
                if (digest != null) {
                    places.text(s.path()).bytes(digest).execute();
                }
                source(source, s);
                sum.setString(1, s.path());
                sum.executeUpdate();
                if (s.verdict() == Source.Verdict.ARCHIVE) {
                    stale.setString(1, s.path());
                    stale.setLong(2, s.modifiedMillis());
                    stale.executeUpdate();
                }
            }
        }
    }

    /** What each path held is forgotten where the verdict on the content is about to give way to another. */
    private static void forget(Delivery delivery, PreparedStatement overtaken, PreparedStatement drop)
            throws SQLException {
        overtaken.setBytes(1, RideRow.bytes(delivery.source().digest()));
        millis(overtaken, 2, delivery.ahead());
        try (ResultSet row = overtaken.executeQuery()) {
            if (row.next()) {
                drop.setLong(1, row.getLong(1));
                drop.executeUpdate();
            }
        }
    }

    private static void millis(PreparedStatement statement, int index, @Nullable Instant at) throws SQLException {
        if (at == null) {
            statement.setNull(index, Types.INTEGER);
        } else {
            statement.setLong(index, at.toEpochMilli());
        }
    }

    private static void source(PreparedStatement upsert, Source source) throws SQLException {
        upsert.setString(1, source.path());
        upsert.setLong(2, source.size());
        upsert.setLong(3, source.modifiedMillis());
        upsert.setBytes(4, RideRow.bytes(source.digest()));
        upsert.setString(5, source.verdict().word());
        upsert.setString(6, source.reason());
        upsert.setString(7, source.hint());
        upsert.setInt(8, source.refusedParts());
        upsert.executeUpdate();
    }

    private PreparedStatement prepare(String statement) throws SQLException {
        return connection.prepareStatement(Sql.of(statement));
    }
}
