package chainage.weather;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * One report, taken apart. Present weather is read up to the trend forecast or the remarks; {@code RE…} is recent
 * weather, not present.
 *
 * @param nil the station had nothing to report
 * @param weather what was seen; null when the station could not say
 * @param millimetres fallen since the last routine report; 0 for none or a trace, NaN when not known
 * @param trace true for an amount too small to measure
 * @param celsius air temperature; NaN when missing
 * @param dewPointCelsius NaN when missing
 */
record MetarReport(
        boolean nil,
        @Nullable PresentWeather weather,
        double millimetres,
        boolean trace,
        double celsius,
        double dewPointCelsius) {
    /** US remarks give amounts in hundredths of an inch. */
    private static final double HUNDREDTH_INCH_MM = 0.254;

    private static final Pattern TREND = Pattern.compile("TEMPO|BECMG|NOSIG|INTER|FM\\d{4,6}");
    private static final Pattern TEMPERATURES = Pattern.compile("(M?\\d{2})/(M?\\d{2}|//|XX|MM)?");
    private static final Pattern TENTHS = Pattern.compile("T([01]\\d{3})([01]\\d{3})?");
    private static final Pattern AMOUNT = Pattern.compile("P(\\d{4})");

    /** @param groups the report after station and time, without its end sign */
    static MetarReport of(List<String> groups) {
        int remarks = groups.indexOf("RMK");
        List<String> body = remarks < 0 ? groups : groups.subList(0, remarks);
        List<String> rest = remarks < 0 ? List.of() : groups.subList(remarks + 1, groups.size());
        double celsius = Double.NaN;
        double dewPoint = Double.NaN;
        boolean blind = false;
        boolean nil = false;
        List<String> seen = new ArrayList<>();
        for (String token : body) {
            if (TREND.matcher(token).matches()) {
                break;
            }
            Matcher t = TEMPERATURES.matcher(token);
            if (t.matches()) {
                celsius = whole(t.group(1));
                dewPoint = t.group(2) == null ? Double.NaN : whole(t.group(2));
            } else if (token.equals("//")) {
                blind = true;
            } else if (token.equals("NIL")) {
                nil = true;
            } else if (PresentWeather.isGroup(token)) {
                seen.add(token);
            }
        }
        boolean discriminates = false;
        double millimetres = Double.NaN;
        boolean trace = false;
        boolean amountMissing = false;
        for (String token : rest) {
            Matcher p = AMOUNT.matcher(token);
            Matcher t = TENTHS.matcher(token);
            if (p.matches()) {
                int hundredths = Integer.parseInt(p.group(1));
                millimetres = hundredths * HUNDREDTH_INCH_MM;
                trace = hundredths == 0;
            } else if (t.matches()) {
                celsius = tenths(t.group(1));
                dewPoint = t.group(2) == null ? dewPoint : tenths(t.group(2));
            } else if (token.equals("PNO") || token.startsWith("P//")) {
                amountMissing = true;
            } else if (token.equals("AO2") || token.equals("A02")) {
                discriminates = true;
            } else if (token.equals("AO1") || token.equals("A01")) {
                // Such a station sees no precipitation, so that its silence says nothing.
                blind = true;
            }
        }
        if (Double.isNaN(millimetres) && discriminates && !amountMissing) {
            millimetres = 0;
        }
        return new MetarReport(
                nil, blind && seen.isEmpty() ? null : PresentWeather.of(seen), millimetres, trace, celsius, dewPoint);
    }

    private static double whole(String text) {
        if (!Character.isDigit(text.charAt(text.length() - 1))) {
            return Double.NaN;
        }
        return text.startsWith("M") ? -Integer.parseInt(text.substring(1)) : Integer.parseInt(text);
    }

    private static double tenths(String text) {
        return (text.startsWith("1") ? -1 : 1) * Integer.parseInt(text.substring(1)) / 10.0;
    }
}
