package chainage.cost;

import static chainage.TestRides.ride;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.TestLedger;
import chainage.TestRides;
import chainage.analysis.Analysis;
import chainage.analysis.Snapshot;
import chainage.attribution.Attribution;
import chainage.drivetrain.Gear;
import chainage.exposure.ChainExposure;
import chainage.exposure.Exposures;
import chainage.exposure.Factors;
import chainage.friction.Effort;
import chainage.friction.Friction;
import chainage.friction.RideLoss;
import chainage.friction.RideLosses;
import chainage.ledger.Cleaning;
import chainage.ledger.Event;
import chainage.ledger.Grit;
import chainage.ledger.Ledger;
import chainage.ledger.Method;
import chainage.ledger.Moisture;
import chainage.ledger.Remark;
import chainage.ledger.Rule;
import chainage.quantity.Money;
import chainage.ride.FiledRide;
import chainage.ride.Pedalling;
import chainage.treatment.Lives;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.stream.LongStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.MethodSource;

class CostTest {
    private static final Factors FACTORS = TestLedger.factors();
    private static final Friction FRICTION = new Friction(FACTORS);
    private static final Instant FROM = Instant.parse("2026-01-01T00:00:00Z");
    private static final Instant TO = Instant.parse("2027-01-01T00:00:00Z");
    private static final Event.ProductDescribed WAX =
            new Event.ProductDescribed("Kettle Block", Method.HOT_WAX, euro(2750), 400.0, 5.0, 20.0);
    private static final Event.ProductDescribed DRIP =
            new Event.ProductDescribed("Lantern Drip", Method.DRIP_WAX, euro(1790), 120.0, 6.0, 15.0);
    private static final Event.ProductDescribed OIL =
            new Event.ProductDescribed("Marsh Oil", Method.WET_LUBE, euro(840), 100.0, 3.0, 10.0);
    private static final List<Event.ProductDescribed> ALL = List.of(WAX, DRIP, OIL);

    static LongStream seeds() {
        return LongStream.range(0, 60);
    }

    private static Money euro(long cents) {
        return new Money(cents, "EUR");
    }

    private static TestLedger ledger() {
        return new TestLedger()
                .add(new Event.BikeDescribed("Dunlin", List.of(), List.of(), null, List.of(), euro(9000), euro(6000)))
                .add(new Event.RuleSet(new Rule(new Rule.Otherwise(), "Dunlin", null)))
                .add(new Event.ChainDescribed("Amber", 112, 11, null, euro(4000)))
                .add(WAX, DRIP, OIL)
                .installed("Amber", "Dunlin", "2026-01-01T00:00:00Z");
    }

    private static CostPeriod season(Ledger ledger, List<FiledRide> rides) {
        List<FiledRide> byStart = rides.stream().sorted(FiledRide.BY_START).toList();
        return new CostPeriod(
                ledger,
                Exposures.of(ledger, Attribution.of(ledger, byStart), TestLedger.roads(ledger), FACTORS),
                FACTORS,
                FROM,
                TO,
                Lives.table(FACTORS),
                c -> 0.5);
    }

    private static ProductCosts comparison(CostPeriod season, @Nullable Effort effort) {
        return new ProductCosts(season, null, effort, "EUR", null);
    }

    private static TestRides powered(String name, String start, double km) {
        Pedalling.Row row = new Pedalling.Row(52, 15, Double.NaN, 10_000, 15_000, 250 * 10_000, km * 1000);
        return ride(name, start, km).power(250).pedalled(new Pedalling(List.of(row), 0, 0));
    }

