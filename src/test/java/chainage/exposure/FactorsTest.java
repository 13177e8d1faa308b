package chainage.exposure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.TestLedger;
import chainage.condition.Condition;
import chainage.condition.Evidence;
import chainage.condition.Reason;
import chainage.condition.Said;
import chainage.condition.Wetness;
import chainage.ledger.Event;
import chainage.ledger.Grit;
import chainage.ledger.Method;
import chainage.quantity.Estimate;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The table itself, with round figures of the test's own, so that each result can be told in the head. */
class FactorsTest {
    private static final Factors FACTORS = Factors.parse("""
            # a note

            life.hot-wax\t300\t200\t400\tkm\tour guess\tlife
            life.wet-lube\t350\t\t\tkm\tour guess\tlife
            treatment.wet.hot-wax\t4\t\t\tx\tour guess\twet
            treatment.damp.hot-wax\t1.5\t\t\tx\tour guess\tdamp
            treatment.gritty.hot-wax\t2\t\t\tx\tour guess\tgritty
            wear.rate.hot-wax\t0.025\t\t\t%/1000 km\tour guess\trate
            wear.rate.none\t0.12\t\t\t%/1000 km\tour guess\trate
            wear.wet\t1.8\t\t\tx\tour guess\twet
            wear.damp\t1.3\t\t\tx\tour guess\tdamp
            wear.gritty\t2.5\t\t\tx\tour guess\tgritty
            """);

    private static Event.FactorSet set(
            String key, @Nullable Double value, @Nullable Double low, @Nullable Double high) {
        return new Event.FactorSet(key, value, low, high);
    }

    private static Factors.Factor own(String key, @Nullable Double value, @Nullable Double low, @Nullable Double high) {
        return FACTORS.with(Map.of(key, set(key, value, low, high))).factor(key);
    }

