package chainage.meter;

import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.TestLedger;
import chainage.evidence.PairEvidence;
import chainage.exposure.Factors;
import chainage.friction.Friction;
import chainage.ledger.Cleaning;
import chainage.ledger.Event;
import chainage.ledger.Method;
import chainage.meter.MeasuredLoss.Seen;
import chainage.meter.MeasuredLoss.Share;
import chainage.meter.MeasuredLoss.Start;
import chainage.meter.MeasuredLoss.State;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * Clubs whose products are not as the table has them and whose riders differ, each with two power meters of {@link PairWorld}:
 * what the others' files tell a rider who joins. Nothing of it comes from the models. With fewer clubs chance alone moves the
 * shares by a tenth; more of them: {@code -Dsimulation.clubs=60}. The table is printed, and stands in DEVELOPERS.md.
 */
class OtherLossSimulationTest {
    private static final int CLUBS = Integer.getInteger("simulation.clubs", 24);
    private static final int JOIN = 3;
    private static final int RIDES = 16;
    private static final double DRIFT = 0.006;
    private static final MeasuredLoss.Meters METERS = new MeasuredLoss.Meters(0.03, DRIFT);

    /** Seeds that follow each other would begin alike. */
    private static final long MIXED = 0x9E3779B97F4A7C15L;

    /** Before any ride of one's own, after a few and after some more. */
    private static final int[] LOOKS = {0, 4, 12};

    private static final Factors FACTORS = TestLedger.factors();
    private static final Friction FRICTION = new Friction(FACTORS);
    private static final double PER_MU = 0.155;

    private static final List<Event.ProductDescribed> PRODUCTS = List.of(
            new Event.ProductDescribed("Thistle", Method.HOT_WAX, null, null),
            new Event.ProductDescribed("Moss", Method.HOT_WAX, null, null),
            new Event.ProductDescribed("Fen Oil", Method.WET_LUBE, null, null));

    private static final Map<String, Method> METHODS = PRODUCTS.stream()
            .collect(Collectors.toMap(Event.ProductDescribed::product, Event.ProductDescribed::method));

    private static final int MOST_RIDERS = 15;

    /** How a club is made up. */
    private record Club(String words, int riders, int liars) {}

    private static final List<Club> KINDS =
            List.of(new Club("5 riders", 5, 0), new Club("5, one a liar", 5, 1), new Club("15 riders", MOST_RIDERS, 0));

    /**
     * What products truly take of the power, in that club or with a rider.
     *
     * @param fresh by product
     * @param rise that a whole life adds
     */
    private record Truth(List<Double> fresh, List<Double> rise) {
        static Truth ofClub(Random random) {
            List<Double> fresh = new ArrayList<>();
            List<Double> rise = new ArrayList<>();
            for (Event.ProductDescribed p : PRODUCTS) {
                double from = FRICTION.mu(p.method(), Cleaning.DEEP, 0);
                double to = FRICTION.mu(p.method(), Cleaning.DEEP, 1);
                fresh.add(PER_MU * from * Math.exp(0.2 * random.nextGaussian()));
                rise.add(PER_MU * (to - from) * Math.exp(0.5 * random.nextGaussian()));
            }
            return new Truth(fresh, rise);
        }

        Truth ofRider(Random random) {
            return new Truth(
                    fresh.stream()
                            .map(f -> f * Math.exp(0.06 * random.nextGaussian()))
                            .toList(),
                    rise.stream()
                            .map(r -> r * Math.exp(0.2 * random.nextGaussian()))
                            .toList());
        }

        /** As told by somebody whose first product is far worse than it is, or far better. */
        Truth lied(Random random) {
            boolean against = random.nextBoolean();
            return new Truth(
                    List.of(fresh.get(0) + (against ? 0.03 : -0.03), fresh.get(1), fresh.get(2)),
                    List.of(rise.get(0) * (against ? 4 : -2), rise.get(1), rise.get(2)));
        }

        double at(int product, double used) {
            return PairWorld.share(fresh.get(product), rise.get(product), used);
        }
    }

    /** Rides of one rider as a file holds them: the first product in turns with one other, shares of life spread over it. */
    private static PairEvidence rides(Truth truth, long seed, int count) {
        PairWorld world = new PairWorld(seed, DRIFT);
        Random random = new Random(MIXED * seed);
        int other = 1 + random.nextInt(2);
        // In other gears than the reference rider, and with another idea of how long a treatment lasts.
        double gears = 0.9 + 0.2 * random.nextDouble();
        double idea = Math.exp(0.15 * random.nextGaussian());
        List<PairEvidence.Ride> rides = new ArrayList<>();
        for (int i = 0; rides.size() < count; i++) {
            int product = i % 2 == 0 ? 0 : other;
            double used = random.nextDouble();
            PairWorld.Recorded r = world.ride(45, gears * truth.at(product, used), true);
            if (Laying.of(r.before(), r.behind()) instanceof Laid.Over o) {
                rides.add(new PairEvidence.Ride(
                        PRODUCTS.get(product).method(),
                        PRODUCTS.get(product).product(),
                        Cleaning.DEEP,
                        Math.rint(10 * idea * used) / 10,
                        Math.rint(100 * gears * PER_MU) / 100,
                        Math.rint(-10_000 * Math.expm1(o.logRatio())) / 100,
                        Math.max(0.01, Math.rint(10_000 * o.error()) / 100)));
            }
        }
        return new PairEvidence(rides);
    }

