package chainage;

import chainage.weather.Air;
import chainage.weather.Fall;
import chainage.weather.Intensity;
import chainage.weather.Observation;
import chainage.weather.Phenomenon;
import chainage.weather.Place;
import chainage.weather.Seen;
import java.time.Instant;

/** Weather records written in short. */
public final class TestWeather {
    private TestWeather() {}

    /** A record that knows no wind and no clouds. */
    public static Observation observation(
            String station,
            Place place,
            Instant at,
            int seconds,
            double millimetresPerHour,
            boolean trace,
            Phenomenon phenomenon,
            Intensity intensity,
            double celsius,
            double humidityPercent) {
        return new Observation(
                station,
                place,
                at,
                seconds,
                millimetresPerHour,
                new Seen(new Fall(phenomenon, intensity), Fall.UNSTATED, trace),
                new Air(celsius, humidityPercent, Double.NaN, Double.NaN));
    }
}
