package chainage.course;

/** Density of air, kilograms a cubic metre. */
public final class AirDensity {
    // International Standard Atmosphere (ISO 2533), from memory; the results are checked against computed values.
    private static final double SEA_KELVIN = 288.15;
    private static final double SEA_PASCAL = 101_325;
    private static final double KELVIN_PER_METRE = 0.0065;
    private static final double EXPONENT = 5.255877;
    private static final double GAS_CONSTANT = 287.05287;

    private AirDensity() {}

    /**
     * By the simplified formula of the metrologists (CIPM), good to some 0.02 % near sea level.
     *
     * @param hectopascals air pressure at the place, not reduced to sea level
     * @param humidityPercent relative humidity, 0 to 100
     * @param celsius air temperature
     */
    public static double of(double hectopascals, double humidityPercent, double celsius) {
        return (0.34848 * hectopascals - 0.009 * humidityPercent * Math.exp(0.061 * celsius)) / (273.15 + celsius);
    }

    /** Of the dry standard atmosphere at a height above sea level, metres. */
    public static double standard(double metres) {
        return 100 * standardPressure(metres) / (GAS_CONSTANT * kelvin(metres));
    }

    /** Pressure of the standard atmosphere at a height above sea level, hectopascals. */
    public static double standardPressure(double metres) {
        return SEA_PASCAL / 100 * Math.pow(kelvin(metres) / SEA_KELVIN, EXPONENT);
    }

    /** Temperature of the standard atmosphere at a height above sea level, degrees Celsius. */
    public static double standardCelsius(double metres) {
        return kelvin(metres) - 273.15;
    }

    private static double kelvin(double metres) {
        return SEA_KELVIN - KELVIN_PER_METRE * metres;
    }
}
