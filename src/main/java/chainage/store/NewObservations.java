package chainage.store;

import chainage.ledger.Event;
import chainage.store.row.KeptInsert;
import chainage.store.row.ObservationRow;
import chainage.weather.Observation;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/** Writes observations and sums up those that were new. After a failure it takes no more. */
final class NewObservations implements Consumer<Observation> {
    private final KeptInsert insert;
    private final long entry;
    private final String inForce;
    private final SortedSet<String> stations = new TreeSet<>();
    private long count;
    private @Nullable Instant from;
    private @Nullable Instant to;
    private @Nullable SQLException failure;

    NewObservations(PreparedStatement insert, long entry, String inForce) {
        this.insert = new KeptInsert(insert);
        this.entry = entry;
        this.inForce = inForce;
    }

    @Override
    public void accept(Observation o) {
        if (failure != null) {
            return;
        }
        try {
            ObservationRow.bind(insert, o, entry);
            if (insert.aside(inForce).execute() > 0) {
                count++;
                from = from == null || o.at().isBefore(from) ? o.at() : from;
                to = to == null || o.at().isAfter(to) ? o.at() : to;
                if (!o.station().isEmpty()) {
                    stations.add(o.station());
                }
            }
        } catch (SQLException e) {
            failure = e;
        }
    }

    void rethrow() throws SQLException {
        if (failure != null) {
            throw failure;
        }
    }

    /** The fact to note; empty when nothing was new. */
    Optional<Event> event(WeatherFeed<?> feed) {
        return from == null || to == null
                ? Optional.empty()
                : Optional.of(new Event.WeatherAdded(
                        feed.source(), count, List.copyOf(stations), from, to, feed.place(), feed.columns()));
    }
}
