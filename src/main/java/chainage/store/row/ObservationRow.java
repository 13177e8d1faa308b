package chainage.store.row;

import chainage.weather.Air;
import chainage.weather.Observation;
import chainage.weather.Place;
import chainage.weather.Seen;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;

/** Observations to and from rows. */
public final class ObservationRow {
    private ObservationRow() {}

    public static void bind(KeptInsert insert, Observation o, long entry) throws SQLException {
        insert.text(o.station())
                .whole(o.at().toEpochMilli())
                .text(o.place().text())
                .whole(entry)
                .whole(o.seconds())
                .real(o.millimetresPerHour())
                .text(o.seen().words())
                .real(o.air().celsius())
                .real(o.air().humidityPercent())
                .real(o.air().metresPerSecond())
                .real(o.air().cloud());
    }

    /**
     * Reads a row.
     *
     * @throws DamagedRowException when it is not as it was written
     * @throws RuntimeException when no observation can be made of it
     */
    public static Kept read(ResultSet kept) throws SQLException, DamagedRowException {
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
        double wind = row.real("wind");
        double cloud = row.real("cloud");
        row.verify();
        return new Kept(
                entry,
                new Observation(
                        station,
                        Place.of(place),
                        at,
                        seconds,
                        rate,
                        Seen.of(seen),
                        new Air(celsius, humidity, wind, cloud)));
    }

    /**
     * What was seen, as it is kept.
     *
     * @param entry number of the entry that brought it
     */
    public record Kept(long entry, Observation observation) {}
}
