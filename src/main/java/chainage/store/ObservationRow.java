package chainage.store;

import chainage.weather.Air;
import chainage.weather.Observation;
import chainage.weather.Place;
import chainage.weather.Seen;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;

/** Observations to and from rows. */
final class ObservationRow {
    private ObservationRow() {}

    static void bind(PreparedStatement insert, Observation o, long entry, String entriesInForce) throws SQLException {
        insert.setString(1, o.station());
        insert.setLong(2, o.at().toEpochMilli());
        insert.setString(3, o.place().text());
        insert.setLong(4, entry);
        insert.setInt(5, o.seconds());
        RideRow.setReal(insert, 6, o.millimetresPerHour());
        insert.setString(7, o.seen().words());
        RideRow.setReal(insert, 8, o.air().celsius());
        RideRow.setReal(insert, 9, o.air().humidityPercent());
        RideRow.setReal(insert, 10, o.air().metresPerSecond());
        RideRow.setReal(insert, 11, o.air().cloud());
        insert.setString(12, entriesInForce);
    }

    static Observation read(ResultSet row) throws SQLException {
        return new Observation(
                row.getString("station"),
                Place.of(row.getString("place")),
                Instant.ofEpochMilli(row.getLong("at")),
                row.getInt("seconds"),
                RideRow.real(row, "mm_an_hour"),
                Seen.of(row.getString("seen")),
                new Air(
                        RideRow.real(row, "celsius"),
                        RideRow.real(row, "humidity"),
                        RideRow.real(row, "wind"),
                        RideRow.real(row, "cloud")));
    }
}