    private static RiderLoss rider(PairEvidence file) {
        Map<String, RiderLoss.Product> products = new HashMap<>();
        List<Seen> seen = file.seen(
                "0",
                (method, word) -> {
                    String label = method.word() + " " + word;
                    products.put(label, new RiderLoss.Product(method, String.valueOf(word), 0));
                    return label;
                },
                FRICTION);
        return RiderLoss.of(seen, products, METERS);
    }

    private static State state(int product, double used) {
        Event.ProductDescribed p = PRODUCTS.get(product);
        return new State(
                p.product(),
                PER_MU,
                FRICTION.mu(p.method(), Cleaning.DEEP, 0),
                FRICTION.mu(p.method(), Cleaning.DEEP, used));
    }

    /** How often an interval held, how wide it was and how far off its middle, in per cent of the power. */
    private static final class Tally {
        int asked;
        int held;
        double width;
        double error;

        void take(Share told, double truth) {
            asked++;
            held += told.low() <= truth && truth <= told.high() ? 1 : 0;
            width += 100 * (told.high() - told.low());
            error += 100 * Math.abs(told.middle() - truth);
        }
    }

    /** Of a rise over a life and of the difference of two products, by look. */
    private record Row(List<Tally> rise, List<Tally> apart) {
        Row() {
            this(new ArrayList<>(), new ArrayList<>());
            for (int ignored : LOOKS) {
                rise.add(new Tally());
                apart.add(new Tally());
            }
        }

        void take(List<Seen> own, Start start, Truth truth) {
            for (int i = 0; i < LOOKS.length; i++) {
                MeasuredLoss learnt = MeasuredLoss.of(
                        own.subList(0, LOOKS[i]),
                        PRODUCTS.stream().map(Event.ProductDescribed::product).toList(),
                        start,
                        METERS,
                        (a, b) -> null);
                rise.get(i).take(learnt.more(state(0, 1), state(0, 0)), truth.at(0, 1) - truth.at(0, 0));
                apart.get(i).take(learnt.more(state(2, 0.5), state(0, 0.5)), truth.at(2, 0.5) - truth.at(0, 0.5));
            }
        }

        String words(String club, String by) {
            return String.format(Locale.ROOT, "%-13s | %-10s | %s | %s%n", club, by, words(rise), words(apart));
        }

        private static String words(List<Tally> tallies) {
            StringBuilder held = new StringBuilder();
            StringBuilder width = new StringBuilder();
            StringBuilder error = new StringBuilder();
            for (Tally t : tallies) {
                held.append(String.format(Locale.ROOT, " %3.0f", 100.0 * t.held / t.asked));
                width.append(String.format(Locale.ROOT, " %4.2f", t.width / t.asked));
                error.append(String.format(Locale.ROOT, " %4.2f", t.error / t.asked));
            }
            return held + " |" + width + " |" + error;
        }
    }

    @Test
    void aRiderWhoJoinsKnowsMoreThanTheTable() {
        StringBuilder words =
                new StringBuilder("a rider who joins, after 0, 4 and 12 rides: 80 % interval held it, its width,"
                        + " mean error, in % of the power; first of a life's rise, then of two products' difference\n");
        List<Runnable> checks = new ArrayList<>();
        List<Row> alone = KINDS.stream().map(k -> new Row()).toList();
        List<Row> told = KINDS.stream().map(k -> new Row()).toList();
        for (int c = 0; c < CLUBS; c++) {
            Random random = new Random(MIXED * (c + 1));
            Truth truth = Truth.ofClub(random);
            List<RiderLoss> files = new ArrayList<>();
            RiderLoss liar = RiderLoss.NONE;
            for (int r = 0; r < MOST_RIDERS; r++) {
                Truth own = truth.ofRider(random);
                files.add(rider(rides(own, 100L * c + r + 1, RIDES)));
                liar = r == 0 ? rider(rides(own.lied(random), 100L * c + r + 1, RIDES)) : liar;
            }
            List<Truth> join =
                    Stream.generate(() -> truth.ofRider(random)).limit(JOIN).toList();
            for (int j = 0; j < JOIN; j++) {
                Truth joins = join.get(j);
                List<Seen> own = rides(joins, 100L * c + 50 + j, LOOKS[LOOKS.length - 1])
                        .seen("0", (method, word) -> String.valueOf(word), FRICTION);
                for (int k = 0; k < KINDS.size(); k++) {
                    Club club = KINDS.get(k);
                    List<RiderLoss> others = new ArrayList<>(files.subList(0, club.riders()));
                    if (club.liars() > 0) {
                        others.set(0, liar);
                    }
                    alone.get(k).take(own, Start.TABLE, joins);
                    told.get(k)
                            .take(own, OtherLoss.of(others, PRODUCTS, FACTORS).start(METHODS::get), joins);
                }
            }
        }
        for (int k = 0; k < KINDS.size(); k++) {
            check(KINDS.get(k), alone.get(k), told.get(k), words, checks);
        }
        System.out.print(words);
        checks.forEach(Runnable::run);
    }

    private static void check(Club club, Row alone, Row told, StringBuilder words, List<Runnable> checks) {
        words.append(alone.words(club.words(), "the table")).append(told.words("", "the others"));
        checks.add(() -> {
            for (int of = 0; of < 2; of++) {
                Tally by = (of == 0 ? alone.rise() : alone.apart()).get(0);
                Tally with = (of == 0 ? told.rise() : told.apart()).get(0);
                assertTrue(with.held >= (club.liars() > 0 ? 0.7 : 0.75) * with.asked, words::toString);
                assertTrue(with.width < 0.7 * by.width, words::toString);
                assertTrue(with.error < by.error, words::toString);
            }
        });
    }
}