    @Test
    void notesAndBlankLinesAreNoRows() {
        assertEquals(10, FACTORS.all().size());
        assertTrue(FACTORS.has("wear.wet"));
        assertFalse(FACTORS.has("wear.snow"));
        assertThrows(IllegalArgumentException.class, () -> FACTORS.factor("wear.snow"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"a\t1\t\t\tx\tour guess", "a\t1\t\t\tx\tour guess\ta\tb", "a\tb\t\t\tx\tour guess\ta"})
    void aLineOfAnotherFormIsRefused(String line) {
        assertThrows(IllegalArgumentException.class, () -> Factors.parse(line));
    }

    @Test
    void aKeyThatStandsTwiceIsRefused() {
        String line = "a\t1\t\t\tx\tour guess\tmeaning\n";
        assertEquals(1, Factors.parse(line).value("a"));
        assertThrows(IllegalArgumentException.class, () -> Factors.parse(line + line));
    }

    @Test
    void anOwnValueKeepsTheIntervalInProportion() {
        assertSame(FACTORS, FACTORS.with(Map.of()));
        assertEquals(
                new Estimate(400, 600, 800),
                own("life.hot-wax", 600.0, null, null).interval());
        assertEquals(
                new Estimate(500, 600, 700),
                own("life.hot-wax", 600.0, 500.0, 700.0).interval());
        assertEquals(Factors.OWN, own("life.hot-wax", 600.0, null, null).mark());
        assertNull(own("wear.wet", 2.0, null, null).interval());
        assertEquals(2, own("wear.wet", 2.0, null, null).value());
        assertEquals("our guess", own("wear.wet", null, null, null).mark());
        assertEquals(1.8, own("wear.wet", null, null, null).value());
        Factors strange = FACTORS.with(Map.of("wear.snow", set("wear.snow", 3.0, null, null)));
        assertEquals(List.copyOf(FACTORS.all()), List.copyOf(strange.all()));
    }

    @Test
    void lifeIsInMetresAndAnUntreatedChainHasNone() {
        assertEquals(new Estimate(200_000, 300_000, 400_000), FACTORS.lifeMetres(Method.HOT_WAX));
        assertEquals(new Estimate(350_000, 350_000, 350_000), FACTORS.lifeMetres(Method.WET_LUBE));
        assertNull(FACTORS.lifeMetres(Method.NONE));
    }

    /** 1 + wet × 3 + damp × 0.5, times 2 where gritty; wear 1 + wet × 0.8 + damp × 0.3, times 2.5. */
    @ParameterizedTest(name = "wet {0}, damp {1}, {2}")
    @CsvSource({
        "0, 0, CLEAN, 1, 1",
        "1, 0, CLEAN, 4, 1.8",
        "0, 1, CLEAN, 1.5, 1.3",
        "0.5, 0.25, CLEAN, 2.625, 1.475",
        "0.5, 0.25, GRITTY, 5.25, 3.6875",
    })
    void sharesOfTheRoadAddUpAndGritMultiplies(double wet, double damp, Grit grit, double treatment, double wear) {
        Condition c = new Condition(
                List.of(new Said<>(Evidence.FLAG, new Wetness(wet, damp, false), new Reason.Tag())),
                List.of(new Said<>(Evidence.FLAG, grit, new Reason.Tag())));
        assertEquals(treatment, FACTORS.treatmentFactor(c, Method.HOT_WAX), 1e-12);
        assertEquals(wear, FACTORS.wearFactor(c), 1e-12);
        assertEquals(1, FACTORS.treatmentFactor(c, Method.NONE), 1e-12);
    }

    /** Life 300 km: 0.025 up to there, half way to 0.12 at 450 km, all the way at 600; per cent a metre, times 1e6. */
    @ParameterizedTest
    @CsvSource({"0, 0.025", "300, 0.025", "375, 0.04875", "450, 0.0725", "600, 0.12", "9000, 0.12"})
    void theRateBlendsIntoTheUntreatedOne(double km, double rate) {
        WearRate hot = WearRate.of(FACTORS, Method.HOT_WAX, 300_000);
        assertEquals(rate, hot.at(km * 1000) * 1e6, 1e-12);
        assertEquals(rate, hot.mean(km * 1000, km * 1000) * 1e6, 1e-12);
        assertEquals(0.12, WearRate.of(FACTORS, Method.NONE, Double.NaN).at(km * 1000) * 1e6, 1e-12);
    }

    /** Over the blend the mean is the middle of both ends; over all of it the areas add up. */
    @Test
    void theMeanRateIsTheAreaUnderTheRate() {
        WearRate hot = WearRate.of(FACTORS, Method.HOT_WAX, 300_000);
        assertEquals(0.0725, hot.mean(300_000, 600_000) * 1e6, 1e-12);
        assertEquals((0.025 * 300 + 0.0725 * 300 + 0.12 * 100) / 700, hot.mean(0, 700_000) * 1e6, 1e-12);
    }

    private static final Pattern KEY = Pattern.compile("\"((?:[a-z]+(?:-[a-z]+)*\\.)+(?:[a-z]+(?:-[a-z]+)*)?)\"");

    /** A key that the code spells, or the beginning of one that it puts together, is in the program's table; no row idles. */
    @Test
    void everyKeyOfTheCodeHasItsRowAndEveryRowItsUse() throws IOException {
        List<String> rows =
                TestLedger.factors().all().stream().map(Factors.Factor::key).toList();
        Set<String> groups =
                rows.stream().map(key -> key.substring(0, key.indexOf('.'))).collect(Collectors.toSet());
        Set<String> spelt = new TreeSet<>();
        try (Stream<Path> sources = Files.walk(Path.of("src", "main", "java"))) {
            for (Path source :
                    sources.filter(p -> p.toString().endsWith(".java")).toList()) {
                KEY.matcher(Files.readString(source))
                        .results()
                        .map(m -> m.group(1))
                        .filter(key -> groups.contains(key.substring(0, key.indexOf('.'))))
                        .forEach(spelt::add);
            }
        }
        assertTrue(spelt.size() > 50, spelt.toString());
        assertEquals(
                List.of(),
                spelt.stream()
                        .filter(key -> rows.stream()
                                .noneMatch(row -> key.endsWith(".") ? row.startsWith(key) : row.equals(key)))
                        .toList(),
                "no row");
        assertEquals(
                List.of(),
                rows.stream()
                        .filter(row -> spelt.stream()
                                .noneMatch(key -> key.endsWith(".") ? row.startsWith(key) : row.equals(key)))
                        .toList(),
                "no use");
    }
}