    /**
     * A wax that lasts twice as long as the table says, learnt from its renewals, is renewed half as often and wears the
     * chain no faster for that: the rate rises at the life that is its own.
     */
    @Test
    void aWaxThatLastsLongerNeverLooksWorse() {
        List<Double> wears = new ArrayList<>();
        for (double life : new double[] {150, 300, 600}) {
            TestLedger facts = ledger();
            List<FiledRide> rides = new ArrayList<>();
            double since = 0;
            for (int day = 1; day < 320; day++) {
                Instant at = FROM.plusSeconds(86_400L * day);
                if (since == 0 || since >= life) {
                    if (since > 0) {
                        facts.add(new Event.Remarked("Amber", at.minusSeconds(10), Remark.NOISY, ""));
                    }
                    facts.add(new Event.Treated("Amber", WAX.product(), at, Cleaning.DEEP, null, null));
                    since = 0;
                }
                rides.add(ride("r" + day, at.plusSeconds(3600).toString(), 30).filed());
                since += 30;
            }
            Analysis analysis = Analysis.of(
                    new Snapshot(facts.entries(), rides, Map.of()), TestLedger.tables(), TO.minusSeconds(1));
            double limit = analysis.lives().likelyMetres(WAX);
            assertEquals(life * 1000, limit, 0.15 * life * 1000, "learnt");
            CostPeriod period = new CostPeriod(
                    analysis.ledger(), analysis.exposures(), FACTORS, FROM, TO, analysis.lives(), c -> 0.5);
            double worn =
                    Replay.of(period, WAX, new Dose(5, 20, Cleaning.DEEP, 1), Cleaning.DEEP, limit).chains().stream()
                            .mapToDouble(ChainExposure::elongationPercent)
                            .sum();
            wears.add(worn);
        }
        // All 319 rides of 30 km at the rate of a treatment in force: 0.025 % a 1000 km.
        wears.forEach(w -> assertEquals(319 * 30 * 0.025 / 1000, w, 1e-9, wears.toString()));
    }

    /** Common practice, no source, exact arithmetic: 6 a millilitre × 1 ml ÷ 6 W × 10 a year = 10 a watt-year. */
    @Test
    void theWattYearOfTheRuleOfThumb() {
        Event.ProductDescribed dear = new Event.ProductDescribed("Lantern Drip", Method.DRIP_WAX, euro(600), 1.0);
        Usage tenTimes = new Usage(10, 10 * 1, Double.NaN, Map.of(), Map.of());
        Bill year = Bill.of(tenTimes, dear, ledger().ledger(), FACTORS, "EUR", null);
        assertEquals(euro(6000), year.treating());
        assertEquals(euro(1000), Bill.perWatt(Objects.requireNonNull(year.treating()), 6));
        assertEquals(euro(100), Bill.perWatt(euro(600), 6));
    }

    /**
     * Chain 40 in 4000 km, cassette 90 for 3 chains, rings 60 for 9: 19.1667 per 1000 km, computed. The counts of chains
     * are common practice.
     */
    @Test
    void theWearOfAChainAndItsSprockets() {
        Usage thousandKm = new Usage(0, 0, 0, Map.of("Amber", 0.25), Map.of("Dunlin", 0.25));
        Bill bill = Bill.of(thousandKm, OIL, ledger().ledger(), FACTORS, "EUR", null);
        assertEquals(euro(1000), bill.chain());
        assertEquals(euro(750 + 167), bill.sprockets());
        assertEquals(1916.67, (double) Objects.requireNonNull(bill.total()).minor(), 0.5);
    }

    /** The losses of the reference table, by way of the comparison: so their differences are what is saved. */
    @ParameterizedTest
    @CsvFileSource(resources = "/chainage/friction/friction-model.csv", numLinesToSkip = 2)
    void whatIsSavedGoesByTheReferenceModel(
            double watts,
            int ring,
            int cog,
            double rpm,
            double mu,
            double pin,
            String kappa,
            double slack,
            int upper,
            int lower,
            double speed,
            double tension,
            double loss) {
        if (kappa.equals("pi/2") && pin == 1.83 && slack == 10 && upper == 11 && lower == 11) {
            Watts at = Watts.at(mu, FRICTION, new Effort(watts, new Gear(ring, cog), rpm));
            assertEquals(loss, at.watts(), 1e-6 * loss + 5e-7);
            assertEquals(2 * at.watts(), at.at(2 * mu).watts(), 1e-12);
            assertEquals(0.01 * watts, at.band(), 1e-12);
        }
    }

