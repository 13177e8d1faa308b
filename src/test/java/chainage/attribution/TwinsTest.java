package chainage.attribution;

import static chainage.TestRides.ride;
import static chainage.attribution.Twins.FULLEST_FIRST;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.TestLedger;
import chainage.TestRides;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Rule;
import chainage.ride.FiledRide;
import chainage.ride.Ride.Activity.Kind;
import chainage.ride.RideFormat;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.function.IntFunction;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Which recordings are found to be of one outing, against the plain rule that holds each against each. */
class TwinsTest {
    private static final Instant MORNING = Instant.parse("2026-03-01T08:00:00Z");

    /** The plain rule, word for word: the rider's word, then the fullest first, each held against all that stand. */
    private static final class Plain {
        private final Ledger ledger;
        private final BikeRules rules;
        private final Map<String, String> twinOf = new HashMap<>();
        private final Map<String, FiledRide> byId = new HashMap<>();
        private final List<String> standing = new ArrayList<>();
        /** What outings say: sport, bike, bike by place. */
        private final Map<String, List<Optional<String>>> says = new HashMap<>();

        Plain(Ledger ledger) {
            this.ledger = ledger;
            this.rules = new BikeRules(ledger);
        }

        Map<String, String> find(List<FiledRide> rides) {
            List<FiledRide> fullest = rides.stream().sorted(FULLEST_FIRST).toList();
            fullest.forEach(r -> byId.put(r.id(), r));
            fullest.forEach(r -> says.put(r.id(), says(r)));
            for (int i = fullest.size() - 1; i >= 0; i--) {
                String id = fullest.get(i).id();
                ledger.twinOf(id)
                        .filter(byId::containsKey)
                        .filter(of -> !root(of).equals(id))
                        .ifPresent(of -> {
                            join(id, of);
                            standing.addAll(List.of(id, of));
                        });
            }
            Set<String> stated = Set.copyOf(twinOf.keySet());
            for (FiledRide r : fullest) {
                if (!twinOf.containsKey(r.id()) && !alone(r)) {
                    Optional<FiledRide> of = standing.stream()
                            .flatMap(id -> Optional.ofNullable(byId.get(id)).stream())
                            .filter(o -> !alone(o) && isOne(r, o))
                            .flatMap(o -> Optional.ofNullable(byId.get(root(o.id()))).stream())
                            .filter(root -> !alone(root) && !root.id().equals(r.id()))
                            .min(FULLEST_FIRST);
                    of.ifPresentOrElse(root -> join(r.id(), root.id()), () -> standing.add(r.id()));
                }
            }
            Map<String, List<FiledRide>> outings = new HashMap<>();
            for (FiledRide r : fullest) {
                if (!stated.contains(r.id())) {
                    outings.computeIfAbsent(root(r.id()), k -> new ArrayList<>())
                            .add(r);
                }
            }
            Map<String, String> counted = new HashMap<>();
            outings.forEach((root, all) -> counted.put(root, Twins.counted(all).id()));
            Map<String, String> twins = new HashMap<>();
            for (FiledRide r : fullest) {
                String id = counted.get(root(r.id()));
                if (!r.id().equals(id)) {
                    twins.put(r.id(), id);
                }
            }
            return twins;
        }

        private void join(String id, String of) {
            twinOf.put(id, of);
            List<Optional<String>> own = saidOf(id);
            List<Optional<String>> outing = saidOf(root(of));
            says.put(
                    root(of),
                    IntStream.range(0, 3)
                            .mapToObj(i -> outing.get(i).or(() -> own.get(i)))
                            .toList());
        }

        private List<Optional<String>> saidOf(String id) {
            return says.getOrDefault(id, List.of());
        }

        private boolean isOne(FiledRide r, FiledRide o) {
            return overlapMostly(r, o)
                    && goWith(saidOf(r.id()), says(o))
                    && goWith(saidOf(r.id()), saidOf(root(o.id())));
        }

        private static boolean goWith(List<Optional<String>> a, List<Optional<String>> b) {
            return IntStream.range(0, 3)
                    .allMatch(i ->
                            a.get(i).isEmpty() || b.get(i).isEmpty() || a.get(i).equals(b.get(i)));
        }

