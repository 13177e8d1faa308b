package chainage.weather;

/**
 * Water vapour in air.
 *
 * <p>Saturation over liquid water follows the Magnus form 6.112 hPa · exp(17.62 t / (243.12 °C + t)) of WMO-No. 8
 * (2008), part I chapter 4 annex B, after Sonntag (1990), made for −45 to 60 °C; the enhancement for pressure, 0.4 %
 * near sea level, is left out, since ratios are all that matters here.
 */
final class Air {
    private Air() {}

    /** Vapour pressure in hPa over water at saturation. */
    static double saturationHectopascals(double celsius) {
        return 6.112 * Math.exp(17.62 * celsius / (243.12 + celsius));
    }

    /** Relative humidity in %, from 0 to 100; NaN when either temperature is NaN. */
    static double humidityPercent(double celsius, double dewPointCelsius) {
        return Math.min(100, 100 * saturationHectopascals(dewPointCelsius) / saturationHectopascals(celsius));
    }

    /** How far air is from saturation, in hPa, 0 or more. */
    static double deficitHectopascals(double celsius, double humidityPercent) {
        return saturationHectopascals(celsius) * (1 - humidityPercent / 100);
    }
}