    /** Six dry rides of 80 km: wax of 300 km takes three before the fourth would pass it. */
    @Test
    void aProductIsRenewedBeforeTheRideThatWouldPassItsLife() {
        List<FiledRide> rides = new ArrayList<>();
        for (int day = 1; day <= 6; day++) {
            rides.add(powered("r" + day, "2026-05-0" + day + "T08:00:00Z", 80).filed());
        }
        CostPeriod season = season(ledger().ledger(), rides);
        Replay wax = comparison(season, null).replay(WAX, false);
        assertEquals(List.of(Instant.parse("2026-05-04T08:00:00Z")), wax.renewals());
        assertEquals(1 + 240 / 300.0, wax.usage().treatments(), 1e-12);
        assertEquals(5 * 1.8, wax.usage().millilitres(), 1e-12);
        // Cautious: 200 km, two rides each.
        assertEquals(
                3 - 1 + 160 / 200.0,
                comparison(season, null).replay(WAX, true).usage().treatments(),
                1e-12);
        // 0.98 × 10⁻¹ fresh after quick cleaning: 0.25 − 0.95 × 0.16; at the end 0.155: 0.25 − 0.95 × 0.10.
        double mean = 0.098 + (0.155 - 0.098) * 120 / 300;
        assertEquals(mean, Watts.of(wax.losses(), FRICTION, null).mu(), 1e-12);
        // 250 W in 52x15 at 90 rpm lose 3.427467 W at 0.09, computed.
        double slope = 3.427467 / 0.09;
        double baseline = 0.25 - 0.85 * (0.25 - 0.175);
        CostedProduct c = comparison(season, null)
                .rank(List.of(WAX), comparison(season, null).usual())
                .get(0);
        assertEquals(slope * (baseline - mean), c.saved(), 1e-5);
        assertEquals(c.saved() - 2.5, c.savedLow(), 1e-9);
        // The wear of 480 km at 0.025 % a 1000 km, times the rides' own load, of 0.5 %.
        double load = season.chains().get(0).rides().get(0).load().value();
        assertEquals(480 * load * 0.025e-3 / 0.5, wax.usage().chains().getOrDefault("Amber", 0.0), 1e-12);
    }

    @Test
    void aRideThatIsLongerThanTheLifeStartsFreshAndRunsDry() {
        CostPeriod season = season(
                ledger().ledger(),
                List.of(
                        powered("a", "2026-05-01T08:00:00Z", 350).filed(),
                        powered("b", "2026-05-02T08:00:00Z", 10).filed()));
        Replay wax = comparison(season, null).replay(WAX, false);
        assertEquals(List.of(Instant.parse("2026-05-02T08:00:00Z")), wax.renewals());
        assertEquals(1 + 10 / 300.0, wax.usage().treatments(), 1e-12);
        assertEquals(350 / 300.0, wax.losses().get(0).usedTo(), 1e-12);
    }

    @Test
    void whatWasRiddenIsTheLedgersOwnLossAlsoWhereThePeriodBeginsMidway() {
        Ledger ledger = ledger().treated("Amber", "Kettle Block", "2025-12-30T00:00:00Z")
                .installed("Amber", "Dunlin", "2025-12-30T00:00:00Z")
                .ledger();
        List<FiledRide> rides = List.of(
                powered("before", "2025-12-31T08:00:00Z", 90).filed(),
                powered("after", "2026-01-02T08:00:00Z", 90).filed());
        CostPeriod season = season(ledger, rides);
        List<RideLoss> own = new RideLosses(ledger, FACTORS).of(season.whole().get(0), season.lives()::likelyMetres);
        assertEquals(own.subList(1, 2), season.ridden());
        assertEquals(0.3, season.ridden().get(0).usedFrom(), 1e-12);
    }

