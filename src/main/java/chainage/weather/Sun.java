package chainage.weather;

import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;

/**
 * The sun's power on level ground.
 *
 * <p>Where it stands follows FAO Irrigation and Drainage Paper 56 (1998), equations 24, 28 and 31 to 33: within a degree,
 * which no road can tell. A clear sky follows Haurwitz, Journal of Meteorology 2:154–166 (1945), clouds Kasten and
 * Czeplak, Solar Energy 24:177–189 (1980).
 */
final class Sun {
    private Sun() {}

    /**
     * Power under that sky, W/m².
     *
     * @param cloud share of the sky, 0 to 1
     * @return 0 by night, and where the place is not known
     */
    static double watts(Instant at, Place place, double cloud) {
        return place.known() ? clearWatts(sineOfElevation(at, place)) * throughCloud(cloud) : 0;
    }

    /** Power under a clear sky, W/m²; 0 with the sun below the horizon. */
    static double clearWatts(double sineOfElevation) {
        return sineOfElevation <= 0 ? 0 : 1098 * sineOfElevation * Math.exp(-0.059 / sineOfElevation);
    }

    /** Share that comes through; a quarter under a sky wholly covered. */
    static double throughCloud(double cloud) {
        return 1 - 0.75 * Math.pow(cloud, 3.4);
    }

    static double sineOfElevation(Instant at, Place place) {
        OffsetDateTime utc = at.atOffset(ZoneOffset.UTC);
        int day = utc.getDayOfYear();
        double hour = utc.toLocalTime().toSecondOfDay() / 3600.0;
        double solarHour = hour + place.longitude() / 15 + hoursAhead(day);
        double angle = Math.toRadians(15 * (solarHour - 12));
        double latitude = Math.toRadians(place.latitude());
        double declination = declination(day);
        return Math.sin(latitude) * Math.sin(declination)
                + Math.cos(latitude) * Math.cos(declination) * Math.cos(angle);
    }

    /** Of that day of the year, in radians. */
    static double declination(int day) {
        return 0.409 * Math.sin(2 * Math.PI * day / 365 - 1.39);
    }

    /** By how much the sun is ahead of a clock that runs evenly, on that day of the year. */
    static double hoursAhead(int day) {
        double b = 2 * Math.PI * (day - 81) / 364;
        return 0.1645 * Math.sin(2 * b) - 0.1255 * Math.cos(b) - 0.025 * Math.sin(b);
    }
}
