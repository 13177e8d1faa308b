package chainage.store;

import chainage.weather.Intensity;
import chainage.weather.Observation;
import chainage.weather.Phenomenon;
import chainage.weather.Place;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
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
        real(insert, 6, o.millimetresPerHour());
        insert.setString(7, o.seen());
        real(insert, 8, o.celsius());
        real(insert, 9, o.humidityPercent());
        insert.setString(10, entriesInForce);
    }

    private static void real(PreparedStatement statement, int index, double value) throws SQLException {
        if (Double.isNaN(value)) {
            statement.setNull(index, Types.REAL);
        } else {
            statement.setDouble(index, value);
        }
    }

    static Observation read(ResultSet row) throws SQLException {
        return new Observation(
                        row.getString(1),
                        place(row.getString(3)),
                        Instant.ofEpochMilli(row.getLong(2)),
                        row.getInt(5),
                        real(row, 6),
                        false,
                        Phenomenon.UNSTATED,
                        Intensity.NONE,
                        real(row, 8),
                        real(row, 9))
                .withSeen(row.getString(7));
    }

    private static Place place(String text) {
        int comma = text.indexOf(',');
        return comma < 0
                ? Place.UNKNOWN
                : new Place(
                        Double.parseDouble(text.substring(0, comma)), Double.parseDouble(text.substring(comma + 1)));
    }

    private static double real(ResultSet row, int index) throws SQLException {
        double value = row.getDouble(index);
        return row.wasNull() ? Double.NaN : value;
    }
}
