package chainage.typed;

import chainage.weather.Place;
import java.time.DateTimeException;
import java.time.YearMonth;
import java.time.ZoneId;
import java.time.ZoneOffset;
import org.jspecify.annotations.Nullable;

/** Where and when weather was recorded, as the rider types it. */
public final class TypedWeather {
    private TypedWeather() {}

    /** The zone of a table's times; UTC where none is named. */
    public static ZoneId zone(@Nullable String timesIn) {
        try {
            return timesIn == null ? ZoneOffset.UTC : ZoneId.of(timesIn);
        } catch (DateTimeException e) {
            throw CliError.usage(
                    "\"" + String.valueOf(timesIn) + "\" is no time zone", "use a name such as Europe/Lisbon or UTC");
        }
    }

    /** A month. */
    public static YearMonth month(String typed) {
        try {
            return YearMonth.parse(typed);
        } catch (DateTimeException e) {
            throw CliError.usage("\"" + typed + "\" is no month", "write it such as 2026-03");
        }
    }

    /** Where a station is. */
    public static Place place(String typed) {
        String[] parts = typed.split("[,; ]+", -1);
        try {
            if (parts.length == 2) {
                return new Place(Double.parseDouble(parts[0]), Double.parseDouble(parts[1]));
            }
        } catch (IllegalArgumentException e) {
            // said below
        }
        throw CliError.usage(
                "\"" + typed + "\" is no place",
                "write latitude and longitude in degrees, with points, such as 38.70,-9.15");
    }
}
