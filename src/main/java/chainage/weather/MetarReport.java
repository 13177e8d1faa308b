package chainage.weather;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * One report, taken apart. Present weather is read up to the trend forecast or the remarks; {@code RE…} is recent
 * weather, not present, and so is what the remarks say to have begun or ended.
 *
 * @param nil the station had nothing to report
 * @param weather what was seen; null when the station could not say
 * @param recent what fell since the report before, but no longer; UNSTATED when nothing is said of it
 * @param millimetres fallen since the last routine report; 0 for none or a trace, NaN when not known
 * @param trace true for an amount too small to measure
 */
record MetarReport(
        boolean nil, @Nullable PresentWeather weather, Fall recent, double millimetres, boolean trace, Air air) {
    /** US remarks give amounts in hundredths of an inch. */
    private static final double HUNDREDTH_INCH_MM = 0.254;

    private static final double KNOT = 1852.0 / 3600;

    private static final Pattern TREND = Pattern.compile("TEMPO|BECMG|NOSIG|INTER|FM\\d{4,6}");
    private static final Pattern TEMPERATURES = Pattern.compile("(M?\\d{2})/(M?\\d{2}|//|XX|MM)?");
    private static final Pattern TENTHS = Pattern.compile("T([01]\\d{3})([01]\\d{3})?");
    private static final Pattern AMOUNT = Pattern.compile("P(\\d{4})");
    private static final Pattern WIND = Pattern.compile("(?:\\d{3}|VRB|///)P?(\\d{2,3})(?:GP?\\d{2,3})?(KT|MPS|KMH)");
    private static final Pattern CLOUD = Pattern.compile("(FEW|SCT|BKN|OVC|VV)(?:\\d{3}|///)(?:CB|TCU|///)?");
    private static final Pattern NO_CLOUD = Pattern.compile("SKC|CLR|NSC|NCD|CAVOK");

    /** A part such as {@code RAB05E20}: a phenomenon, and the minutes at which it began and ended. */
    private static final Pattern BEGAN_ENDED = Pattern.compile("([+-]?(?:[A-Z]{2}){1,4}?)(?:[BE]\\d{2}(?:\\d{2})?)+");

    private static final Pattern ALL_BEGAN_ENDED = Pattern.compile("(?:" + BEGAN_ENDED.pattern() + ")+");

    /** @param groups the report after station and time, without its end sign */
    static MetarReport of(List<String> groups) {
        int remarks = groups.indexOf("RMK");
        Body body = new Body();
        for (String token : remarks < 0 ? groups : groups.subList(0, remarks)) {
            if (TREND.matcher(token).matches()) {
                break;
            }
            body.read(token);
        }
        Remarks rest = new Remarks();
        (remarks < 0 ? List.<String>of() : groups.subList(remarks + 1, groups.size())).forEach(rest::read);
        PresentWeather weather =
                (body.blind || rest.blind) && body.seen.isEmpty() ? null : PresentWeather.of(body.seen);
        Fall recent = recent(body.recent, rest.recent);
        double millimetres = rest.millimetres;
        boolean fell = recent.falls() || (weather != null && weather.fall().falls());
        // Too little to measure is a group of its own, P0000: where something fell, no group means no amount.
        if (Double.isNaN(millimetres) && rest.measures && !rest.amountMissing && !fell) {
            millimetres = 0;
        }
        boolean tenths = !Double.isNaN(rest.celsius);
        double celsius = tenths ? rest.celsius : body.celsius;
        double dewPoint = Double.isNaN(rest.dewPoint) ? body.dewPoint : rest.dewPoint;
        return new MetarReport(
                body.nil,
                weather,
                recent,
                millimetres,
                rest.trace,
                new Air(celsius, Vapour.humidityPercent(celsius, dewPoint), body.metresPerSecond, body.cloud));
    }

    /** By the groups of the report, which are of moderate strength at least; else light, by its remarks: our guess. */
    private static Fall recent(List<String> groups, List<String> begunOrEnded) {
        Fall stated = PresentWeather.of(groups).fall();
        if (stated.falls()) {
            return stated;
        }
        Fall remarked = PresentWeather.of(begunOrEnded).fall();
        return remarked.falls() ? new Fall(remarked.phenomenon(), Intensity.LIGHT) : Fall.UNSTATED;
    }

    /** What stands before the remarks. */
    private static final class Body {
        private final List<String> seen = new ArrayList<>();
        private final List<String> recent = new ArrayList<>();
        private boolean nil;
        private boolean blind;
        private double celsius = Double.NaN;
        private double dewPoint = Double.NaN;
        private double metresPerSecond = Double.NaN;
        private double cloud = Double.NaN;

        private void read(String token) {
            Matcher t = TEMPERATURES.matcher(token);
            Matcher w = WIND.matcher(token);
            Matcher c = CLOUD.matcher(token);
            if (t.matches()) {
                celsius = whole(t.group(1));
                dewPoint = t.group(2) == null ? Double.NaN : whole(t.group(2));
            } else if (token.equals("//")) {
                blind = true;
            } else if (token.equals("NIL")) {
                nil = true;
            } else if (w.matches()) {
                metresPerSecond = Integer.parseInt(w.group(1))
                        * switch (w.group(2)) {
                            case "KT" -> KNOT;
                            case "KMH" -> 1 / 3.6;
                            default -> 1;
                        };
            } else if (c.matches()) {
                cloud(eighths(c.group(1)) / 8);
            } else if (NO_CLOUD.matcher(token).matches()) {
                cloud(0);
            } else if (PresentWeather.isGroup(token)) {
                seen.add(token);
            } else if (token.startsWith("RE") && PresentWeather.isGroup(token.substring(2))) {
                recent.add(token.substring(2));
            }
        }

        /** Of several layers the one that covers most. */
        private void cloud(double share) {
            cloud = Double.isNaN(cloud) ? share : Math.max(cloud, share);
        }

        /** The middle of the class, by FM 15: FEW 1 to 2, SCT 3 to 4, BKN 5 to 7, OVC 8; or a sky that cannot be seen. */
        private static double eighths(String amount) {
            return switch (amount) {
                case "FEW" -> 1.5;
                case "SCT" -> 3.5;
                case "BKN" -> 6;
                default -> 8;
            };
        }
    }

    /** What the remarks add, by the national practice of the United States. */
    private static final class Remarks {
        private final List<String> recent = new ArrayList<>();
        private boolean blind;
        private boolean measures;
        private boolean amountMissing;
        private boolean trace;
        private double millimetres = Double.NaN;
        private double celsius = Double.NaN;
        private double dewPoint = Double.NaN;

        private void read(String token) {
            Matcher p = AMOUNT.matcher(token);
            Matcher t = TENTHS.matcher(token);
            if (p.matches()) {
                int hundredths = Integer.parseInt(p.group(1));
                millimetres = hundredths * HUNDREDTH_INCH_MM;
                trace = hundredths == 0;
            } else if (t.matches()) {
                celsius = tenths(t.group(1));
                dewPoint = t.group(2) == null ? Double.NaN : tenths(t.group(2));
            } else if (token.equals("PNO") || token.startsWith("P//")) {
                amountMissing = true;
            } else if (token.equals("AO2") || token.equals("A02")) {
                measures = true;
            } else if (token.equals("AO1") || token.equals("A01")) {
                // Such a station sees no precipitation, so that its silence says nothing.
                blind = true;
            } else if (ALL_BEGAN_ENDED.matcher(token).matches()) {
                Matcher parts = BEGAN_ENDED.matcher(token);
                while (parts.find()) {
                    if (PresentWeather.isGroup(parts.group(1))) {
                        recent.add(parts.group(1));
                    }
                }
            }
        }
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
