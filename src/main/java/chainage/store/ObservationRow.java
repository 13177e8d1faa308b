package chainage.store;

import chainage.weather.Intensity;
import chainage.weather.Observation;
import chainage.weather.Phenomenon;
import chainage.weather.Place;
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
        insert.setString(
                3, o.place().known() ? o.place().latitude() + "," + o.place().longitude() : "");
        insert.setLong(4, entry);
        insert.setInt(5, o.seconds());
        RideRow.setReal(insert, 6, o.millimetresPerHour());
        insert.setString(7, o.seen());
        RideRow.setReal(insert, 8, o.celsius());
        RideRow.setReal(insert, 9, o.humidityPercent());
        insert.setString(10, entriesInForce);
    }

    static Observation read(ResultSet row) throws SQLException {
        return new Observation(
                        row.getString("station"),
                        place(row.getString("place")),
                        Instant.ofEpochMilli(row.getLong("at")),
                        row.getInt("seconds"),
                        RideRow.real(row, "mm_an_hour"),
                        false,
                        Phenomenon.UNSTATED,
                        Intensity.NONE,
                        RideRow.real(row, "celsius"),
                        RideRow.real(row, "humidity"))
                .withSeen(row.getString("seen"));
    }

    private static Place place(String text) {
        int comma = text.indexOf(',');
        return comma < 0
                ? Place.UNKNOWN
                : new Place(
                        Double.parseDouble(text.substring(0, comma)), Double.parseDouble(text.substring(comma + 1)));
    }
}
