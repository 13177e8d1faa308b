package chainage.weather;

import java.time.Duration;

/**
 * What the water on a road does. No source was found for any of these on ordinary roads: all are our guess, inside the
 * plausible ranges that a film of 0.1–0.5 mm and an evaporation of 0.1–0.5 mm/h give (0.25 mm at 0.25 mm/h is an hour).
 *
 * @param capMm most water that stays on the road; the rest runs off
 * @param frozenCapMm most snow and ice, as water, that stays on the road; the rest is cleared
 * @param evaporationMmPerHour at 20 °C and 60 % humidity; it goes with the air's distance from saturation
 * @param leastEvaporationMmPerHour what wheels and wind take even in saturated air; more than 0
 * @param meltMmPerHourPerDegree melt for each degree above 0 °C
 * @param wetMm a road is wet from this film on
 * @param dampMm a road is damp above this film
 * @param traceMmPerHour rate that a trace stands for
 * @param assumedCelsius air temperature where no record has one
 * @param assumedHumidityPercent humidity where no record has one
 * @param lookBack how long before a ride rain still counts
 */
public record FilmParameters(
        double capMm,
        double frozenCapMm,
        double evaporationMmPerHour,
        double leastEvaporationMmPerHour,
        double meltMmPerHourPerDegree,
        double wetMm,
        double dampMm,
        double traceMmPerHour,
        double assumedCelsius,
        double assumedHumidityPercent,
        Duration lookBack) {
    private static final double DEFICIT_AT_REFERENCE = Air.deficitHectopascals(20, 60);

    public FilmParameters {
        boolean ordered = 0 <= dampMm && dampMm <= wetMm && wetMm <= capMm && frozenCapMm >= 0;
        boolean rates = evaporationMmPerHour >= 0 && leastEvaporationMmPerHour > 0 && meltMmPerHourPerDegree >= 0;
        if (!ordered || !rates || !(traceMmPerHour >= 0) || lookBack.isNegative()) {
            throw new IllegalArgumentException("a road's water cannot behave so");
        }
    }

    /** Water that air of this kind takes from a wet road, mm/h. */
    double evaporationMmPerHour(double celsius, double humidityPercent) {
        double deficit = Air.deficitHectopascals(celsius, humidityPercent);
        return Math.max(leastEvaporationMmPerHour, evaporationMmPerHour * deficit / DEFICIT_AT_REFERENCE);
    }
}
