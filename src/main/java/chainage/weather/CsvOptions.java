package chainage.weather;

import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What the rider says about a table of weather records.
 *
 * @param time name of the column of times; null to find it by the known names
 * @param precipitation name of the column of amounts in mm; null to find it
 * @param temperature name of the column in °C; null to find it, and to do without
 * @param humidity name of the column in %; null to find it, and to do without
 * @param zone of times that state no offset
 * @param station its name where the table has no column for it; may be empty
 * @param place its place where the table has no columns for it; {@link Place#UNKNOWN} when not known
 * @param stampedAtStart true when a row's time is the start of the time its amount is for; false for the end, as
 *     meteorological services have it
 */
public record CsvOptions(
        @Nullable String time,
        @Nullable String precipitation,
        @Nullable String temperature,
        @Nullable String humidity,
        ZoneId zone,
        String station,
        Place place,
        boolean stampedAtStart) {
    private static final String TIME = "time=";
    private static final String PRECIPITATION = "precipitation=";
    private static final String TEMPERATURE = "temperature=";
    private static final String HUMIDITY = "humidity=";

    /** Known column names, times in UTC at the end of their amounts, no station. */
    public static final CsvOptions DEFAULT =
            new CsvOptions(null, null, null, null, ZoneOffset.UTC, "", Place.UNKNOWN, false);

    /** The names of columns that are given, to be kept, such as {@code time=when}; empty where none are. */
    public List<String> columns() {
        List<String> all = new ArrayList<>();
        name(all, TIME, time);
        name(all, PRECIPITATION, precipitation);
        name(all, TEMPERATURE, temperature);
        name(all, HUMIDITY, humidity);
        return all;
    }

    private static void name(List<String> all, String column, @Nullable String name) {
        if (name != null) {
            all.add(column + name);
        }
    }

    /** The same, with those names where none is given. */
    public CsvOptions orColumns(List<String> known) {
        return new CsvOptions(
                or(time, known, TIME),
                or(precipitation, known, PRECIPITATION),
                or(temperature, known, TEMPERATURE),
                or(humidity, known, HUMIDITY),
                zone,
                station,
                place,
                stampedAtStart);
    }

    private static @Nullable String or(@Nullable String given, List<String> known, String column) {
        if (given != null) {
            return given;
        }
        return known.stream()
                .filter(k -> k.startsWith(column))
                .findFirst()
                .map(k -> k.substring(column.length()))
                .orElse(null);
    }
}
