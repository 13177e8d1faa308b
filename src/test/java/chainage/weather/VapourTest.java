package chainage.weather;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;

class VapourTest {
    /**
     * FAO Irrigation and Drainage Paper 56 (1998), example 3: 1.705 kPa at 15 °C and 3.075 kPa at 24.5 °C, as quoted in
     * the documentation of a public analysis language. It uses other coefficients of the same form; at these
     * temperatures the two sets of coefficients are up to 0.25 % apart, which is no matter for a road.
     */
    @ParameterizedTest
    @CsvSource({"15, 17.05", "24.5, 30.75"})
    void saturationAgreesWithTheFoodAndAgricultureOrganization(double celsius, double hectopascals) {
        assertEquals(hectopascals, Vapour.saturationHectopascals(celsius), 0.003 * hectopascals);
    }

    /**
     * 53.80 % and 44.25 % are the checked values of a public meteorological library, by Bolton's formula (1980), which
     * differs from ours by less than 0.1 % of humidity here.
     */
    @ParameterizedTest
    @CsvSource({"25, 15, 53.80", "25, 12, 44.25", "20, 20, 100", "20, 21, 100"})
    void humidity(double celsius, double dewPoint, double percent) {
        assertEquals(percent, Vapour.humidityPercent(celsius, dewPoint), 0.1);
    }

    @Test
    void unknownStaysUnknown() {
        assertTrue(Double.isNaN(Vapour.humidityPercent(Double.NaN, 5)));
        assertTrue(Double.isNaN(Vapour.humidityPercent(5, Double.NaN)));
    }

    /**
     * Computed apart from this program with a road-moisture balance's roughness lengths, 10 and 0.01 mm: the surface as
     * warm as the air, resistance ln(10/0.01) ln(10/0.00001) / (0.4² u), densities of vapour by the Magnus form.
     */
    @ParameterizedTest(name = "{0}/{1} °C, {2} m/s")
    @CsvSource({"12, 9, 2, 0.0233", "12, 9, 4, 0.0465", "20, 10, 3, 0.148", "5, 3, 3, 0.0161", "25, 12, 4, 0.309"})
    void windTakesWater(double celsius, double dewPoint, double wind, double mmPerHour) {
        double taken = Vapour.takenByWind(celsius, Vapour.humidityPercent(celsius, dewPoint), wind);
        assertEquals(mmPerHour, taken, 0.005 * mmPerHour);
    }

    /** Sources stand in the resource. Of the national schemes only the bound of light rain is the same as ours. */
    @ParameterizedTest(name = "{0} {1}")
    @CsvFileSource(resources = "rain-intensity.csv", numLinesToSkip = 2)
    void classesOfRain(String scheme, String name, double from, Double to, String mark) {
        if (scheme.equals(Intensity.SCHEME)) {
            double inside = Math.max(from, 0.01);
            assertEquals(name, Intensity.ofRain(inside).words());
            double below = to == null ? 1000 : Math.nextDown(to);
            assertEquals(name, Intensity.ofRain(below).words());
            Intensity intensity = Intensity.ofRain(inside);
            double stands = Phenomenon.RAIN.millimetresPerHour(intensity);
            assertTrue(stands >= from && (to == null || stands < to));
        } else if (scheme.startsWith("AMS") && name.equals("light") && to != null) {
            assertEquals("light", Intensity.ofRain(Math.nextDown(to)).words());
            assertEquals("moderate", Intensity.ofRain(to).words());
        }
    }
}