        private List<Optional<String>> says(FiledRide r) {
            Kind kind = ledger.counts(r.id()).orElse(false)
                    ? Kind.CYCLING
                    : r.ride().activity().kind();
            Optional<BikeRules.Choice> bike = rules.bike(List.of(r));
            return List.of(
                    Optional.of(kind.name()).filter(k -> kind != Kind.UNSTATED),
                    bike.filter(b -> b.by() != BikeRules.By.DEFAULT).map(BikeRules.Choice::bike),
                    bike.filter(b -> b.by() != BikeRules.By.EVIDENCE).map(BikeRules.Choice::bike));
        }

        private boolean alone(FiledRide r) {
            return ledger.twinOf(r.id()).filter(r.id()::equals).isPresent();
        }

        private String root(String id) {
            String at = id;
            for (String next = twinOf.get(at); next != null; next = twinOf.get(at)) {
                at = next;
            }
            return at;
        }

        private static double metres(FiledRide r) {
            return r.ride().distance().metres();
        }

        private static Instant start(FiledRide r) {
            return r.ride().start();
        }

        private static Instant end(FiledRide r) {
            Instant atLeast = start(r).plusSeconds(1);
            return r.ride().end().isBefore(atLeast) ? atLeast : r.ride().end();
        }

        private static boolean overlapMostly(FiledRide a, FiledRide b) {
            Instant from = start(a).isAfter(start(b)) ? start(a) : start(b);
            Instant to = end(a).isBefore(end(b)) ? end(a) : end(b);
            double slack = oneClock(a, b) || !distancesAgree(a, b) ? 0 : 60_000;
            double shorter = Math.min(
                    Duration.between(start(a), end(a)).toMillis(),
                    Duration.between(start(b), end(b)).toMillis());
            return Duration.between(from, to).toMillis() + slack > 0.5 * shorter;
        }

        private static boolean oneClock(FiledRide a, FiledRide b) {
            return a.ride().key().digest().equals(b.ride().key().digest())
                    || a.ride().devices().stream()
                            .filter(d -> d.type().equals("head_unit"))
                            .anyMatch(b.ride().devices()::contains);
        }

        private static boolean distancesAgree(FiledRide a, FiledRide b) {
            double longer = Math.max(metres(a), metres(b));
            double shorter = Math.min(metres(a), metres(b));
            return shorter == 0 || longer - shorter <= 0.05 * longer;
        }
    }

    static TestLedger bikes() {
        TestLedger ledger = new TestLedger();
        for (int bike = 0; bike < 3; bike++) {
            ledger.bike("bike " + bike)
                    .add(new Event.RuleSet(
                            new Rule(new Rule.Sensor("bike_power", String.valueOf(bike)), "bike " + bike, null)))
                    .add(new Event.RuleSet(new Rule(new Rule.Path("rider " + bike), "bike " + bike, null)));
        }
        return ledger.add(new Event.RuleSet(new Rule(new Rule.Otherwise(), "bike 0", null)));
    }

    private static <T> T one(Random random, List<T> of) {
        return of.get(random.nextInt(of.size()));
    }

    /** Rides of all kinds within a span short enough for most of them to overlap. */
    private static TestRides random(Random random, int number, int span) {
        double km = random.nextInt(8) == 0 ? 0 : 5 * Math.pow(1.03, random.nextInt(40));
        TestRides r = ride(
                        "r" + number, MORNING.plusMillis(random.nextInt(span)).toString(), km)
                .lasting(random.nextInt(5) == 0 ? random.nextInt(90) : 60 * random.nextInt(120))
                .format(one(random, List.of(RideFormat.values())))
                .dense(random.nextInt(4));
        if (random.nextInt(3) == 0) {
            Kind kind = one(random, List.of(Kind.values()));
            r = r.sport(kind == Kind.OTHER ? "running" : "", "", kind, false);
        }
        if (random.nextInt(3) == 0) {
            r = r.sensor("bike_power", String.valueOf(random.nextInt(3)));
        }
        if (random.nextInt(3) == 0) {
            r = r.sensor("head_unit", String.valueOf(random.nextInt(3)));
        }
        if (random.nextInt(3) == 0) {
            r = r.path("/rides/rider " + random.nextInt(3) + "/r" + number + ".fit");
        }
        return random.nextInt(4) == 0 ? r.salvagedFrom("the end is missing") : r;
    }

    private static List<FiledRide> byStart(List<TestRides> rides) {
        return rides.stream().map(TestRides::filed).sorted(FiledRide.BY_START).toList();
    }

