package chainage.treatment;

import static chainage.TestRides.ride;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.TestLedger;
import chainage.TestRides;
import chainage.attribution.Attribution;
import chainage.exposure.Exposures;
import chainage.exposure.Factors;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Method;
import chainage.ledger.Remark;
import chainage.ledger.Rule;
import chainage.quantity.Estimate;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;

/** From what the rider notes to lives, and from a life to where a treatment stands. */
class LifeTest {
    private static final Factors FACTORS = TestLedger.factors();

    private static TestLedger amber() {
        return new TestLedger()
                .bike("Dunlin")
                .add(new Event.RuleSet(new Rule(new Rule.Otherwise(), "Dunlin", null)))
                .chain("Amber")
                .installed("Amber", "Dunlin", day(1));
    }

    private static String day(int day) {
        return Instant.parse("2026-03-01T00:00:00Z")
                .plusSeconds(86_400L * (day - 1))
                .toString();
    }

    private static Event noisy(int day) {
        return new Event.Remarked("Amber", Instant.parse(day(day)), Remark.NOISY, "");
    }

    /** Ten rides of 50 km, one each day at eight. */
    private static Exposures exposures(Ledger ledger) {
        List<TestRides> all = new ArrayList<>();
        for (int d = 1; d <= 10; d++) {
            all.add(ride("r" + d, day(d).replace("T00", "T08"), 50));
        }
        return Exposures.of(
                ledger,
                Attribution.of(ledger, all.stream().map(TestRides::filed).toList()),
                TestLedger.roads(ledger),
                FACTORS);
    }

    private static List<Life> lives(TestLedger facts) {
        Ledger ledger = facts.ledger();
        return Life.of(ledger, exposures(ledger), FACTORS);
    }

    private static String words(Life life) {
        return life.product().product() + " " + life.treatedAt().toString().substring(0, 10) + " "
                + Math.round(life.metres() / 1000) + " " + life.end();
    }

    private static List<String> words(TestLedger facts) {
        return lives(facts).stream().map(LifeTest::words).toList();
    }

    @Test
    void aLifeEndsWhereItIsHeardElseGoesOnUnseen() {
        assertEquals(
                List.of(
                        "hot-wax 2026-03-01 150 NOISY",
                        "wet-lube 2026-03-06 150 RENEWED",
                        "hot-wax 2026-03-09 100 RUNNING"),
                words(amber().treated("Amber", "hot-wax", day(1))
                        .add(noisy(4))
                        .treated("Amber", "wet-lube", day(6))
                        .treated("Amber", "hot-wax", day(9))));
        assertTrue(lives(amber().treated("Amber", "hot-wax", day(1)).add(noisy(4)))
                .get(0)
                .ended());
        assertFalse(lives(amber().treated("Amber", "hot-wax", day(1))).get(0).ended());
    }

    /** The first noise counts, and a ride that begins as it is heard does not. */
    @Test
    void whatIsRiddenOnANoisyChainIsNoLife() {
        assertEquals(
                List.of("hot-wax 2026-03-01 150 NOISY"),
                words(amber().treated("Amber", "hot-wax", day(1)).add(noisy(4), noisy(7))));
        Event atEight = new Event.Remarked("Amber", Instant.parse("2026-03-04T08:00:00Z"), Remark.NOISY, "");
        assertEquals(
                List.of("hot-wax 2026-03-01 150 NOISY"),
                words(amber().treated("Amber", "hot-wax", day(1)).add(atEight)));
    }

    @Test
    void whatSaysNothingIsLeftOut() {
        // Before the first treatment; a treatment that nobody rode on; one noted twice; an untreated chain.
        assertEquals(List.of(), words(amber()));
        assertEquals(List.of(), words(amber().treated("Amber", "hot-wax", day(20))));
        assertEquals(
                List.of("hot-wax 2026-03-03 400 RUNNING"),
                words(amber().treated("Amber", "hot-wax", day(3)).treated("Amber", "hot-wax", day(3))));
        assertEquals(List.of(), words(amber().treated("Amber", "none", day(1))));
        assertEquals(
                List.of("hot-wax 2026-03-05 300 RUNNING"),
                words(amber().treated("Amber", "none", day(1)).treated("Amber", "hot-wax", day(5))));
    }

    private static TreatmentStanding standing(TestLedger facts) {
        Ledger ledger = facts.ledger();
        Exposures exposures = exposures(ledger);
        return TreatmentStanding.of(
                ledger,
                Objects.requireNonNull(exposures.chains().get("Amber")),
                new LifeModel(Life.of(ledger, exposures, FACTORS), FACTORS),
                FACTORS);
    }

    /** 400 km on a treatment that the table gives 300 (200 to 400): what is used, and what is left of each. */
    @Test
    void whatIsLeftIsTheLifeLessWhatWasRidden() {
        TreatmentStanding s = standing(amber().treated("Amber", "hot-wax", day(3)));
        assertEquals(400_000, s.exposureMetres(), 1e-6);
        Estimate life = s.lifeMetres();
        assertNotNull(life);
        assertEquals(
                new Estimate(life.low() - 400_000, life.likely() - 400_000, life.high() - 400_000), s.leftMetres());
        assertEquals(s.limitMetres() - 400_000, s.dueInMetres(), 1e-6);
        assertTrue(s.limitMetres() < life.likely(), "the risk is below a half");
        assertEquals(400_000 / s.limitMetres(), s.used(), 1e-12);
        assertEquals(400_000 / life.likely(), s.usedOfLikely(), 1e-12);
    }

    @Test
    void aNoisyChainIsDueWhateverItRan() {
        // Heard before its first ride, so that it taught nothing of lives.
        TreatmentStanding s =
                standing(amber().treated("Amber", "drip-wax", day(9)).add(noisy(9)));
        assertEquals(Instant.parse(day(9)), s.noisy());
        assertEquals(1, s.used());
        assertEquals(1, s.usedOfLikely());
        assertEquals(0, s.dueInMetres());
        assertEquals(new Estimate(0, 0, 0), s.leftMetres());
        // Past its life it is more than due.
        TreatmentStanding late =
                standing(amber().treated("Amber", "dry-lube", day(1)).add(noisy(10)));
        assertTrue(
                late.used() > 1 && late.dueInMetres() < 0 && late.leftMetres().low() < 0);
    }

    @Test
    void anUntreatedChainHasNoLife() {
        TreatmentStanding s = standing(amber().treated("Amber", "none", day(9)));
        assertNull(s.lifeMetres());
        assertNull(s.product());
        assertEquals(100_000, s.exposureMetres(), 1e-6);
        assertEquals(1, s.used());
        assertEquals(1, s.usedOfLikely());
        assertEquals(0, s.dueInMetres());
        assertEquals(new Estimate(0, 0, 0), s.leftMetres());
        LifeModel lives = new LifeModel(List.of(), FACTORS);
        assertThrows(
                IllegalArgumentException.class,
                () -> lives.of(new Event.ProductDescribed("none", Method.NONE, null, null)));
    }
}