    private static List<FiledRide> random(Random random) {
        List<FiledRide> rides = new ArrayList<>();
        for (int i = 0; i < 40; i++) {
            String start = Instant.parse("2026-02-01T06:00:00Z")
                    .plusSeconds(i * 432_000L + random.nextInt(40_000))
                    .toString();
            double km = 5 + random.nextInt(140);
            rides.add((random.nextBoolean() ? powered("r" + i, start, km) : ride("r" + i, start, km)).filed());
        }
        return rides;
    }

    private static TestLedger tagged(List<FiledRide> rides, Random random, double share) {
        TestLedger ledger = ledger();
        for (FiledRide r : rides) {
            if (random.nextInt(3) == 0) {
                ledger.add(new Event.Tagged(
                        List.of(r.id()), Moisture.WET, random.nextDouble(), random.nextBoolean() ? Grit.GRITTY : null));
            } else if (random.nextDouble() < share) {
                ledger.add(new Event.Tagged(List.of(r.id()), Moisture.WET, 1, null));
            }
        }
        return ledger;
    }

    /** More water never takes fewer treatments, nor a smaller bill. */
    @ParameterizedTest
    @MethodSource("seeds")
    void moreWetIsNeverCheaper(long seed) {
        List<FiledRide> rides = random(new Random(seed));
        CostPeriod drier = season(tagged(rides, new Random(seed), 0).ledger(), rides);
        CostPeriod wetter = season(tagged(rides, new Random(seed), 0.3).ledger(), rides);
        for (Event.ProductDescribed p : ALL) {
            for (boolean cautious : new boolean[] {false, true}) {
                Usage dry = comparison(drier, null).replay(p, cautious).usage();
                Usage wet = comparison(wetter, null).replay(p, cautious).usage();
                assertTrue(wet.treatments() >= dry.treatments(), "seed " + seed + ", " + p.product());
                long dryCost = Objects.requireNonNull(Bill.of(dry, p, drier.ledger(), FACTORS, "EUR", null)
                                .total())
                        .minor();
                long wetCost = Objects.requireNonNull(Bill.of(wet, p, wetter.ledger(), FACTORS, "EUR", null)
                                .total())
                        .minor();
                assertTrue(wetCost >= dryCost, "seed " + seed + ", " + p.product());
            }
        }
    }

    /** Neither the order of the files nor that of the products moves a figure. */
    @ParameterizedTest
    @MethodSource("seeds")
    void theRankingDoesNotGoByOrder(long seed) {
        Random random = new Random(seed);
        List<FiledRide> rides = random(random);
        Ledger ledger = tagged(rides, new Random(seed), 0.2).ledger();
        ProductCosts one = comparison(season(ledger, rides), null);
        List<FiledRide> shuffled = new ArrayList<>(rides);
        Collections.shuffle(shuffled, random);
        List<Event.ProductDescribed> others = new ArrayList<>(ALL);
        Collections.shuffle(others, random);
        ProductCosts two = comparison(season(ledger, shuffled), null);
        assertEquals(one.rank(ALL, one.usual()), two.rank(others, two.usual()), "seed " + seed);
    }

    @Test
    void aProductSavesNothingAgainstItselfAndThatHasNoPrice() {
        CostPeriod season = season(
                ledger().ledger(),
                List.of(powered("a", "2026-05-01T08:00:00Z", 80).filed()));
        ProductCosts c = comparison(season, null);
        CostedProduct itself = c.rank(List.of(OIL), c.loss(OIL)).get(0);
        assertEquals(0, itself.saved());
        assertNull(itself.perWatt());
        assertNull(itself.perWattHigh());
        assertTrue(Objects.requireNonNull(itself.perWattLow()).minor() > 0);
        assertThrows(IllegalArgumentException.class, () -> Bill.perWatt(euro(100), 0));
        assertThrows(IllegalArgumentException.class, () -> Bill.perWatt(euro(100), -1));
    }

    @Test
    void theSameRidingFourTimesTakesFourTimesOfEverything() {
        assertEquals(
                new Usage(10, 50, 200, Map.of("Amber", 1.0, "Moss", 2.0), Map.of("Dunlin", 0.5)),
                new Usage(2.5, 12.5, 50, Map.of("Amber", 0.25, "Moss", 0.5), Map.of("Dunlin", 0.125)).times(4));
    }

