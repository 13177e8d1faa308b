package chainage.bench;

import chainage.ledger.Cleaning;
import chainage.ledger.Event;
import chainage.ledger.Rule;
import chainage.quantity.ContentDigest;
import chainage.quantity.RideKey;
import chainage.ride.Pedalling;
import chainage.ride.Ride;
import chainage.ride.RideFormat;
import chainage.store.Delivery;
import chainage.store.LedgerFile;
import chainage.store.Source;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.stream.IntStream;

/**
 * Writes a ledger of many two-hour rides, no two alike, without the files they would have come from: bikes told apart by
 * their power meters, each with chains that take turns and are treated before each turn. What a ride keeps is as much as
 * a head unit's file gives: 16 bands of development with power, 4 devices, a title, a waypoint every six minutes.
 */
final class LedgerMaker {
    /** The last ride begins just before; what the answers are asked for. */
    static final Instant AT = Instant.parse("2026-06-01T00:00:00Z");

    private static final Duration LONGEST_SPAN = Duration.ofDays(50 * 365);
    private static final Duration WIDEST_SPACING = Duration.ofHours(3);
    private static final int SECONDS = 7_200;
    private static final int CHAINS_A_BIKE = 4;
    private static final int TURNS = 20;
    private static final int BATCH = 500;

    private LedgerMaker() {}

    /**
     * Makes a ledger.
     *
     * @param rides how many; three hours from one start to the next, closer where they would take more than 50 years
     * @param bikes how many; each has 4 chains, and the rides go round them
     */
    static void make(Path ledger, int rides, int bikes) throws IOException {
        Duration widest = LONGEST_SPAN.dividedBy(rides);
        Duration spacing = widest.compareTo(WIDEST_SPACING) < 0 ? widest : WIDEST_SPACING;
        Instant first = AT.minus(spacing.multipliedBy(rides));
        try (LedgerFile file = LedgerFile.open(ledger)) {
            file.append(facts(bikes, first, spacing.multipliedBy(rides)), AT);
            deliver(file, rides, bikes, first, spacing);
        }
    }

    /** Makes one of rides alone, of which nothing is stated. */
    static void makeRides(Path ledger, int rides, int bikes, Duration span) throws IOException {
        try (LedgerFile file = LedgerFile.open(ledger)) {
            deliver(file, rides, bikes, start(0, rides, span), span.dividedBy(rides));
        }
    }

    /** When one of these begins. */
    static Instant start(int number, int rides, Duration span) {
        return AT.minus(span).plus(span.dividedBy(rides).multipliedBy(number));
    }

    private static void deliver(LedgerFile file, int rides, int bikes, Instant first, Duration spacing)
            throws IOException {
        List<Delivery> batch = new ArrayList<>();
        for (int i = 0; i < rides; i++) {
            batch.add(delivery(i, first.plus(spacing.multipliedBy(i)), i % bikes));
            if (batch.size() == BATCH || i + 1 == rides) {
                file.appendRides(batch);
                batch.clear();
            }
        }
    }

    private static List<Event> facts(int bikes, Instant first, Duration span) {
        List<Event> facts = new ArrayList<>();
        for (int b = 0; b < bikes; b++) {
            String bike = bike(b);
            facts.add(new Event.BikeDescribed(
                    bike, List.of(34, 50), List.of(11, 12, 13, 14, 15, 17, 19, 21, 24, 27, 30), 2.105));
            facts.add(new Event.RuleSet(new Rule(new Rule.Sensor("bike_power", serial(b)), bike, null)));
            for (int c = 0; c < CHAINS_A_BIKE; c++) {
                facts.add(new Event.ChainDescribed(chain(b, c), 114, 11, null, null));
            }
            for (int turn = 0; turn < TURNS; turn++) {
                Instant at = first.plus(span.multipliedBy(turn).dividedBy(TURNS));
                if (turn > 0) {
                    facts.add(new Event.Removed(chain(b, turn - 1), at));
                }
                facts.add(new Event.Treated(chain(b, turn), "hot-wax", at, Cleaning.DEEP, null, null));
                facts.add(new Event.Installed(chain(b, turn), bike, at));
            }
        }
        return facts;
    }

    private static String chain(int bike, int turn) {
        return String.format(Locale.ROOT, "Chain %d-%d", bike, turn % CHAINS_A_BIKE);
    }

    static String bike(int bike) {
        return "Bike " + bike;
    }

    static String serial(int bike) {
        return Integer.toString(31_000_000 + bike);
    }

    private static Delivery delivery(int number, Instant start, int bike) {
        Random random = new Random(number);
        ContentDigest digest = ContentDigest.of(("made ride " + number).getBytes(StandardCharsets.UTF_8));
        List<Ride.Device> devices = List.of(
                new Ride.Device("head_unit", Integer.toString(40_000_000 + bike)),
                new Ride.Device("bike_power", serial(bike)),
                new Ride.Device("bike_speed", Integer.toString(50_000_000 + bike)),
                new Ride.Device("heart_rate", "60000000"));
        double metres = 50_000 + random.nextInt(9_000_000) / 1000.0;
        Ride ride = new Ride(
                new RideKey(digest, 0),
                RideFormat.FIT,
                start,
                SECONDS,
                SECONDS - 200 + random.nextInt(100),
                new Ride.Distance(metres, Ride.MetresFrom.DEVICE_TOTAL),
                new Ride.Effort(random.nextInt(900), 17.3, 180 + random.nextInt(40), 7.9, SECONDS),
                new Ride.Activity("cycling", "road", Ride.Activity.Kind.CYCLING, false),
                new Pedalling(
                        IntStream.range(0, 16)
                                .mapToObj(i -> new Pedalling.Row(
                                        0,
                                        0,
                                        4.125 + i * 0.25,
                                        100 + random.nextInt(700),
                                        random.nextInt(10_000) / 10.0,
                                        random.nextInt(160_000),
                                        random.nextInt(70_000) / 10.0))
                                .toList(),
                        612,
                        5012.35),
                devices,
                List.of(),
                new Ride.Labels(number % 10 == 0 ? "Home through the rain" : "Morning round", "", ""),
                IntStream.range(0, 20)
                        .mapToObj(i -> new Ride.Waypoint(
                                start.plusSeconds(360L * i),
                                -20 - random.nextInt(100) / 100.0,
                                -20 - random.nextInt(100) / 100.0,
                                Math.round(metres * i / 20)))
                        .toList(),
                List.of(),
                null,
                null);
        String path = String.format(Locale.ROOT, "/home/rider/rides/%03d/%06d.fit", number / 1000, number);
        Source source = new Source(
                path, 200_000 + number % 1000, 1_767_225_600_000L, digest, Source.Verdict.IMPORTED, "", "", 0);
        return new Delivery(source, List.of(ride));
    }

    /** Arguments: ledger to make, rides, bikes. */
    public static void main(String[] args) throws IOException {
        make(Path.of(args[0]), Integer.parseInt(args[1]), Integer.parseInt(args[2]));
    }
}
