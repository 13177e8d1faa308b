package chainage.wear;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.TestLedger;
import chainage.exposure.Factors;
import chainage.ledger.Event;
import chainage.ledger.Method;
import chainage.ledger.Reading;
import chainage.quantity.Estimate;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * What others' readings tell a rider who has none. The clubs are made by hand: products, riders and chains stray about the
 * table by spreads that are not the model's, and tools err.
 */
class OtherWearTest {
    private static final Factors FACTORS = TestLedger.factors();
    private static final Event.ProductDescribed THISTLE =
            new Event.ProductDescribed("Thistle", Method.HOT_WAX, null, null);
    private static final Event.ProductDescribed MOSS = new Event.ProductDescribed("Moss", Method.HOT_WAX, null, null);
    private static final int CLUBS = 60;
    private static final int JOIN = 4;

    /** A club whose chains wear so many times as fast as by the table. */
    private record Club(double logTimes, Random random) {
        double rider() {
            return logTimes + 0.3 * random.nextGaussian();
        }

        double chain(double rider) {
            return rider + 0.3 * random.nextGaussian();
        }

        /** Two or three chains of a rider, each read four times or so. */
        RiderWear file(double lie) {
            double rider = rider() + lie;
            double bias = 0.04 * random.nextGaussian();
            List<ChainWear> chains = new ArrayList<>();
            for (int c = 0; c < 2 + random.nextInt(2); c++) {
                double pace = Math.exp(chain(rider));
                List<ReadingSeen> seen = new ArrayList<>();
                double expected = 0;
                for (int r = 0; r < 4; r++) {
                    double read = pace * expected + bias + 0.05 * random.nextGaussian();
                    seen.add(new ReadingSeen(
                            new Event.Measured(
                                    "", Instant.EPOCH, new Reading.Elongation(read, Reading.Tool.CALLIPER, 8)),
                            Expected.dry(expected)));
                    expected += 0.04 + 0.06 * random.nextDouble();
                }
                chains.add(new ChainWear(false, Expected.dry(expected), Map.of("x", 1.0), seen));
            }
            return RiderWear.of(chains, Map.of("x", THISTLE), FACTORS);
        }
    }

    private static OtherWear club(Club club, int riders) {
        List<RiderWear> files = new ArrayList<>();
        for (int r = 0; r < riders; r++) {
            files.add(club.file(0));
        }
        return OtherWear.of(files, List.of(THISTLE, MOSS), FACTORS);
    }

    /** A chain of a rider who has read none. */
    private static Estimate pace(OtherWear others, Event.ProductDescribed product) {
        ChainWear chain = new ChainWear(false, Expected.dry(0.1), Map.of(product.product(), 1.0), List.of());
        return new WearModel(
                        WearModel.Prior.of(FACTORS), Map.of("Amber", chain), others.taught(), List.of(THISTLE, MOSS))
                .of("Amber")
                .pace();
    }

    private static double width(Estimate e) {
        return Math.log(e.high() / e.low());
    }

    @Test
    void aFirstChainIsKnownBetterThanByTheTable() {
        int held = 0;
        int all = 0;
        double error = 0;
        double tables = 0;
        double width = 0;
        Estimate table = pace(OtherWear.NONE, THISTLE);
        for (int c = 0; c < CLUBS; c++) {
            Random random = new Random(31L * c + 7);
            Club club = new Club(0.45 * random.nextGaussian(), random);
            Estimate told = pace(club(club, 5), THISTLE);
            width += width(told) / CLUBS;
            for (int j = 0; j < JOIN; j++) {
                double truth = club.chain(club.rider());
                held += told.low() <= Math.exp(truth) && Math.exp(truth) <= told.high() ? 1 : 0;
                error += Math.abs(truth - Math.log(told.likely()));
                tables += Math.abs(truth - Math.log(table.likely()));
                all++;
            }
        }
        String words = String.format(
                Locale.ROOT,
                "%d first chains: 80 %% interval of the pace held %.0f %%, %.2f times as wide as the table's, error %.2f of the"
                        + " table's%n",
                all,
                100.0 * held / all,
                width / width(table),
                error / tables);
        System.out.print(words);
        assertTrue(held >= 0.75 * all && held <= 0.88 * all, words);
        assertTrue(error < 0.85 * tables, words);
        assertTrue(width < 0.85 * width(table), words);
    }

