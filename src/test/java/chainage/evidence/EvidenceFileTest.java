package chainage.evidence;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.TestLedger;
import chainage.TestRides;
import chainage.analysis.Analysis;
import chainage.analysis.Snapshot;
import chainage.friction.Friction;
import chainage.ledger.Cleaning;
import chainage.ledger.Event;
import chainage.ledger.MeterPlace;
import chainage.ledger.Method;
import chainage.ledger.Moisture;
import chainage.ledger.Reading;
import chainage.ledger.Remark;
import chainage.ledger.Rule;
import chainage.meter.MeasuredLoss;
import chainage.quantity.PlainText;
import chainage.ride.FiledRide;
import chainage.ride.PowerTrace;
import chainage.wear.ChainWear;
import chainage.wear.ReadingSeen;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class EvidenceFileTest {
    private static final String HEAD = "{\"format\":\"chain evidence\",\"version\":1,\"distance\":\"km\"}";
    private static final String GOOD =
            "{\"rider\":1,\"method\":\"hot-wax\",\"product\":\"Pond Wax\",\"cleaning\":\"deep\","
                    + "\"load\":1.1,\"km\":{\"dry-clean\":260,\"wet-clean\":20},\"last_ride_km\":{\"dry-clean\":40},"
                    + "\"end\":\"noisy\"}";

    private static final String CHAIN =
            "{\"rider\":1,\"readings\":[{\"tool\":\"ruler\",\"percent\":0.02,\"error\":0.1,\"ridden\":[]},"
                    + "{\"edge\":0.5,\"drops\":false,\"error\":0.05,\"ridden\":[{\"method\":\"hot-wax\","
                    + "\"product\":\"Pond Wax\",\"load\":1.1,\"worn_off\":0.1,\"km\":{\"dry-clean\":800}}]}]}";

    private static final String RIDE = "{\"method\":\"hot-wax\",\"product\":\"Pond Wax\",\"cleaning\":\"deep\","
            + "\"used\":0.4,\"per_mu\":0.15,\"missing\":2.31,\"error\":0.07}";
    private static final String PAIRED =
            "{\"rider\":1,\"paired\":[" + RIDE + "," + RIDE + "," + RIDE + "," + RIDE + "]}";

    /** A season of one rider, with words that can be told from all others; the words that must not be told. */
    private record Season(Analysis analysis, List<String> secrets) {
        static Season of(long seed) {
            Random random = new Random(seed);
            List<String> secrets = new ArrayList<>();
            String bike = word(random, secrets);
            TestLedger facts = new TestLedger()
                    .add(
                            new Event.BikeDescribed(bike, List.of(), List.of(), null),
                            new Event.RuleSet(new Rule(new Rule.Otherwise(), bike, null)),
                            new Event.ProductDescribed("Pond Wax", Method.HOT_WAX, null, null));
            List<FiledRide> rides = new ArrayList<>();
            Instant at = Instant.parse("2025-02-03T07:00:00Z").plus(random.nextInt(90), ChronoUnit.DAYS);
            String chain = word(random, secrets);
            facts.add(
                    new Event.ChainDescribed(chain, 112, 11, null, null),
                    new Event.Installed(chain, bike, at.minus(1, ChronoUnit.HOURS)),
                    new Event.Measured(chain, at, new Reading.Elongation(0.013, Reading.Tool.CALLIPER, 8)));
            String pedals = word(random, secrets);
            String hub = word(random, secrets);
            facts.add(
                    new Event.MeterPlaced("bike_power", pedals, MeterPlace.BEFORE_CHAIN, null),
                    new Event.MeterPlaced("bike_power", hub, MeterPlace.BEHIND_CHAIN, 0.7137));
            for (int t = 0; t < 4 + random.nextInt(4); t++) {
                facts.add(new Event.Treated(chain, "Pond Wax", at, Cleaning.DEEP, null, null));
                secrets.add(at.toString().substring(0, 10));
                for (int r = 0; r < 2 + random.nextInt(5); r++) {
                    at = at.plus(1 + random.nextInt(3), ChronoUnit.DAYS);
                    double km = 20 + 0.37 * random.nextInt(300);
                    TestRides ride = TestRides.ride(word(random, secrets), at.toString(), km)
                            .titled(word(random, secrets))
                            .path("/" + word(random, secrets) + "/" + word(random, secrets) + ".fit")
                            .sensor("bike_power", pedals)
                            .at(41.2 + random.nextDouble(), -8.6 + random.nextDouble())
                            .power(183.7)
                            .recorded(power(at, km, 1));
                    rides.add(ride.filed());
                    rides.add(TestRides.ride(word(random, secrets), at.toString(), km)
                            .path("/" + word(random, secrets) + ".fit")
                            .sensor("bike_power", hub)
                            .power(180.3)
                            .recorded(power(at, km, 0.97 + 0.003 * random.nextGaussian()))
                            .filed());
                    secrets.add(at.toString().substring(0, 10));
                    if (random.nextInt(3) == 0) {
                        facts.add(new Event.Tagged(List.of(ride.id()), Moisture.WET, 0.5, null));
                    }
                }
                at = at.plus(9, ChronoUnit.HOURS);
                if (random.nextBoolean()) {
                    facts.add(new Event.Remarked(chain, at, Remark.NOISY, word(random, secrets)));
                }
                facts.add(
                        new Event.Measured(
                                chain, at, new Reading.Elongation(0.08 * t + 0.0137, Reading.Tool.RULER, 24)),
                        new Event.Measured(chain, at, new Reading.Gauge(0.5, false)));
                at = at.plus(1, ChronoUnit.HOURS);
            }
            Snapshot kept = new Snapshot(facts.entries(), rides, Map.of());
            return new Season(Analysis.of(kept, TestLedger.tables(), at), secrets);
        }

        /** Power that rises and falls, as a meter shows it that reads so much of it. */
        private static PowerTrace power(Instant from, double km, double shows) {
            long first = from.getEpochSecond() / 60;
            List<PowerTrace.Minute> minutes = new ArrayList<>();
            for (int m = 0; m < km * 1000 / 8 / 60; m++) {
                double watts = shows * (190 + 45 * Math.sin(m / 1.6) + 30 * Math.sin(m / 3.5));
                minutes.add(new PowerTrace.Minute(60, 60, (int) Math.round(watts), 85));
            }
            return new PowerTrace(first, minutes);
        }

        private static String word(Random random, List<String> secrets) {
            StringBuilder word = new StringBuilder("q");
            for (int i = 0; i < 9; i++) {
                word.append((char) ('a' + random.nextInt(26)));
            }
            secrets.add(word.toString());
            return word.toString();
        }

        RiderEvidence evidence(boolean named, int least) {
            return RiderEvidence.of(
                    analysis.ledger(),
                    analysis.exposures(),
                    analysis.pairs().rides(),
                    analysis.factors(),
                    named,
                    least);
        }
    }

    @Test
    void nothingOfNamesPlacesTimesOrPathsIsInTheFile() {
        for (long seed = 1; seed <= 40; seed++) {
            Season season = Season.of(seed);
            String text = EvidenceFile.text(List.of(season.evidence(true, 1)));
            assertTrue(text.contains("Pond Wax") && text.contains("readings") && text.contains("paired"), text);
            String lower = text.toLowerCase(Locale.ROOT);
            for (String secret : season.secrets()) {
                assertFalse(lower.contains(secret), () -> secret + " in " + text);
            }
            assertFalse(text.matches("(?s).*(20\\d\\d-|41\\.\\d|-8\\.\\d|:\\d\\d:|183\\.7|180\\.3|0\\.7137).*"), text);
            assertFalse(EvidenceFile.text(List.of(season.evidence(false, 1))).contains("Pond"));
            PairEvidence pair = season.evidence(true, 1).pairs().get(0);
            List<PairEvidence.Ride> turned = new ArrayList<>(pair.rides());
            Collections.shuffle(turned, new Random(seed));
            assertEquals(pair, new PairEvidence(turned));
        }
    }

    @Test
    void everyLineHoldsWhatTheSchemaSaysAndNoMore() throws EvidenceException {
        for (long seed = 1; seed <= 20; seed++) {
            RiderEvidence told = Season.of(seed).evidence(true, 1);
            String text = EvidenceFile.text(List.of(told));
            assertEquals(List.of(told), EvidenceFile.read(text.lines().iterator()), "seed " + seed);
            assertEquals(told, RiderEvidence.parse(told.text()));
            told.treatments()
                    .forEach(t -> t.km().words().values().forEach(km -> assertEquals(0, km % RoadKilometres.STEP)));
        }
    }

    @Test
    void theOrderOfLinesAndRidersTellsNothing() throws EvidenceException {
        RiderEvidence one = Season.of(1).evidence(true, 1);
        RiderEvidence two = Season.of(2).evidence(true, 1);
        List<TreatmentEvidence> turned = new ArrayList<>(one.treatments());
        Collections.reverse(turned);
        assertEquals(one, new RiderEvidence(turned, one.chains(), one.pairs()));
        String text = EvidenceFile.text(List.of(one, two));
        assertEquals(text, EvidenceFile.text(List.of(two, one)));
        assertEquals(
                EvidenceFile.read(text.lines().iterator()).size(),
                EvidenceFile.read((EvidenceFile.text(List.of(one)) + EvidenceFile.text(List.of(two)))
                                .lines()
                                .iterator())
                        .size());
    }

    @Test
    void aProductOfFewTreatmentsIsLeftOut() {
        int all = Season.of(3).evidence(true, 1).treatments().size();
        assertEquals(all, Season.of(3).evidence(true, all).treatments().size());
        assertEquals(0, Season.of(3).evidence(true, all + 1).treatments().size());
    }

    @Test
    void aLaterFileOfTheSameRiderIsToldFromAnotherRiders() {
        RiderEvidence one = Season.of(4).evidence(true, 1);
        RiderEvidence earlier = new RiderEvidence(
                one.treatments().subList(0, Math.max(5, one.treatments().size() - 1)), one.chains(), List.of());
        assertTrue(one.marks().isSameRider(earlier.unnamed().marks()));
        for (long seed = 5; seed < 40; seed++) {
            assertFalse(
                    one.marks().isSameRider(Season.of(seed).evidence(true, 1).marks()), "seed " + seed);
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {GOOD, CHAIN, PAIRED})
    void aGoodLineIsTaken(String line) throws EvidenceException {
        assertEquals(1, EvidenceFile.read(List.of(HEAD, line).iterator()).size());
        assertEquals(
                1,
                EvidenceFile.read(List.of(HEAD.replace(":1,", ":2,"), line).iterator())
                        .size());
        assertEquals(
                1,
                EvidenceFile.read(List.of(HEAD.replace(":1,", ":3,"), line).iterator())
                        .size());
    }

    /** Each kilometre and reading is told, and what a reader expects of them is what the writer does. */
    @Test
    void readingsComeWithWhatWasRiddenBeforeThem() {
        Season season = Season.of(6);
        Analysis all = season.analysis();
        String name = all.ledger().chains().firstKey();
        List<ReadingSeen> own = all.estimates().wear().readings(name);
        ChainEvidence told = season.evidence(true, 1).chains().get(0);
        assertEquals(0, told.readings().get(0).total());
        int last = -1;
        for (ReadingEvidence r : told.readings()) {
            assertTrue(r.total() == last || r.total() >= last + ChainEvidence.LEAST_APART || last < 0, told::toString);
            last = r.total();
        }
        ChainWear wear = told.wear((method, word) -> String.valueOf(word), all.factors());
        ReadingSeen end = wear.readings().get(wear.readings().size() - 1);
        double expected = end.expected().percent();
        assertTrue(
                own.stream()
                        .anyMatch(m -> m.measured().reading() instanceof Reading.Gauge
                                && Math.abs(m.expectedPercent() / expected - 1) < 0.01),
                () -> expected + " in " + own);
        assertEquals(Map.of("Pond Wax", 1.0), wear.products());
        assertEquals(0.05, end.measured().reading().errorPercent());
    }

    /** What a reader learns of rides is what the writer knows of them, up to how it is rounded. */
    @Test
    void ridesWithTwoMetersComeAsFarAsTheyTellOfTheChain() {
        Season season = Season.of(7);
        Analysis all = season.analysis();
        List<MeasuredLoss.Seen> own = all.pairs().learnt().seen();
        List<MeasuredLoss.Seen> told = season.evidence(true, 1)
                .pairs()
                .get(0)
                .seen("x", (method, word) -> String.valueOf(word), new Friction(all.factors()));
        assertEquals(own.size(), told.size());
        assertEquals(
                own.stream().mapToDouble(MeasuredLoss.Seen::logRatio).sum(),
                told.stream().mapToDouble(MeasuredLoss.Seen::logRatio).sum(),
                0.5e-4 * own.size());
        assertEquals(
                own.stream().mapToDouble(MeasuredLoss.Seen::mu).average().orElseThrow(),
                told.stream().mapToDouble(MeasuredLoss.Seen::mu).average().orElseThrow(),
                0.004);
        told.forEach(t -> assertEquals(own.get(0).perMu(), t.perMu(), 0.005));
        assertEquals("Pond Wax", told.get(0).product());
        assertEquals(
                List.of(),
                season.evidence(true, own.size()).pairs(),
                "of a product whose treatments are not told rides are not either");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '\'', textBlock = """
        "hot-wax" | "none"
        "deep" | "often"
        "used":0.4 | "used":-0.1
        "used":0.4 | "used":3.5
        "used":0.4, |
        "per_mu":0.15 | "per_mu":0
        "missing":2.31 | "missing":31
        "missing":2.31 | "missing":"much"
        "error":0.07 | "error":0
        "error":0.07 | "error":0.07,"serial":31000417
        "error":0.07 | "error":0.07,"at":"2026-01-01"
        "Pond Wax" | ""
        "rider":1 | "rider":1,"meter":"Amber"
        """)
    void ridesThatCannotBeAreRefusedByTheirNumber(String part, @Nullable String instead) {
        refused(PAIRED.replaceFirst(Pattern.quote(part), instead == null ? "" : instead));
    }

    @Test
    void ridesOfTwoMetersThatTellNothingAreRefused() {
        refused(PAIRED.substring(0, PAIRED.lastIndexOf(",{")) + "]}");
        refused("{\"rider\":1,\"paired\":[]}");
        refused("{\"rider\":1,\"paired\":7}");
        refused(PAIRED.replace("hot-wax", "wet-lube"));
    }

    /** Names too were written by others. */
    @ParameterizedTest
    @ValueSource(strings = {"load", "dry-clean"})
    void aNameIsShownHarmless(String name) {
        EvidenceException refused = assertThrows(
                EvidenceException.class,
                () -> EvidenceFile.read(
                        List.of(HEAD, GOOD.replaceFirst(name, name + "\\\\n")).iterator()));
        String reason = refused.lines().get(0).what();
        assertTrue(reason.contains("\uFFFD"), reason);
        assertEquals(reason, PlainText.marked(reason));
    }

    private static void refused(String bad) {
        assertFalse(bad.equals(PAIRED));
        EvidenceException refused = assertThrows(
                EvidenceException.class,
                () -> EvidenceFile.read(List.of(HEAD, GOOD, bad, PAIRED).iterator()));
        assertEquals(
                List.of(3L),
                refused.lines().stream().map(EvidenceException.BadLine::line).toList());
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '\'', textBlock = """
        "ruler" | "thumb"
        "percent":0.02 | "percent":9
        "error":0.1 | "error":0
        "edge":0.5 | "edge":0.5,"percent":0.5
        "drops":false | "drops":1
        "drops":false, |
        "hot-wax" | "lava"
        "worn_off":0.1 | "worn_off":1.1
        "dry-clean":800 | "dry-clean":801
        "dry-clean":800 | "dry-clean":100
        "ridden":[] | "ridden":[{"method":"none","load":1,"km":{"wet-gritty":900}}]
        "ridden":[] | "ridden":7
        "ridden":[] | "ridden":[3]
        "rider":1 | "rider":1,"chain":"Amber"
        "error":0.1 | "error":0.1,"at":"2026-01-01"
        """)
    void aChainThatCannotBeIsRefusedByItsNumber(String part, @Nullable String instead) {
        String bad = CHAIN.replace(part, instead == null ? "" : instead);
        assertFalse(bad.equals(CHAIN));
        EvidenceException refused = assertThrows(
                EvidenceException.class,
                () -> EvidenceFile.read(List.of(HEAD, GOOD, bad, CHAIN).iterator()));
        assertEquals(
                List.of(3L),
                refused.lines().stream().map(EvidenceException.BadLine::line).toList());
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '\'', textBlock = """
        "hot-wax" | "lava"
        "deep" | "often"
        1.1 | "much"
        1.1 | -1
        "dry-clean":260 | "dry-clean":261
        "dry-clean":260 | "dry-clean":0
        "dry-clean":260 | "snow":260
        "dry-clean":40 | "dry-clean":300
        "last_ride_km" | "last_km"
        "noisy" | "silent"
        "noisy" | "loud"
        "rider":1 | "rider":-1
        "rider":1 | "rider":1,"rider":2
        "rider":1 | "name":"x"
        "Pond Wax" | ""
        """)
    void aLineThatCannotBeIsRefusedByItsNumber(String part, String instead) {
        String bad = GOOD.replace(part, instead);
        assertFalse(bad.equals(GOOD));
        EvidenceException refused = assertThrows(
                EvidenceException.class,
                () -> EvidenceFile.read(List.of(HEAD, GOOD, bad, GOOD).iterator()));
        assertEquals(
                List.of(3L),
                refused.lines().stream().map(EvidenceException.BadLine::line).toList());
    }

    @Test
    void oneProductUnderTwoMethodsIsRefused() {
        String other = GOOD.replace("hot-wax", "wet-lube").replace("Pond Wax", "pond  wax");
        assertEquals(
                2,
                assertThrows(
                                        EvidenceException.class,
                                        () -> EvidenceFile.read(
                                                List.of(HEAD, GOOD, other).iterator()))
                                .lines()
                                .get(0)
                                .line()
                        - 1);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "{}", "x", "{\"format\":\"chain evidence\",\"version\":4,\"distance\":\"km\"}"})
    void anotherFileIsRefused(String first) {
        assertThrows(
                EvidenceException.class,
                () -> EvidenceFile.read(List.of(first, GOOD).iterator()));
    }
}