    @Test
    void anHourAndEachPartAreRoundedOnceAndAddUp() {
        Usage usage = new Usage(2.5, 12.5, 50, Map.of("Amber", 1 / 3.0), Map.of("Dunlin", 1 / 3.0));
        Bill bill = Bill.of(usage, WAX, ledger().ledger(), FACTORS, "EUR", euro(2000));
        assertEquals(euro(86), bill.product()); // 27.50 × 12.5 / 400 = 0.859375
        assertEquals(euro(1667), bill.time());
        assertEquals(euro(1333), bill.chain());
        assertEquals(euro(1000 + 222), bill.sprockets());
        assertEquals(euro(86 + 1667 + 1333 + 1000 + 222), bill.total());
        assertEquals(List.of(), bill.unpriced());
    }

    @Test
    void whatHasNoPriceIsNamedAndCurrenciesAreKeptApart() {
        Event.ProductDescribed silent = new Event.ProductDescribed("Moss Oil", Method.DRY_LUBE, euro(500), 100.0);
        Usage usage = new Usage(1, Double.NaN, Double.NaN, Map.of("Ochre", 0.5), Map.of("Natterjack", 0.5));
        TestLedger bare = ledger().chain("Ochre").bike("Natterjack");
        Bill bill = Bill.of(usage, silent, bare.ledger(), FACTORS, "EUR", null);
        assertNull(bill.product());
        assertNull(bill.total());
        assertEquals(
                List.of(
                        new PricedThing(PricedThing.Kind.CHAIN, "Ochre"),
                        new PricedThing(PricedThing.Kind.CASSETTE, "Natterjack"),
                        new PricedThing(PricedThing.Kind.RINGS, "Natterjack")),
                bill.unpriced());
        CostPeriod season = season(
                bare.ledger(), List.of(powered("a", "2026-05-01T08:00:00Z", 80).filed()));
        assertEquals(
                Map.of(
                        "EUR",
                        List.of(
                                new PricedThing(PricedThing.Kind.PRODUCT, "Kettle Block"),
                                new PricedThing(PricedThing.Kind.CHAIN, "Amber"),
                                new PricedThing(PricedThing.Kind.CASSETTE, "Dunlin"),
                                new PricedThing(PricedThing.Kind.RINGS, "Dunlin")),
                        "JPY",
                        List.of(new PricedThing(PricedThing.Kind.HOUR, ""))),
                Currencies.of(season, List.of(WAX), new Money(2000, "JPY")));
    }

    @Test
    void anUntreatedChainIsNeverTreated() {
        CostPeriod season = season(
                ledger().ledger(),
                List.of(powered("a", "2026-05-01T08:00:00Z", 80).filed()));
        Event.ProductDescribed none = new Event.ProductDescribed("none", Method.NONE, null, null);
        ProductCosts c = comparison(season, null);
        CostedProduct bare = c.rank(List.of(none), c.usual()).get(0);
        assertEquals(0, bare.usageOfYear().treatments());
        assertEquals(0.42, bare.loss().mu(), 1e-12);
        assertTrue(bare.saved() < 0);
        assertNull(bare.perWattLow());
        assertEquals(Cleaning.QUICK, bare.likely().cleaning());
    }

    @Test
    void withoutPowerAnEffortStandsIn() {
        CostPeriod season = season(
                ledger().ledger(), List.of(ride("a", "2026-05-01T08:00:00Z", 60).filed()));
        Effort e = new Effort(250, new Gear(52, 15), 90);
        ProductCosts c = comparison(season, e);
        // 60 of 300 km: 0.098 + 0.057 × 0.1 on the mean.
        double slope = 3.427467 / 0.09;
        assertEquals(slope * (0.098 + 0.057 * 0.1), c.loss(WAX).watts(), 1e-5);
        assertEquals(slope * 0.18625, c.usual().watts(), 1e-5);
    }
}
