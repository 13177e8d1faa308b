package chainage.store;

import chainage.weather.Intensity;
import chainage.weather.Observation;
import chainage.weather.Phenomenon;
import chainage.weather.Place;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;

/** Observations to and from rows. */
final class ObservationRow {
    private ObservationRow() {}

    static void bind(KeptInsert insert, Observation o, long entry) throws SQLException {
        insert.text(o.station())
                .whole(o.at().toEpochMilli())
                .text(o.place().known() ? o.place().latitude() + "," + o.place().longitude() : "")
                .whole(entry)
                .whole(o.seconds())
                .real(o.millimetresPerHour())
                .text(o.seen())
                .real(o.celsius())
                .real(o.humidityPercent());
    }

    /**
     * Reads a row.
     *
     * @throws DamagedRowException when it is not as it was written, or no observation can be made of it
     */
    static Kept read(ResultSet kept) throws SQLException, DamagedRowException {
        KeptRow row = new KeptRow(kept);
        String station = row.text("station");
        Instant at = Instant.ofEpochMilli(row.whole("at"));
        String place = row.text("place");
        long entry = row.whole("entry");
        int seconds = (int) row.whole("seconds");
        double rate = row.real("mm_an_hour");
        String seen = row.text("seen");
        double celsius = row.real("celsius");
        double humidity = row.real("humidity");
        row.verify();
        try {
            return new Kept(
                    entry,
                    new Observation(
                                    station,
                                    place(place),
                                    at,
                                    seconds,
                                    rate,
                                    false,
                                    Phenomenon.UNSTATED,
                                    Intensity.NONE,
                                    celsius,
                                    humidity)
                            .withSeen(seen));
        } catch (RuntimeException e) {
            throw DamagedRowException.of(e);
        }
    }

    /** @param entry number of the entry that brought it */
    record Kept(long entry, Observation observation) {}

    private static Place place(String text) {
        int comma = text.indexOf(',');
        return comma < 0
                ? Place.UNKNOWN
                : new Place(
                        Double.parseDouble(text.substring(0, comma)), Double.parseDouble(text.substring(comma + 1)));
    }
}
