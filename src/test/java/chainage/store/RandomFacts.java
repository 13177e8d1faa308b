package chainage.store;

import chainage.ledger.Event;
import chainage.ledger.RandomEvents;
import chainage.quantity.ContentDigest;
import chainage.quantity.RideKey;
import chainage.ride.Pedalling;
import chainage.ride.Ride;
import chainage.ride.RideFormat;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.IntFunction;
import java.util.stream.IntStream;

/** Facts from a seed: any that the rider states, and rides. */
public final class RandomFacts {
    private static final String[] WORDS = {
        "Winter bike", "", "ø ü 鏈", "quote \" and \\ back", "line\nbreak", "\u0000\u001b[31m", "a'b;--", "𝄞 beyond"
    };

    private final Random random;

    public RandomFacts(long seed) {
        this.random = new Random(seed);
    }

    /** A fact of the given type, as {@link RandomEvents} makes them. */
    public Event event(Class<?> type) {
        return new RandomEvents(random).of(type);
    }

    public Ride ride(int number) {
        return ride(ContentDigest.of(("content " + number).getBytes(StandardCharsets.UTF_8)), number % 3);
    }

    /** A ride whose figures have no more decimals than are kept. */
    Ride ride(ContentDigest digest, int session) {
        Instant start = instant();
        return new Ride(
                new RideKey(digest, session),
                pick(RideFormat.values()),
                start,
                random.nextDouble() * 10_000,
                random.nextDouble() * 10_000,
                new Ride.Distance(random.nextDouble() * 100_000, pick(Ride.MetresFrom.values())),
                new Ride.Effort(maybe(), maybe(), maybe(), maybe(), random.nextInt(20_000)),
                new Ride.Activity(words(), words(), pick(Ride.Activity.Kind.values()), random.nextBoolean()),
                random.nextInt(4) == 0 ? Pedalling.NONE : new Pedalling(list(12, i -> row()), decimals(), decimals()),
                list(4, i -> new Ride.Device("type-" + i, words())),
                list(
                        3,
                        i -> new Ride.WeatherReport(
                                instant(),
                                random.nextBoolean(),
                                words(),
                                random.nextBoolean() ? Double.NaN : decimals(),
                                random.nextBoolean() ? Double.NaN : decimals())),
                new Ride.Labels(words(), words(), words()),
                list(
                        20,
                        i -> new Ride.Waypoint(
                                instant(),
                                (double) random.nextInt(90),
                                -random.nextInt(9000) / 100.0,
                                random.nextInt(90_000))),
                list(3, i -> words()),
                random.nextInt(3) == 0 ? words() : null,
                random.nextInt(3) == 0 ? ZoneOffset.ofTotalSeconds(900 * (random.nextInt(100) - 48)) : null);
    }

    private Pedalling.Row row() {
        boolean gear = random.nextBoolean();
        return new Pedalling.Row(
                gear ? 50 : 0,
                gear ? 17 : 0,
                gear ? Double.NaN : random.nextInt(40) * 0.25 + 0.125,
                decimals(),
                random.nextInt(9000) / 10.0,
                random.nextBoolean() ? Double.NaN : random.nextInt(90_000),
                random.nextInt(9000) / 10.0);
    }

    private double decimals() {
        return random.nextInt(90_000) / 100.0;
    }

    private double maybe() {
        return random.nextInt(3) == 0 ? Double.NaN : random.nextDouble() * 100;
    }

    private Instant instant() {
        return Instant.ofEpochMilli(random.nextLong(4_000_000_000_000L) - 1_000_000_000_000L);
    }

    private String words() {
        return WORDS[random.nextInt(WORDS.length)];
    }

    @SafeVarargs
    private <T> T pick(T... from) {
        return from[random.nextInt(from.length)];
    }

    private <T> List<T> list(int below, IntFunction<T> one) {
        return new ArrayList<>(
                IntStream.range(0, random.nextInt(below)).mapToObj(one).toList());
    }
}
