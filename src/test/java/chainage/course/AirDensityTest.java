package chainage.course;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

class AirDensityTest {
    /** Both formulas against values computed by an independent program from the constants named in the file. */
    @ParameterizedTest(name = "{0} {1} hPa {2} % {3} degrees {4} m")
    @CsvFileSource(resources = "air-density.csv", numLinesToSkip = 1)
    void table(String model, double hectopascals, Double humidity, double celsius, Double metres, double density) {
        if (model.equals("isa")) {
            assertEquals(density, AirDensity.standard(metres), 1e-6);
            assertEquals(hectopascals, AirDensity.standardPressure(metres), 1e-4);
            assertEquals(celsius, AirDensity.standardCelsius(metres), 1e-9);
        } else {
            assertEquals(density, AirDensity.of(hectopascals, humidity, celsius), 1e-6);
        }
    }

    /** The two formulas differ by 0.03 % at sea level; each is checked against its own value above. */
    @Test
    void theTwoFormulasDifferALittle() {
        assertEquals(1.0003, AirDensity.of(1013.25, 0, 15) / AirDensity.standard(0), 1e-4);
    }
}
