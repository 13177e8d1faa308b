package chainage.analysis;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.TestLedger;
import chainage.comparison.PairComparison;
import chainage.evidence.RiderEvidence;
import chainage.ledger.Event;
import chainage.ledger.Method;
import chainage.meter.MeasuredLoss;
import chainage.treatment.LifeModel;
import chainage.treatment.OtherRiders;
import chainage.treatment.ProductLife;
import chainage.wear.Paces;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Evidence of others in a ledger: who counts, and that it leaves without a trace. */
class OthersTest {
    private static final Event.ProductDescribed THISTLE =
            new Event.ProductDescribed("Thistle", Method.HOT_WAX, null, null);

    /** A rider's lives about so many kilometres. */
    private static String rider(long seed, String product, int km) {
        Random random = new Random(seed);
        List<String> lines = new ArrayList<>();
        for (int i = 0; i < 8; i++) {
            int dry = 5 * (int) Math.round(km * Math.exp(0.2 * random.nextGaussian()) / 5);
            lines.add("{\"method\":\"hot-wax\",\"product\":\"" + product + "\",\"cleaning\":\"deep\",\"load\":1.0,"
                    + "\"km\":{\"dry-clean\":" + dry + "},\"last_ride_km\":{\"dry-clean\":"
                    + (20 + 5 * random.nextInt(10)) + "},\"end\":\"noisy\"}");
        }
        return String.join("\n", lines);
    }

    /**
     * A rider's lives and rides with two power meters, made without the model: a constant loss of 1.4 % that grows over a
     * life, and on the second product by so much more.
     */
    private static String paired(long seed, double rise, double more) {
        Random random = new Random(seed * 0x9E3779B97F4A7C15L);
        double offset = 2 * random.nextGaussian();
        List<String> rides = new ArrayList<>();
        for (int i = 0; i < 16; i++) {
            double used = random.nextInt(11) / 10.0;
            double missing = 1.4 + rise * used + (i % 2) * more + offset + 0.3 * random.nextGaussian();
            rides.add("{\"method\":\"hot-wax\",\"product\":\"" + (i % 2 == 0 ? "thistle" : "moss")
                    + "\",\"cleaning\":\"deep\",\"used\":" + used + ",\"per_mu\":0.15,\"missing\":"
                    + Math.rint(100 * missing) / 100 + ",\"error\":0.1}");
        }
        return rider(seed, "thistle", 300) + "\n{\"paired\":[" + String.join(",", rides) + "]}";
    }

    private static final Event.ProductDescribed MOSS = new Event.ProductDescribed("Moss", Method.HOT_WAX, null, null);

    private static MeasuredLoss.Share rise(Event... events) {
        Analysis analysis = analysis(events);
        return analysis.pairs().rise(analysis, THISTLE).more();
    }

    private static Others others(Event... events) {
        return analysis(events).others();
    }

    private static Analysis analysis(Event... events) {
        TestLedger facts = new TestLedger().add(THISTLE).add(events);
        return Analysis.of(
                new Snapshot(facts.entries(), List.of(), Map.of()),
                TestLedger.tables(),
                Instant.parse("2026-06-01T00:00:00Z"));
    }

    private static ProductLife life(Event... events) {
        return new LifeModel(List.of(), TestLedger.factors(), others(events).weighed()).of(THISTLE);
    }

    private static Event added(String as, String... riders) {
        return new Event.EvidenceAdded(as, List.of(riders));
    }

    @Test
    void aProductNewToThisRiderStartsFromWhatOthersSaw() {
        ProductLife table = life();
        ProductLife told =
                life(added("club", rider(1, "thistle", 450), rider(2, " Thistle", 470), rider(3, "THISTLE", 430)));
        assertEquals(300_000, table.typical().likely(), 3_000);
        assertTrue(told.typical().likely() > 380_000 && told.typical().likely() < 470_000, told.typical()::toString);
        assertTrue(told.life().high() / told.life().low()
                < 0.75 * table.life().high() / table.life().low());
        assertEquals(1, told.tableWeight() + told.othersWeight(), 1e-9);
        assertTrue(told.othersWeight() > 0.5);
    }

    @Test
    void theOrderOfAddingChangesNothing() {
        List<Event> added = new ArrayList<>();
        for (int i = 0; i < 5; i++) {
            added.add(added("w" + i, rider(i, i % 2 == 0 ? "thistle" : "moss", 300 + 40 * i)));
        }
        ProductLife one = life(added.toArray(Event[]::new));
        Collections.reverse(added);
        ProductLife other = life(added.toArray(Event[]::new));
        assertEquals(one.life(), other.life());
        assertEquals(one.typical(), other.typical());
    }

