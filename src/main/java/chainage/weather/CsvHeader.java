package chainage.weather;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import java.text.Normalizer;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.ResourceBundle;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Where each column of a table stands.
 *
 * @param delimiter between cells
 * @param time index
 * @param clock index of a second column that the time of day stands in; −1 when there is none
 * @param precipitation index
 * @param temperature index; −1 when there is none
 * @param humidity index; −1 when there is none
 * @param station index; −1 when there is none
 * @param latitude index; −1 when there is none
 * @param longitude index; −1 when there is none
 */
record CsvHeader(
        char delimiter,
        int time,
        int clock,
        int precipitation,
        int temperature,
        int humidity,
        int station,
        int latitude,
        int longitude) {
    private static final Pattern MARKS = Pattern.compile("[\\p{M}\\p{Cf}°]");
    private static final Pattern BETWEEN_WORDS = Pattern.compile("[^\\p{L}\\p{N}%]+");
    private static final Pattern BEFORE_LAST_WORD = Pattern.compile("(?s).*[ _](?=\\S*$)");
    private static final Pattern UNIT_IN_BRACKETS = Pattern.compile("[(\\[{]([^)\\]}]*)[)\\]}]");
    private static final Pattern UNIT_AT_END = Pattern.compile(" (mm|degc|c|celsius|%|percent|prozent|pct|utc)$");
    /** Words, so after marks have gone: services measure air at two metres, and some say so in the heading. */
    private static final Pattern HEIGHT = Pattern.compile(
            "(?:\\b(?:in|at|a|auf|op|bei|i|w|na) )?\\b\\d{1,2} ?m\\b(?: (?:hohe|height|above ground|hoogte|altura|altezza))?");

    private static final Pattern FOREIGN_UNIT =
            Pattern.compile("(?i)\\b(in|inch|inches|cm|zoll)\\b|(?i)°?\\b(f|fahrenheit|k|kelvin)\\b");

    /** What each column may be called, the likeliest first. */
    private static final Map<String, List<String>> NAMES = names();

    /**
     * Takes the line for a header.
     *
     * @return null when the line lacks a column of times or of amounts
     * @throws WeatherException when a column that was asked for is missing, or one has a unit that is not ours
     */
    static @Nullable CsvHeader of(String line, CsvOptions options) throws WeatherException {
        char delimiter = delimiter(line);
        List<String> cells;
        try {
            cells = CsvReader.builder()
                    .fieldSeparator(delimiter)
                    .ofSingleCsvRecord(line)
                    .getFields();
        } catch (CsvParseException e) {
            return null;
        }
        List<String> names = cells.stream().map(CsvHeader::plain).toList();
        int precipitation = find(names, "precipitation", options.precipitation());
        int time = find(names, "time", options.time());
        int date = options.time() == null ? find(names, "date", null) : -1;
        if (time < 0 && date >= 0) {
            time = date;
            date = -1;
        }
        if (time < 0 || precipitation < 0) {
            return null;
        }
        int temperature = find(names, "temperature", options.temperature());
        int humidity = find(names, "humidity", options.humidity());
        ours(cells.get(precipitation), "mm");
        if (temperature >= 0) {
            ours(cells.get(temperature), "°C");
        }
        demand(temperature, options.temperature(), line);
        demand(humidity, options.humidity(), line);
        // With both, the date comes first in the text that is read as one time.
        boolean two = date >= 0 && date != time;
        return new CsvHeader(
                delimiter,
                two ? date : time,
                two ? time : -1,
                precipitation,
                temperature,
                humidity,
                find(names, "station", null),
                find(names, "latitude", null),
                find(names, "longitude", null));
    }

    private static void demand(int index, @Nullable String asked, String line) throws WeatherException {
        if (index < 0 && asked != null) {
            throw new WeatherException(
                    "no column " + BadLine.quote(asked) + " in " + BadLine.quote(line),
                    "give its name as the table has it");
        }
    }

    private static void ours(String name, String unit) throws WeatherException {
        Matcher m = UNIT_IN_BRACKETS.matcher(name);
        String stated = m.find() ? m.group(1) : BEFORE_LAST_WORD.matcher(name).replaceFirst("");
        boolean last = !stated.equals(name);
        if (last && FOREIGN_UNIT.matcher(stated).matches()) {
            throw new WeatherException("column " + BadLine.quote(name) + " is not in " + unit, "convert it to " + unit);
        }
    }

    private static char delimiter(String line) {
        char best = ',';
        int most = 0;
        for (char c : new char[] {';', '\t', ','}) {
            boolean quoted = false;
            int n = 0;
            for (int i = 0; i < line.length(); i++) {
                quoted ^= line.charAt(i) == '"';
                if (!quoted && line.charAt(i) == c) {
                    n++;
                }
            }
            if (n > most) {
                most = n;
                best = c;
            }
        }
        return best;
    }

    private static int find(List<String> names, String key, @Nullable String asked) {
        if (asked != null) {
            return names.indexOf(plain(asked));
        }
        for (String known : Objects.requireNonNull(NAMES.get(key), key)) {
            int at = names.indexOf(known);
            if (at >= 0) {
                return at;
            }
        }
        return -1;
    }

    private static Map<String, List<String>> names() {
        // A bundle, since the core opens no streams.
        ResourceBundle bundle = ResourceBundle.getBundle("chainage.weather.columns", Locale.ROOT);
        Map<String, List<String>> names = new HashMap<>();
        for (String key : bundle.keySet()) {
            names.put(
                    key,
                    Arrays.stream(bundle.getString(key).split(",", -1))
                            .map(CsvHeader::plain)
                            .toList());
        }
        return names;
    }

    /** Without case, accents, marks, measuring height and unit. */
    private static String plain(String name) {
        String bare = UNIT_IN_BRACKETS.matcher(name).replaceAll(" ");
        String unmarked = MARKS.matcher(Normalizer.normalize(bare, Normalizer.Form.NFD))
                .replaceAll("")
                .toLowerCase(Locale.ROOT);
        String words = BETWEEN_WORDS.matcher(unmarked).replaceAll(" ").strip();
        String low = HEIGHT.matcher(words).replaceAll("").replaceAll(" +", " ").strip();
        String unitless = UNIT_AT_END.matcher(low).replaceFirst("");
        return unitless.isEmpty() ? words : unitless;
    }
}
