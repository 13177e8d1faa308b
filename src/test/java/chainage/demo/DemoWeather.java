package chainage.demo;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;

/**
 * The season's weather as an invented airfield, XDUN, reported it every hour: rain on the rides whose devices saw rain,
 * and in the nights before the rides that their rider calls muddy; a shower now and then that met nobody.
 */
final class DemoWeather {
    /** The records' file, below the season. */
    static final String FILE = "weather/reports-2026.txt.gz";

    private static final Instant FIRST = Instant.parse("2026-02-27T00:00:00Z");
    private static final Instant LAST = Instant.parse("2026-08-31T18:00:00Z");
    private static final DateTimeFormatter GROUP = DateTimeFormatter.ofPattern("ddHHmm'Z'", Locale.ROOT);
    private static final DateTimeFormatter STAMP = DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm", Locale.ROOT);
    /** Nights with a shower, unless a ride follows within a day. */
    private static final int SHOWER_EVERY = 5;

    private final List<Outing> outings = SeasonPlan.outings();

    private DemoWeather() {}

    static byte[] file() {
        DemoWeather weather = new DemoWeather();
        StringBuilder text = new StringBuilder();
        for (Instant t = FIRST; !t.isAfter(LAST); t = t.plus(1, ChronoUnit.HOURS)) {
            text.append(weather.report(t)).append('\n');
        }
        return Packed.gzip(text.toString().getBytes(StandardCharsets.US_ASCII));
    }

    private String report(Instant t) {
        ZonedDateTime z = t.atZone(ZoneOffset.UTC);
        String rain = rain(t);
        int day = z.getDayOfYear();
        // Milder by the month, coolest before sunrise; moist air when it rains.
        double celsius =
                7 + 0.055 * (day - 60) + 4 * Math.sin((z.getHour() - 9) * Math.PI / 12) - (rain.isEmpty() ? 0 : 2);
        if (outings.stream().anyMatch(o -> o.sky().equals("snow") && within(t, o.start(), -18, 8))) {
            celsius -= 11; // a last day of frost
        }
        double dew = rain.isEmpty() ? celsius - 7 : celsius - 1;
        boolean promised =
                outings.stream().anyMatch(o -> o.title().contains("forecast") && within(t, o.start(), -3, 4));
        return STAMP.format(z) + " METAR XDUN " + GROUP.format(z)
                + " 24010KT " + (rain.isEmpty() ? "9999 SCT035 " : "6000 " + rain + " BKN012 ")
                + degrees(celsius) + "/" + degrees(dew) + " Q1012" + (promised ? " TEMPO SHRA" : "") + "=";
    }

    private String rain(Instant t) {
        for (Outing o : outings) {
            Duration length = Duration.ofMinutes(Math.round(o.kilometres() * 60 / 22));
            String sky = o.sky();
            boolean halfWay = sky.contains(">");
            if (sky.equals("snow") && within(t, o.start(), -5, 1)) {
                return "SN";
            }
            if (sky.contains("rain")
                    && !t.isBefore(
                            halfWay
                                    ? o.start().plus(length.dividedBy(2))
                                    : o.start().minusSeconds(3600))
                    && !t.isAfter(o.start().plus(length).plusSeconds(3600))) {
                return sky.contains("light") ? "-RA" : sky.contains("heavy") ? "+RA" : "RA";
            }
            if (o.title().startsWith("Mud") && within(t, o.start(), -12, -1)) {
                return "RA";
            }
        }
        ZonedDateTime z = t.atZone(ZoneOffset.UTC);
        boolean night = z.getHour() < 3 && z.getDayOfYear() % SHOWER_EVERY == 0;
        return night && outings.stream().noneMatch(o -> within(t, o.start(), -30, 6)) ? "-SHRA" : "";
    }

    private static boolean within(Instant t, Instant start, int fromHours, int toHours) {
        return !t.isBefore(start.plusSeconds(fromHours * 3600L)) && !t.isAfter(start.plusSeconds(toHours * 3600L));
    }

    private static String degrees(double celsius) {
        long whole = Math.round(celsius);
        return String.format(Locale.ROOT, whole < 0 ? "M%02d" : "%02d", Math.abs(whole));
    }
}
