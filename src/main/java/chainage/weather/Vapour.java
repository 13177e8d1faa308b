package chainage.weather;

/**
 * Water vapour, and what moving air takes from a wet road.
 *
 * <p>Saturation over liquid water follows the Magnus form 6.112 hPa · exp(17.62 t / (243.12 °C + t)) of WMO-No. 8
 * (2008), part I chapter 4 annex B, after Sonntag (1990), made for −45 to 60 °C; the enhancement for pressure, 0.4 %
 * near sea level, is left out.
 *
 * <p>What a film loses is the vapour that the air lacks, over the air's resistance between the road and ten metres, from
 * the logarithmic wind profile. The two roughness lengths of a road are those of a published road-moisture balance, the
 * road-dust model of Denby et al., Atmospheric Environment 77:283–300 and 81:485–503 (2013).
 */
final class Vapour {
    /** J/(kg K), of water vapour. */
    private static final double GAS_CONSTANT = 461.5;

    private static final double FREEZING_KELVIN = 273.15;
    private static final double KARMAN = 0.4;

    /** Metres above ground at which services measure the wind. */
    private static final double WIND_METRES = 10;

    private static final double MOMENTUM_ROUGHNESS_METRES = 0.01;
    private static final double MOISTURE_ROUGHNESS_METRES = 0.000_01;

    /** s/m times the wind speed. */
    private static final double RESISTANCE = Math.log(WIND_METRES / MOMENTUM_ROUGHNESS_METRES)
            * Math.log(WIND_METRES / MOISTURE_ROUGHNESS_METRES)
            / (KARMAN * KARMAN);

    private Vapour() {}

    /** Vapour pressure in hPa over water at saturation. */
    static double saturationHectopascals(double celsius) {
        return 6.112 * Math.exp(17.62 * celsius / (243.12 + celsius));
    }

    /** Relative humidity in %, from 0 to 100; NaN when either temperature is NaN. */
    static double humidityPercent(double celsius, double dewPointCelsius) {
        return Math.min(100, 100 * saturationHectopascals(dewPointCelsius) / saturationHectopascals(celsius));
    }

    /** What the air could still take up, kg/m³, 0 or more. */
    private static double lacking(double celsius, double humidityPercent) {
        double pascals = 100 * saturationHectopascals(celsius) * (1 - humidityPercent / 100);
        return pascals / (GAS_CONSTANT * (FREEZING_KELVIN + celsius));
    }

    /** Water that wind takes from a wet road as warm as the air, mm/h. */
    static double takenByWind(double celsius, double humidityPercent, double metresPerSecond) {
        return 3600 * lacking(celsius, humidityPercent) * metresPerSecond / RESISTANCE;
    }
}
