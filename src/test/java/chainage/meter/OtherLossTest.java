package chainage.meter;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.TestLedger;
import chainage.exposure.Factors;
import chainage.ledger.Event;
import chainage.ledger.Method;
import chainage.meter.MeasuredLoss.Pair;
import chainage.meter.MeasuredLoss.Seen;
import chainage.meter.MeasuredLoss.Share;
import chainage.meter.MeasuredLoss.Start;
import chainage.meter.MeasuredLoss.State;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;

class OtherLossTest {
    private static final MeasuredLoss.Meters METERS = new MeasuredLoss.Meters(0.03, 0.006);
    private static final Event.ProductDescribed WAX = new Event.ProductDescribed("Thistle", Method.HOT_WAX, null, null);
    private static final Event.ProductDescribed OIL =
            new Event.ProductDescribed("Fen Oil", Method.WET_LUBE, null, null);

    /** A rider's rides on two products, whose meters are 2 % off each other. */
    private static List<Seen> rides(long seed, int count, boolean labelled) {
        Random random = new Random(seed);
        List<Seen> seen = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            Event.ProductDescribed p = i % 2 == 0 ? WAX : OIL;
            double fresh = i % 2 == 0 ? 0.09 : 0.13;
            double mu = fresh + 0.07 * random.nextDouble();
            double lost = 0.15 * (1.2 * fresh + 1.5 * (mu - fresh));
            seen.add(new Seen(
                    new Pair("a", "b"),
                    labelled ? p.method().word() + " " + p.product() : p.product(),
                    0.15,
                    fresh,
                    mu,
                    Math.log1p(-lost) + 0.02 + 0.003 * random.nextGaussian(),
                    0.001));
        }
        return seen;
    }

    private static RiderLoss rider(List<Seen> seen) {
        return RiderLoss.of(
                seen,
                Map.of(
                        "hot-wax Thistle", new RiderLoss.Product(Method.HOT_WAX, "Thistle", 0),
                        "wet-lube Fen Oil", new RiderLoss.Product(Method.WET_LUBE, "Fen Oil", 0)),
                METERS);
    }

    private static Start start(List<RiderLoss> riders, Factors factors) {
        return OtherLoss.of(riders, List.of(WAX, OIL), factors)
                .start(p -> p.equals("Thistle") ? Method.HOT_WAX : Method.WET_LUBE);
    }

    private static MeasuredLoss learn(List<Seen> seen, Start start) {
        return MeasuredLoss.of(seen, List.of("Thistle", "Fen Oil"), start, METERS, (a, b) -> null);
    }

    private static void alike(Share expected, Share told, double by) {
        double width = expected.high() - expected.low();
        assertEquals(expected.middle(), told.middle(), by * width, () -> expected + " " + told);
        assertEquals(width, told.high() - told.low(), by * width, () -> expected + " " + told);
    }

    private static final State WAX_NEW = new State("Thistle", 0.15, 0.09, 0.09);
    private static final State WAX_OLD = new State("Thistle", 0.15, 0.09, 0.15);
    private static final State OIL_NEW = new State("Fen Oil", 0.15, 0.13, 0.13);

    /** If riders do not differ, what another saw is worth as much as what one saw oneself, to the width of the interval. */
    @Test
    void anotherRidersRidesAreWorthOnesOwnWhereRidersDoNotDiffer() {
        Factors same = TestLedger.factors()
                .with(Map.of(
                        "riders.spread.loss", new Event.FactorSet("riders.spread.loss", 0.001, null, null),
                        "riders.known", new Event.FactorSet("riders.known", 1e9, null, null)));
        for (int count : new int[] {6, 12, 40}) {
            MeasuredLoss own = learn(rides(3, count, false), Start.TABLE);
            MeasuredLoss told = learn(List.of(), start(List.of(rider(rides(3, count, true))), same));
            alike(own.more(WAX_OLD, WAX_NEW), told.more(WAX_OLD, WAX_NEW), 0.1);
            alike(own.more(OIL_NEW, WAX_NEW), told.more(OIL_NEW, WAX_NEW), 0.1);
            alike(own.more(OIL_NEW, WAX_OLD), told.more(OIL_NEW, WAX_OLD), 0.1);
        }
    }

    /** What nobody measured starts as by the table. */
    @Test
    void otherProductsStartFromTheTable() {
        Start others = start(List.of(rider(rides(3, 40, true))), TestLedger.factors());
        State grease = new State("Teal", 0.15, 0.14, 0.22);
        State fresh = new State("Teal", 0.15, 0.14, 0.14);
        Start unknown = OtherLoss.of(List.of(rider(rides(3, 40, true))), List.of(), TestLedger.factors())
                .start(p -> Method.GREASE);
        Share told = MeasuredLoss.of(List.of(), List.of("Teal"), unknown, METERS, (a, b) -> null)
                .more(grease, fresh);
        alike(
                MeasuredLoss.of(List.of(), List.of("Teal"), Start.TABLE, METERS, (a, b) -> null)
                        .more(grease, fresh),
                told,
                1e-9);
        assertTrue(learn(List.of(), others).more(WAX_OLD, WAX_NEW).high() < told.high());
    }

    /** Others who are far off are left behind as own rides come. */
    @Test
    void onesOwnRidesOutweighOthersAsTheyGrow() {
        List<RiderLoss> wrong = new ArrayList<>();
        for (int r = 0; r < 4; r++) {
            wrong.add(rider(rides(r, 20, true).stream()
                    .map(s -> new Seen(
                            s.pair(),
                            s.product(),
                            s.perMu(),
                            s.freshMu(),
                            s.mu(),
                            s.logRatio() - 2 * 0.15 * (s.mu() - s.freshMu()),
                            s.error()))
                    .toList()));
        }
        Start others = start(wrong, TestLedger.factors());
        double truth = 0.15 * 1.5 * 0.06;
        double far = Double.POSITIVE_INFINITY;
        for (int count : new int[] {0, 10, 40, 160}) {
            double off = Math.abs(learn(rides(77, count, false), others)
                            .more(WAX_OLD, WAX_NEW)
                            .middle()
                    - truth);
            assertTrue(off < far, count + " rides: " + off + " after " + far);
            far = off;
        }
        assertTrue(far < 0.2 * truth, "off by " + far);
    }
}