    /** The table has drip wax last twice as long: a poor one still lasts longer than a good hot wax. */
    @Test
    void livesOfTwoMethodsAreComparedAsLives() {
        Event.ProductDescribed sedge = new Event.ProductDescribed("Sedge", Method.DRIP_WAX, null, null);
        String both = rider(1, "thistle", 340) + "\n" + rider(2, "sedge", 500).replace("\"hot-wax\"", "\"drip-wax\"");
        OtherRiders.Compared seen =
                others(sedge, added("club", both)).weighed().compared(sedge, THISTLE, TestLedger.factors());
        assertEquals(1, seen.both());
        assertEquals(1, seen.longer());
    }

    @Test
    void whatIsRemovedLeavesNoTrace() {
        ProductLife before = life();
        ProductLife after = life(added("club", rider(1, "thistle", 450)), new Event.EvidenceRemoved("club"));
        assertEquals(before.life(), after.life());
        assertEquals(before.typical(), after.typical());
        assertNotEquals(
                before.life(), life(added("club", rider(1, "thistle", 450))).life());
    }

    @Test
    void aRiderBroughtInTwiceCountsOnce() {
        String all = rider(1, "thistle", 450);
        String earlier = all.substring(0, all.lastIndexOf('\n'));
        ProductLife once = life(added("a", all));
        assertEquals(once.life(), life(added("a", all), added("b", all)).life());
        Others others = others(added("a", all), added("b", earlier));
        assertEquals(once.life(), life(added("a", all), added("b", earlier)).life());
        assertNull(others.riders().get(0).again());
        assertEquals(Others.Again.OTHER, others.riders().get(1).again());
    }

    @Test
    void aRiderWhoFitsNobodyWeighsLittle() {
        List<String> riders = new ArrayList<>();
        for (int i = 0; i < 6; i++) {
            riders.add(rider(i, "thistle", 300 + 10 * i));
        }
        riders.add(rider(9, "thistle", 2400));
        Others others = others(added("club", riders.toArray(String[]::new)));
        int odd = 0;
        for (int i = 0; i < 7; i++) {
            odd = others.weighed().weight(i) < others.weighed().weight(odd) ? i : odd;
        }
        assertTrue(others.riders().get(odd).evidence().text().contains("\"dry-clean\":2"), "rider " + odd);
        assertTrue(others.weighed().weight(odd) < 0.4, () -> String.valueOf(others.riders()));
    }

    @Test
    void anotherSpellingIsJoinedByTheRider() {
        Event moss = added("club", rider(1, "thistle classic", 600), rider(2, "thistle classic", 620));
        double apart = life(moss).typical().likely();
        double joined = life(moss, new Event.ProductsSame("Thistle", "Thistle  Classic"))
                .typical()
                .likely();
        assertTrue(joined > 1.02 * apart, apart + " " + joined);
        assertEquals(
                2,
                Objects.requireNonNull(others(moss, new Event.ProductsSame("Thistle", "Thistle Classic")))
                        .weighed()
                        .shown(THISTLE)
                        .riders());
    }

    @Test
    void whatOthersMetersMeasuredIsWhereAProductStarts() {
        MeasuredLoss.Share told =
                rise(added("club", paired(1, 2, 0.5), paired(2, 2.2, 0.5), paired(3, 1.8, 0.5), paired(4, 2, 0.5)));
        assertTrue(told.low() < 0.02 && 0.02 < told.high(), told::toString);
        // Less than half as wide as the table, which leaves 150 % open of 0.93 % of the power either way.
        assertTrue(told.high() - told.low() < 0.5 * 2 * 1.28 * 1.5 * 0.0093, told::toString);
        Analysis analysis = analysis(MOSS, added("club", paired(1, 1, 0.8), paired(2, 1, 0.8), paired(3, 1, 0.8)));
        MeasuredComparison moss =
                MeasuredComparison.of(analysis, List.of(THISTLE, MOSS)).get(0);
        assertEquals(THISTLE, moss.better());
        assertEquals(PairComparison.Finding.FIRM, moss.finding(), moss::toString);
        assertTrue(moss.more().low() < 0.008 && 0.008 < moss.more().high(), moss::toString);
        assertEquals(List.of(), MeasuredComparison.of(analysis(MOSS), List.of(THISTLE, MOSS)));
        // Of two products that no rider has ridden both of, the difference is the model's and not measured.
        Event.ProductDescribed teal = new Event.ProductDescribed("Teal", Method.GREASE, null, null);
        String grease =
                paired(7, 1, 0.3).replace("\"hot-wax\",\"product\":\"thistle\"", "\"grease\",\"product\":\"teal\"");
        analysis = analysis(teal, added("club", paired(1, 1, 0.8), grease));
        assertEquals(
                PairComparison.Finding.UNSEEN,
                MeasuredComparison.of(analysis, List.of(THISTLE, teal)).get(0).finding());
    }

