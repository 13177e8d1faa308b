package chainage.weather;

import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;

/**
 * One row of a table, checked.
 *
 * @param line its number
 * @param millimetres amount; NaN when missing, 0 for a trace
 * @param trace whether the amount is a trace
 * @param celsius NaN when missing
 * @param humidityPercent NaN when missing
 */
record TableRow(
        long line,
        String station,
        Place place,
        Instant at,
        double millimetres,
        boolean trace,
        double celsius,
        double humidityPercent) {
    /** Snow rather than rain at and below this; our guess where a table does not say. */
    private static final double SNOW_CELSIUS = 1;

    /** No place on Earth has measured as much in an hour. Our bound for what is a slip. */
    private static final double MOST_MM = 400;

    private static final Pattern MISSING =
            Pattern.compile("|M|/+|-+|NA|N/A|NaN|null|missing|-999+(?:[.,]\\d+)?", Pattern.CASE_INSENSITIVE);

    private static final Pattern TRACE = Pattern.compile("T|tr|trace", Pattern.CASE_INSENSITIVE);

    static TableRow of(long line, List<String> cells, CsvHeader header, CsvOptions options, TableTime times)
            throws WeatherException {
        String name = cell(cells, header.station());
        String station = name.isEmpty() ? options.station() : name;
        double latitude = number("latitude", cell(cells, header.latitude()), -90, 90);
        double longitude = number("longitude", cell(cells, header.longitude()), -180, 180);
        boolean placed = !Double.isNaN(latitude) && !Double.isNaN(longitude);
        String time = cell(cells, header.time());
        String clock = cell(cells, header.clock());
        String amount = cell(cells, header.precipitation());
        boolean trace = TRACE.matcher(amount).matches();
        double millimetres = trace ? 0 : number("precipitation", amount, 0, MOST_MM);
        double celsius = number("temperature", cell(cells, header.temperature()), -90, 60);
        // Sensors in fog go a little over.
        double humidity = Math.min(100, number("humidity", cell(cells, header.humidity()), 0, 105));
        Instant at = times.read(station, clock.isEmpty() ? time : time + " " + clock);
        return new TableRow(
                line,
                station,
                placed ? new Place(latitude, longitude) : options.place(),
                at,
                millimetres,
                trace,
                celsius,
                humidity);
    }

    private static String cell(List<String> cells, int index) {
        return index >= 0 && index < cells.size() ? cells.get(index).strip() : "";
    }

    private static double number(String what, String text, double least, double most) throws WeatherException {
        if (MISSING.matcher(text).matches()) {
            return Double.NaN;
        }
        double value;
        try {
            value = Double.parseDouble(text.indexOf('.') < 0 ? text.replace(',', '.') : text);
        } catch (NumberFormatException e) {
            throw new WeatherException(
                    what + " " + BadLine.quote(text) + " is no number", "correct it, or leave it empty");
        }
        if (!(value >= least && value <= most)) {
            throw new WeatherException(
                    String.format(Locale.ROOT, "%s %s is outside %.0f to %.0f", what, BadLine.quote(text), least, most),
                    "correct it, or leave it empty");
        }
        return value;
    }

    /** Whether anything stands in it beside the time. */
    boolean tells() {
        return !Double.isNaN(millimetres) || !Double.isNaN(celsius) || !Double.isNaN(humidityPercent);
    }

    Observation observation(int stepSeconds, boolean stampedAtStart) {
        boolean measured = !Double.isNaN(millimetres);
        double rate = millimetres * 3600 / stepSeconds;
        Phenomenon phenomenon = !measured
                ? Phenomenon.UNSTATED
                : !(rate > 0 || trace) ? Phenomenon.NONE : celsius <= SNOW_CELSIUS ? Phenomenon.SNOW : Phenomenon.RAIN;
        Fall fall = new Fall(phenomenon, trace ? Intensity.LIGHT : Intensity.ofRain(rate));
        return new Observation(
                station,
                place,
                stampedAtStart ? at.plusSeconds(stepSeconds) : at,
                measured ? stepSeconds : 0,
                rate,
                new Seen(fall, Fall.UNSTATED, trace),
                new Air(celsius, humidityPercent, Double.NaN, Double.NaN));
    }
}
