package chainage.weather;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.TestLedger;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class FilmTest {
    private static final FilmParameters ROAD = TestLedger.film();
    private static final Film.Listener NOBODY = (a, b, c, d) -> {};

    private static double held(Film film) {
        return film.evaporatedMm() + film.runOffMm() + film.liquidMm() + film.frozenMm();
    }

    /** The reference's worked example of drying: 0.25 mm at 0.25 mm/h is an hour [computed]. */
    @Test
    void aQuarterMillimetreDriesInAnHour() {
        Film film = new Film(ROAD);
        film.step(1, 0.5, false, 20, 0.25, NOBODY);
        assertEquals(0.25, film.liquidMm(), 1e-12);
        film.step(0.999, 0, false, 20, 0.25, NOBODY);
        assertTrue(film.liquidMm() > 0);
        film.step(0.002, 0, false, 20, 0.25, NOBODY);
        assertEquals(0, film.liquidMm());
    }

    /** Rates are 0.25 mm/h of evaporation here; all else follows by hand. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
            # case                          | hours | rate | liquid | evaporated | run off
            nothing falls                   |     1 |    0 |      0 |          0 |       0
            drizzle that dries as it falls  |     2 |  0.2 |      0 |        0.4 |       0
            rain fills the film             |     1 | 0.65 |    0.4 |       0.25 |       0
            rain drains above the cap       |     2 | 1.25 |    0.6 |        0.5 |     1.4
            """)
    void rainAtTwentyDegrees(String title, double hours, double rate, double liquid, double evaporated, double runOff) {
        Film film = new Film(ROAD);
        film.step(hours, rate, false, 20, 0.25, NOBODY);
        assertEquals(liquid, film.liquidMm(), 1e-12);
        assertEquals(evaporated, film.evaporatedMm(), 1e-12);
        assertEquals(runOff, film.runOffMm(), 1e-12);
    }

    @Test
    void snowLiesUntilItThaws() {
        Film film = new Film(ROAD);
        film.step(4, 0.5, true, -3, 0.3, NOBODY);
        assertEquals(0, film.liquidMm());
        assertEquals(2, film.frozenMm(), 1e-12);
        film.step(1, 0, false, 2, 0.02, NOBODY); // Melts 0.6 mm, of which 0.02 mm leave.
        assertEquals(1.4, film.frozenMm(), 1e-12);
        assertEquals(0.58, film.liquidMm(), 1e-12);
        film.step(1, 0, false, -1, 0.3, NOBODY);
        assertEquals(0, film.liquidMm());
        assertEquals(1.98, film.frozenMm(), 1e-12);
        film.step(9, 0, false, 1, 0.3, NOBODY);
        assertEquals(0, film.liquidMm() + film.frozenMm(), 1e-12, "melted in 6.6 h at 0.3 mm/h, and dried as it did");
    }

    /** What lies on the road as the listener hears of it, in mm, at the end of some hours. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
            # case                          | rate | frozen | celsius | heard
            freezing rain stays             |    1 | false  |    -0.5 |     2
            snow in frost lies              |    1 | true   |      -5 |     2
            sleet at the freezing point     |    1 | true   |       0 |     2
            snow that melts runs as water   |    1 | true   |       5 |   0.6
            snow beyond the cap is cleared  |    9 | true   |      -5 |     5
            """)
    void snowAndIceAreHeardOfAsWater(String title, double rate, boolean frozen, double celsius, double heard) {
        Film film = new Film(ROAD);
        double[] last = new double[2];
        film.step(2, rate, frozen, celsius, 0, (fromHours, toHours, from, to) -> {
            last[0] = toHours;
            last[1] = to;
        });
        assertEquals(2, last[0]);
        assertEquals(heard, last[1], 1e-12);
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10})
    void waterIsConserved(long seed) {
        Random random = new Random(seed);
        Film film = new Film(ROAD);
        double fallen = 0;
        for (int i = 0; i < 5000; i++) {
            double hours = random.nextDouble() * 3;
            double rate = random.nextInt(3) == 0 ? random.nextDouble() * 8 : 0;
            double celsius = -8 + 30 * random.nextDouble();
            fallen += hours * rate;
            film.step(hours, rate, random.nextInt(4) == 0, celsius, 0.5 * random.nextDouble(), NOBODY);
            assertTrue(film.liquidMm() >= 0 && film.liquidMm() <= ROAD.capMm());
            assertTrue(film.frozenMm() >= 0 && film.frozenMm() <= ROAD.frozenCapMm());
            assertEquals(fallen, held(film), 1e-9 * (1 + fallen), "step " + i);
        }
        assertEquals(fallen, film.fallenMm(), 1e-9 * fallen);
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10})
    void oneStepIsAsManySmallOnes(long seed) {
        Random random = new Random(seed);
        Film once = new Film(ROAD);
        Film often = new Film(ROAD);
        for (int i = 0; i < 300; i++) {
            double hours = random.nextDouble() * 3;
            double rate = random.nextInt(3) == 0 ? random.nextDouble() * 3 : 0;
            boolean frozen = random.nextInt(3) == 0;
            double celsius = -4 + 20 * random.nextDouble();
            double dries = 0.5 * random.nextDouble();
            once.step(hours, rate, frozen, celsius, dries, NOBODY);
            for (int k = 0; k < 7; k++) {
                often.step(hours / 7, rate, frozen, celsius, dries, NOBODY);
            }
            assertEquals(once.liquidMm(), often.liquidMm(), 1e-9);
            assertEquals(once.frozenMm(), often.frozenMm(), 1e-9);
        }
    }

    /** The numbers of the published road-moisture balance: drains from 0.6 mm, holds dust from 0.02, all of it from 0.06. */
    @Test
    void theBoundsAreThePublishedOnes() {
        assertEquals(0.6, ROAD.capMm());
        assertEquals(0.06, ROAD.wetMm());
        assertEquals(0.02, ROAD.dampMm());
    }

    /** 100 W/m² that go into evaporation take 0.147 mm/h: 360 kJ over 2.45 MJ/kg. */
    @Test
    void windAndSunDryTogether() {
        assertEquals(0.147, FilmParameters.takenByHeat(100), 0.0005);
        Air air = new Air(12, Vapour.humidityPercent(12, 9), 2, 0.5);
        double wind = ROAD.evaporationMmPerHour(air, 0);
        assertEquals(
                wind + FilmParameters.takenByHeat(100), ROAD.evaporationMmPerHour(air, 100 / ROAD.sunShare()), 1e-12);
        assertEquals(wind / 2, ROAD.evaporationMmPerHour(new Air(12, air.humidityPercent(), 0, 1), 0), 1e-12);
    }
}