    @Test
    void ofRandomCrowdsTheSameAreFoundAsByThePlainRule() {
        int twins = 0;
        for (int seed = 0; seed < 3000; seed++) {
            Random random = new Random(seed);
            int count = 2 + random.nextInt(40);
            int span = 1000 * 60 * (1 + random.nextInt(600));
            List<TestRides> rides = IntStream.range(0, count)
                    .mapToObj(i -> random(random, i, span))
                    .toList();
            TestLedger ledger = TwinsTest.bikes();
            for (int n = random.nextInt(6); n > 0; n--) {
                String id = rides.get(random.nextInt(count)).id();
                switch (random.nextInt(4)) {
                    case 0 -> ledger.add(new Event.TwinStated(id, id));
                    case 1 -> ledger.add(new Event.RidesCounted(List.of(id), true));
                    default ->
                        ledger.add(new Event.TwinStated(
                                id, rides.get(random.nextInt(count)).id()));
                }
            }
            List<FiledRide> filed = byStart(rides);
            Map<String, String> plain = new Plain(ledger.ledger()).find(filed);
            twins += plain.size();
            assertEquals(plain, new Twins(ledger.ledger(), new BikeRules(ledger.ledger())).find(filed), "seed " + seed);
        }
        assertTrue(twins > 10_000, twins + " twins");
    }

    /**
     * Crowds in which each overlaps a great part of all others.
     *
     * @param bikes how many power meters tell bikes
     */
    private record Shape(String name, int bikes, IntFunction<TestRides> nth) {
        List<FiledRide> rides(int count) {
            return byStart(IntStream.range(0, count).mapToObj(nth).toList());
        }

        Ledger ledger() {
            TestLedger ledger = TwinsTest.bikes();
            for (int i = 0; i < bikes; i++) {
                ledger.add(new Event.RuleSet(
                        new Rule(new Rule.Sensor("bike_power", String.valueOf(i)), "bike " + i, null)));
            }
            return ledger.ledger();
        }

        @Override
        public String toString() {
            return name;
        }
    }

    private static TestRides later(int number, double seconds, double km) {
        return ride("r" + number, MORNING.plusMillis(Math.round(seconds * 1000)).toString(), km)
                .lasting(3600);
    }

    static List<Shape> shapes() {
        return List.of(
                new Shape("copies", 0, i -> later(i, 0, 40)),
                new Shape("a second apart", 0, i -> later(i, i, 40)),
                new Shape(
                        "in any order",
                        0,
                        i -> later(i, (double) (i * 7919L % 100_003), 40).dense(i * 31 % 1009)),
                new Shape("of all distances", 0, i -> later(i, i % 60, 1 + i * 0.07)),
                new Shape("of all lengths", 0, i -> later(i, -i, 1 + i * 0.07).lasting(60 + 2 * i)),
                new Shape("nested, without distance", 0, i -> later(i, i, 0).lasting(400_000 - 2.0 * i)),
                new Shape(
                        "cut short",
                        0,
                        i -> later(i, i * 0.001, 1 + i * 0.07).lasting(60 + i).salvagedFrom("the end is missing")),
                new Shape("on a bike each", 20_000, i -> later(i, i % 600, 20).sensor("bike_power", String.valueOf(i))),
                new Shape("half an hour apart", 0, i -> later(i, 1900.0 * i, 40)),
                new Shape("in three folders", 0, i -> later(i, i % 600, 20).path("/rides/rider " + i % 3 + "/a.fit")),
                new Shape(
                        "half of them on known bikes",
                        200,
                        i -> i % 2 == 0
                                ? later(i, i % 600, 20)
                                : later(i, i % 600, 20).sensor("bike_power", String.valueOf(i % 200))));
    }

    /** Counted and not timed; it is some 30 for each of these, and 40 for ten times as many. */
    @ParameterizedTest
    @MethodSource("shapes")
    void noRideIsHeldAgainstMoreThanAFew(Shape shape) {
        int count = 20_000;
        Ledger ledger = shape.ledger();
        Twins twins = new Twins(ledger, new BikeRules(ledger));
        twins.find(shape.rides(count));
        assertTrue(twins.comparisons() < 60L * count, twins.comparisons() + " comparisons");
    }

    @ParameterizedTest
    @MethodSource("shapes")
    void andTheSameAreFoundAsByThePlainRule(Shape shape) {
        int count = 300;
        Ledger ledger = shape.ledger();
        List<FiledRide> rides = shape.rides(count);
        assertEquals(new Plain(ledger).find(rides), new Twins(ledger, new BikeRules(ledger)).find(rides));
    }
}
