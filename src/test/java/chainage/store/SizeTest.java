package chainage.store;

import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.quantity.ContentDigest;
import chainage.quantity.RideKey;
import chainage.ride.Pedalling;
import chainage.ride.PowerTrace;
import chainage.ride.Ride;
import chainage.ride.RideFormat;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.UnaryOperator;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SizeTest {
    private static final int RIDES = 2000;

    @TempDir
    Path folder;

    /** A two-hour ride with power, 16 bands of development, four sensors and a waypoint every six minutes. */
    private static Ride fullRide(int number) {
        Random r = new Random(number);
        ContentDigest digest = ContentDigest.of(("ride " + number).getBytes(StandardCharsets.UTF_8));
        Instant start = Instant.ofEpochSecond(1_500_000_000L + number * 90_000L);
        return new Ride(
                new RideKey(digest, 0),
                RideFormat.FIT,
                start,
                7200 + r.nextDouble(),
                7000 + r.nextDouble(),
                new Ride.Distance(50_000 + r.nextDouble() * 9000, Ride.MetresFrom.DEVICE_TOTAL),
                new Ride.Effort(r.nextDouble() * 900, 17.3, 180 + r.nextDouble(), 7.9 + r.nextDouble(), 7200),
                new Ride.Activity("cycling", "road", Ride.Activity.Kind.CYCLING, false),
                new Pedalling(
                        IntStream.range(0, 16)
                                .mapToObj(i -> new Pedalling.Row(
                                        0,
                                        0,
                                        4.125 + i * 0.25,
                                        r.nextInt(900),
                                        r.nextDouble() * 1000,
                                        r.nextDouble() * 160_000,
                                        r.nextDouble() * 7000))
                                .toList(),
                        612,
                        5012.3456),
                IntStream.range(0, 4)
                        .mapToObj(i -> new Ride.Device("bike_sensor", "" + r.nextInt(99_999_999)))
                        .toList(),
                List.of(),
                new Ride.Labels("Morning round", "", ""),
                IntStream.range(0, 20)
                        .mapToObj(i -> new Ride.Waypoint(
                                start.plusSeconds(360L * i),
                                r.nextInt(9000) / 100.0,
                                r.nextInt(18_000) / 100.0,
                                r.nextDouble() * 50_000))
                        .toList(),
                List.of(),
                null,
                null,
                new PowerTrace(
                        25_000_000 + number * 1500,
                        IntStream.range(0, 120).mapToObj(i -> minute(r)).toList()));
    }

    /** Every third one with some rolling in it, power wandering by 45 W: two bytes, as real rides take. */
    private static PowerTrace.Minute minute(Random r) {
        boolean steady = r.nextInt(3) > 0;
        int watts = (int) Math.max(0, 180 + 45 * r.nextGaussian());
        return new PowerTrace.Minute(60, steady ? 60 : 30, watts, steady ? (int) (86 + 4 * r.nextGaussian()) : 0);
    }

    private long bytesEach(String name, UnaryOperator<Ride> kept) throws IOException {
        Path path = folder.resolve(name);
        try (LedgerFile ledger = LedgerFile.open(path)) {
            List<Delivery> batch = new ArrayList<>();
            for (int n = 0; n < RIDES; n++) {
                Ride ride = kept.apply(fullRide(n));
                batch.add(LedgerFileTest.delivery(
                        "/home/rider/rides/2025/morning-round-" + n + ".fit",
                        List.of(ride),
                        ride.key().digest()));
            }
            ledger.appendRides(batch);
        }
        return Files.size(path) / RIDES;
    }

    /** Our own targets, so that ten thousand rides stay a small file. */
    @Test
    void aFullRideTakesNoMoreThanTwoKilobytesAndItsPowerLessThanASeventhOnTop() throws IOException {
        long without = bytesEach("without.db", r -> r.withPower(PowerTrace.NONE));
        long with = bytesEach("with.db", r -> r);
        assertTrue(without <= 2048, without + " bytes a ride");
        assertTrue(with < 1.15 * without, with + " bytes a ride with its power, " + without + " without");
    }
}
