package chainage.weather;

import java.time.Duration;

/**
 * What the water on a road does. Where it drains, and from where on it is wet and damp, are the numbers of the
 * road-moisture balance that {@link Vapour} names: it holds all dust from 0.06 mm of water on, and begins to at 0.02 mm.
 * That the film evaporates more slowly below 0.02 mm is left out: such a road is dry here. The rest is our guess.
 *
 * @param capMm most water that stays on the road; the rest runs off
 * @param frozenCapMm most snow and ice, as water, that stays on the road; the rest is cleared
 * @param sunShare share of the sun's power on the road that goes into evaporation, 0 to 1
 * @param meltMmPerHourPerDegree melt for each degree above 0 °C
 * @param wetMm a road is wet from this film on
 * @param dampMm a road is damp from this film on
 * @param traceMmPerHour rate that a trace stands for
 * @param assumed the air where no record has it; the cloud of hours without rain
 * @param leastWind wind below which the air is stirred by traffic, metres per second
 * @param lookBack how long before a ride rain and snow still count
 */
public record FilmParameters(
        double capMm,
        double frozenCapMm,
        double sunShare,
        double meltMmPerHourPerDegree,
        double wetMm,
        double dampMm,
        double traceMmPerHour,
        Air assumed,
        double leastWind,
        Duration lookBack) {
    /** Of water near 20 °C, J/kg, as FAO Irrigation and Drainage Paper 56 has it. */
    private static final double LATENT_HEAT = 2.45e6;

    public FilmParameters {
        boolean ordered = 0 <= dampMm && dampMm <= wetMm && wetMm <= capMm && frozenCapMm >= 0;
        boolean rates = sunShare >= 0 && sunShare <= 1 && meltMmPerHourPerDegree >= 0 && leastWind >= 0;
        if (!ordered || !rates || !(traceMmPerHour >= 0) || lookBack.isNegative()) {
            throw new IllegalArgumentException("a road's water cannot behave so");
        }
    }

    /**
     * Water that leaves a wet road into the air, mm/h.
     *
     * @param air with nothing unknown
     * @param sunWatts power of the sun on the road, W/m²
     */
    double evaporationMmPerHour(Air air, double sunWatts) {
        double wind = Math.max(leastWind, air.metresPerSecond());
        return Vapour.takenByWind(air.celsius(), air.humidityPercent(), wind) + takenByHeat(sunShare * sunWatts);
    }

    /** Water that so much power evaporates, mm/h. */
    static double takenByHeat(double watts) {
        return 3600 * watts / LATENT_HEAT;
    }
}
