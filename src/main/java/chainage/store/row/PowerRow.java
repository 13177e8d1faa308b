package chainage.store.row;

import chainage.quantity.RideKey;
import chainage.ride.PowerTrace;
import chainage.ride.Ride;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

/** A ride's power by the minute, to and from its row and its line of an export. */
public final class PowerRow {
    private PowerRow() {}

    public static void insert(KeptInsert insert, Ride ride) throws SQLException {
        insert(insert, ride.key(), ride.power());
    }

    private static void insert(KeptInsert insert, RideKey key, PowerTrace power) throws SQLException {
        insert.whole(key.session())
                .bytes(PackedPower.pack(power))
                .bytes(RideRow.bytes(key.digest()))
                .execute();
    }

    /**
     * Reads a row.
     *
     * @throws DamagedRowException when it is not as it was written
     * @throws IllegalArgumentException when nothing can be made of it
     */
    public static PowerTrace read(ResultSet kept) throws SQLException, DamagedRowException {
        KeptRow row = new KeptRow(kept);
        row.whole("session");
        byte[] minutes = row.bytes("minutes");
        row.bytes("digest");
        row.verify();
        return PackedPower.unpack(minutes);
    }

    /** Minutes as seconds, turning seconds, watts and revolutions a minute. */
    public static JsonRow line(ResultSet row) throws SQLException {
        PowerTrace power = PackedPower.unpack(row.getBytes("minutes"));
        return new JsonRow()
                .with("digest", RideRow.digest(row.getBytes("digest")).hex())
                .with("session", row.getInt("session"))
                .with(
                        "from",
                        ExportFormat.time(
                                Instant.EPOCH.plusSeconds(60 * power.first()).toEpochMilli()))
                .with(
                        "minutes",
                        power.minutes().stream()
                                .map(m -> List.of(m.seconds(), m.turning(), m.watts(), m.rpm()))
                                .toList());
    }

    public static void restore(KeptInsert insert, RideKey key, JsonRow fields) throws SQLException {
        List<PowerTrace.Minute> minutes = new ArrayList<>();
        for (Object row : fields.list("minutes")) {
            List<?> m = (List<?>) row;
            minutes.add(new PowerTrace.Minute(figure(m, 0), figure(m, 1), figure(m, 2), figure(m, 3)));
        }
        long millis = ExportFormat.millis(fields.text("from"));
        insert(insert, key, new PowerTrace(Math.floorDiv(millis, 60_000L), minutes));
    }

    private static int figure(List<?> minute, int place) {
        return ((Number) minute.get(place)).intValue();
    }
}