    @Test
    void measuredLossHangsNeitherOnTheOrderNorOnOnesWhoCameTwice() {
        List<Event> added = new ArrayList<>();
        for (int i = 0; i < 5; i++) {
            added.add(added("w" + i, paired(i, 1 + 0.2 * i, 0.3)));
        }
        MeasuredLoss.Share one = rise(added.toArray(Event[]::new));
        Collections.reverse(added);
        assertEquals(one, rise(added.toArray(Event[]::new)));
        added.add(added("again", paired(3, 1.6, 0.3)));
        assertEquals(one, rise(added.toArray(Event[]::new)));
        List<Event> gone = new ArrayList<>();
        for (Event a : added) {
            gone.add(a);
            gone.add(new Event.EvidenceRemoved(((Event.EvidenceAdded) a).as()));
        }
        assertEquals(rise(), rise(gone.toArray(Event[]::new)));
        assertNotEquals(rise(), one);
    }

    @Test
    void aRiderWhoseMetersFitNobodyWeighsLittle() {
        List<String> riders = new ArrayList<>();
        for (int i = 0; i < 6; i++) {
            riders.add(paired(i, 1, 0.3));
        }
        MeasuredLoss.Share sound = rise(added("club", riders.toArray(String[]::new)));
        riders.add(paired(9, -5, 5));
        Others others = others(added("club", riders.toArray(String[]::new)));
        int odd = 0;
        for (int i = 0; i < 7; i++) {
            odd = others.loss().weight(i) < others.loss().weight(odd) ? i : odd;
        }
        assertEquals(
                RiderEvidence.parse(paired(9, -5, 5)), others.riders().get(odd).evidence());
        assertTrue(
                others.loss().weight(odd) < 0.4,
                () -> String.valueOf(others.loss().weight(6)));
        MeasuredLoss.Share told = rise(added("club", riders.toArray(String[]::new)));
        assertEquals(sound.middle(), told.middle(), 0.003);
        assertEquals(1, others(added("one", rider(1, "thistle", 300))).loss().weight(0));
    }

    /** Lines that may be, and that nobody's chain has shown: figures stay figures, and others' count as before. */
    @Test
    void oddReadingsHarmNobody() {
        List<String> odd = new ArrayList<>();
        for (String load : List.of("0", "0.1", "100")) {
            for (String percent : List.of("-1", "0", "5")) {
                for (String km : List.of("{\"dry-clean\":200}", "{\"wet-gritty\":100000,\"damp-dusty\":5}")) {
                    String read = "{\"tool\":\"gauge\",\"percent\":" + percent
                            + ",\"error\":0.01,\"ridden\":[{\"method\":\"hot-wax\",\"product\":\"thistle\",\"load\":"
                            + load + ",\"km\":" + km + "},{\"method\":\"none\",\"load\":" + load
                            + ",\"worn_off\":1,\"km\":{\"dry-clean\":5}}]}";
                    odd.add("{\"readings\":[" + String.join(",", Collections.nCopies(3, read)) + "]}");
                }
            }
        }
        for (String one : odd) {
            Others others = others(added("odd", one), added("club", rider(1, "thistle", 450)));
            Paces.Level level = Objects.requireNonNull(
                            others.wear().taught().methods().get(Method.HOT_WAX))
                    .products()
                    .get("Thistle");
            assertTrue(
                    level != null
                            && Double.isFinite(level.mean())
                            && Math.abs(level.mean()) < 5
                            && level.own() > 0
                            && Double.isFinite(level.own() + level.loading()),
                    () -> one + " " + level);
            assertEquals(
                    others(added("club", rider(1, "thistle", 450))).weighed().shown(THISTLE),
                    others.weighed().shown(THISTLE));
        }
    }

    /** As an export may bring it that was written by hand: it is left out, named, and takes nobody else along. */
    @Test
    void whatIsNoEvidenceIsLeftOutAndNamed() {
        assertEquals(List.of("Teasel"), others(added("Teasel", "026")).unread());
        Others both = others(added("Teasel", "026"), added("Sedge", rider(1, "Thistle", 300)));
        assertEquals(List.of("Teasel"), both.unread());
        assertEquals(
                others(added("Sedge", rider(1, "Thistle", 300))).weighed().count(),
                both.weighed().count());
        assertEquals(List.of(), others(added("Sedge", rider(1, "Thistle", 300))).unread());
    }
}