    @Test
    void withoutEvidenceItIsTheTableToTheLastBit() {
        ChainWear chain = new ChainWear(false, Expected.dry(0.1), Map.of("Moss", 1.0), List.of());
        assertEquals(
                new WearModel(WearModel.Prior.of(FACTORS), Map.of("Amber", chain))
                        .of("Amber")
                        .pace(),
                pace(OtherWear.NONE, MOSS));
        assertEquals(
                pace(OtherWear.NONE, MOSS), pace(OtherWear.of(List.of(RiderWear.NONE), List.of(MOSS), FACTORS), MOSS));
    }

    @Test
    void anotherProductOfTheMethodLearnsLessAndOneOfAnotherMethodNothing() {
        OtherWear fast = club(new Club(Math.log(2.5), new Random(3)), 6);
        double seen = pace(fast, THISTLE).likely();
        double alike = pace(fast, MOSS).likely();
        assertTrue(seen > 1.7 && alike > 1.3 && alike < seen, seen + " " + alike);
        ChainWear other = new ChainWear(false, Expected.dry(0.1), Map.of("Fen Oil", 1.0), List.of());
        Event.ProductDescribed oil = new Event.ProductDescribed("Fen Oil", Method.WET_LUBE, null, null);
        Estimate oils = new WearModel(
                        WearModel.Prior.of(FACTORS), Map.of("Amber", other), fast.taught(), List.of(THISTLE, oil))
                .of("Amber")
                .pace();
        assertEquals(1, oils.likely(), 0.02);
        assertEquals(width(pace(OtherWear.NONE, MOSS)), width(oils), 0.05);
    }

    @Test
    void ownReadingsOutweighThem() {
        OtherWear fast = club(new Club(Math.log(2.5), new Random(3)), 6);
        List<ReadingSeen> seen = new ArrayList<>();
        for (int r = 0; r < 8; r++) {
            seen.add(new ReadingSeen(
                    new Event.Measured("", Instant.EPOCH, new Reading.Elongation(0.06 * r, Reading.Tool.CALLIPER, 8)),
                    Expected.dry(0.06 * r)));
        }
        ChainWear chain = new ChainWear(false, Expected.dry(0.5), Map.of("Thistle", 1.0), seen);
        WearModel model =
                new WearModel(WearModel.Prior.of(FACTORS), Map.of("Amber", chain), fast.taught(), List.of(THISTLE));
        assertTrue(model.of("Amber").pace().likely() < 1.3, model.of("Amber")::toString);
        WearModel.Rest rest = model.rest("Amber");
        assertTrue(rest.others() + rest.table() < 0.3 && rest.others() > rest.table(), rest::toString);
    }

    @Test
    void whoFitsNobodyWeighsLittleAndTheirOrderNothing() {
        Club club = new Club(0, new Random(5));
        List<RiderWear> files = new ArrayList<>();
        for (int r = 0; r < 6; r++) {
            files.add(club.file(0));
        }
        files.add(club.file(Math.log(6)));
        OtherWear one = OtherWear.of(files, List.of(THISTLE), FACTORS);
        assertTrue(one.weight(6) < 0.4, () -> "weighs " + one.weight(6));
        Collections.reverse(files);
        OtherWear turned = OtherWear.of(files, List.of(THISTLE), FACTORS);
        assertEquals(pace(one, THISTLE).likely(), pace(turned, THISTLE).likely(), 1e-9);
        assertEquals(one.weight(6), turned.weight(0), 1e-9);
    }
}
