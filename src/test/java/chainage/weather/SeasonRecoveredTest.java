package chainage.weather;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.TestLedger;
import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * A year of invented weather in steps of five minutes is known; records are written from it as a station would, read
 * back, and asked about random rides. The truth is the same road under the weather in full, walked in small steps by the
 * code below and not by {@link Film}: so this measures what hourly records lose, and whether the exact steps are right,
 * not whether real roads dry so.
 *
 * <p>A ride is wet, damp or dry by its largest share. Bounds: with amounts 95 of 100 rides must come out right, and
 * 95 of 100 wet ones; with words alone 90, and 85 of the wet ones, since "rain" without a sign stands for anything from 2.5 to 10 mm/h, and one glance an hour misses showers.
 */
class SeasonRecoveredTest {
    private static final Instant FIRST = Instant.parse("2026-01-01T00:00:00Z");
    private static final int STEPS = 365 * 24 * 12;
    private static final int RIDES = 1000;
    private static final Place HERE = new Place(48, 11);
    /** Metres per second all year: ten knots, as the reports have it. */
    private static final double WIND = 10 * 1852.0 / 3600;

    /** A table says nothing of wind and clouds; what is assumed of them is right here. */
    private static final FilmParameters ROAD = assuming(TestLedger.film());

    private static FilmParameters assuming(FilmParameters f) {
        return new FilmParameters(
                f.capMm(),
                f.frozenCapMm(),
                f.sunShare(),
                f.meltMmPerHourPerDegree(),
                f.wetMm(),
                f.dampMm(),
                f.traceMmPerHour(),
                new Air(f.assumed().celsius(), f.assumed().humidityPercent(), WIND, 0.75),
                f.leastWind(),
                f.lookBack());
    }

    private static final String[] CLASSES = {"wet", "damp", "dry"};

    /** How a station writes its records, and the least share of rides that must come out right. */
    enum Form {
        TABLE(0.95, 0.95),
        REPORTS_WITH_AMOUNTS(0.95, 0.95),
        REPORTS_IN_WORDS(0.9, 0.85);

        private final double least;
        private final double leastOfWet;

        Form(double least, double leastOfWet) {
            this.least = least;
            this.leastOfWet = leastOfWet;
        }

        List<Observation> records(Weather w) {
            return this == TABLE ? table(w) : reports(w, this == REPORTS_WITH_AMOUNTS);
        }
    }

    /** Rain (mm/h), temperature and dew point of every five minutes. */
    private static final class Weather {
        private final double[] rain = new double[STEPS];
        private final double[] celsius = new double[STEPS];
        private final double[] dewPoint = new double[STEPS];

        /** Spells of rain of some hours, gusty within; a yearly and a daily course of temperature. */
        static Weather of(long seed) {
            Random random = new Random(seed);
            Weather w = new Weather();
            boolean raining = false;
            double strength = 0;
            double air = 0;
            for (int i = 0; i < STEPS; i++) {
                if (random.nextDouble() < (raining ? 1 / 36.0 : 1 / 260.0)) {
                    raining = !raining;
                    strength = Math.exp(0.9 * random.nextGaussian() - 0.2);
                }
                double gust = Math.exp(0.6 * random.nextGaussian());
                w.rain[i] = raining ? strength * gust : 0;
                air = 0.999 * air + 0.12 * random.nextGaussian();
                double day = Math.cos(2 * Math.PI * (i / 288.0 - 15 / 24.0));
                double year = Math.cos(2 * Math.PI * (i / 288.0 - 200) / 365);
                w.celsius[i] = 10 + 9 * year + (raining ? 1 : 4) * day + air;
                w.dewPoint[i] = 10 + 9 * year + air - (raining ? 1.5 : 5);
                w.dewPoint[i] = Math.min(w.dewPoint[i], w.celsius[i]);
            }
            return w;
        }

        double hour(double[] of, int end) {
            double sum = 0;
            for (int i = end - 12; i < end; i++) {
                sum += of[i] / 12;
            }
            return sum;
        }
    }

    /**
     * Wet, damp and dry of each five minutes, by small steps; frozen water that lies counts as water. The formulas stand
     * here once more, with their numbers.
     */
    private static int[] truth(Weather w) {
        int[] classes = new int[STEPS];
        double film = 0;
        double frozen = 0;
        int parts = 20;
        double dt = 1 / 12.0 / parts;
        double resistance = Math.log(1000) * Math.log(1e6) / (0.16 * WIND);
        for (int i = 0; i < STEPS; i++) {
            boolean snow = w.rain[i] > 0 && w.celsius[i] <= 1;
            double lacking =
                    100 * (saturation(w.celsius[i]) - saturation(w.dewPoint[i])) / (461.5 * (273.15 + w.celsius[i]));
            double cloudy = w.rain[i] > 0 ? 0.25 : 1 - 0.75 * Math.pow(0.75, 3.4);
            double dries = 3600 * lacking / resistance + 0.25 * clearSky(i) * cloudy * 3600 / 2.45e6;
            for (int k = 0; k < parts; k++) {
                if (w.celsius[i] < 0) {
                    frozen = Math.min(5, frozen + film + w.rain[i] * dt);
                    film = 0;
                } else {
                    double lying = frozen + (snow ? w.rain[i] * dt : 0);
                    double melt = Math.min(lying, 0.3 * w.celsius[i] * dt);
                    frozen = Math.min(5, lying - melt);
                    double in = melt + (snow ? 0 : w.rain[i] * dt);
                    film = Math.max(0, Math.min(0.6, film + in - dries * dt));
                }
            }
            classes[i] = film + frozen >= 0.06 ? 0 : film + frozen >= 0.02 ? 1 : 2;
        }
        return classes;
    }

    private static double saturation(double celsius) {
        return 6.112 * Math.exp(17.62 * celsius / (243.12 + celsius));
    }

    /** W/m² of a clear sky, in the middle of these five minutes, at {@link #HERE}. */
    private static double clearSky(int step) {
        double day = 1 + Math.floor(step / 288.0);
        double hour = (step % 288) / 12.0;
        double declination = 0.409 * Math.sin(2 * Math.PI * day / 365 - 1.39);
        double b = 2 * Math.PI * (day - 81) / 364;
        double equation = 0.1645 * Math.sin(2 * b) - 0.1255 * Math.cos(b) - 0.025 * Math.sin(b);
        double angle = Math.PI / 12 * (hour + HERE.longitude() / 15 + equation - 12);
        double latitude = Math.toRadians(HERE.latitude());
        double sine = Math.sin(latitude) * Math.sin(declination)
                + Math.cos(latitude) * Math.cos(declination) * Math.cos(angle);
        return sine <= 0 ? 0 : 1098 * sine * Math.exp(-0.059 / sine);
    }

    private static List<Observation> table(Weather w) {
        StringBuilder text = new StringBuilder("Zeit;Niederschlag;Temperatur;Luftfeuchte\n");
        DateTimeFormatter form =
                DateTimeFormatter.ofPattern("dd.MM.yyyy HH:mm", Locale.ROOT).withZone(ZoneOffset.UTC);
        for (int end = 12; end < STEPS; end += 12) {
            double celsius = w.celsius[end];
            // A locale with decimal commas.
            text.append(String.format(
                            Locale.GERMANY,
                            "%s;%.1f;%.1f;%.0f",
                            form.format(FIRST.plusSeconds(300L * end)),
                            w.hour(w.rain, end),
                            celsius,
                            Vapour.humidityPercent(celsius, w.dewPoint[end])))
                    .append('\n');
        }
        List<Observation> all = new ArrayList<>();
        List<BadLine> bad = new ArrayList<>();
        CsvOptions options = new CsvOptions(null, null, null, null, ZoneOffset.UTC, "XYZA", HERE, false);
        try {
            PrecipitationCsv.read(text.toString().lines().iterator(), options, all::add, bad::add);
        } catch (WeatherException e) {
            throw new AssertionError(e);
        }
        assertEquals(List.of(), bad);
        return all;
    }

    private static List<Observation> reports(Weather w, boolean amounts) {
        List<Observation> all = new ArrayList<>();
        List<BadLine> bad = new ArrayList<>();
        StringBuilder text = new StringBuilder();
        YearMonth month = YearMonth.of(2026, 1);
        // Ten minutes before the hour.
        for (int end = 10 + 12; end < STEPS; end += 12) {
            Instant at = FIRST.plusSeconds(300L * end);
            YearMonth here = YearMonth.from(at.atOffset(ZoneOffset.UTC));
            if (!here.equals(month)) {
                Metar.read(text.toString().lines().iterator(), month, HERE, all::add, bad::add);
                text.setLength(0);
                month = here;
            }
            text.append(report(w, end, at, amounts)).append("=\n");
        }
        Metar.read(text.toString().lines().iterator(), month, HERE, all::add, bad::add);
        assertEquals(List.of(), bad);
        return all;
    }

    private static String report(Weather w, int end, Instant at, boolean amounts) {
        double rate = w.rain[end];
        String sign = rate < 2.5 ? "-" : rate < 10 ? "" : "+";
        String weather = rate > 0 ? " " + sign + (w.celsius[end] <= 1 ? "SN" : "RA") : "";
        String hundredths = "";
        if (amounts) {
            double mm = w.hour(w.rain, end);
            hundredths = " RMK AO2" + (mm > 0 ? String.format(Locale.ROOT, " P%04d", Math.round(mm / 0.254)) : "");
        }
        return String.format(
                Locale.ROOT,
                "METAR XYZA %sZ 24010KT 9999%s %s020 %s/%s Q1005%s",
                DateTimeFormatter.ofPattern("ddHHmm", Locale.ROOT)
                        .withZone(ZoneOffset.UTC)
                        .format(at),
                weather,
                rate > 0 ? "OVC" : "BKN",
                degrees(w.celsius[end]),
                degrees(w.dewPoint[end]),
                hundredths);
    }

    private static String degrees(double celsius) {
        long whole = Math.round(celsius);
        return String.format(Locale.ROOT, whole < 0 ? "M%02d" : "%02d", Math.abs(whole));
    }

    private static int largest(double wet, double damp, double dry) {
        return wet >= damp && wet >= dry ? 0 : damp >= dry ? 1 : 2;
    }

    @ParameterizedTest
    @EnumSource
    void aKnownYearIsRecovered(Form form) {
        int[][] confusion = new int[3][3];
        double error = 0;
        for (long seed = 1; seed <= 4; seed++) {
            Weather w = Weather.of(seed);
            int[] truth = truth(w);
            WaterFilm film = new WaterFilm(Stations.of(form.records(w)), TestLedger.reach(), ROAD);
            Random random = new Random(100 + seed);
            for (int ride = 0; ride < RIDES / 4; ride++) {
                int from = 600 + random.nextInt(STEPS - 1200);
                int length = 12 + random.nextInt(60);
                double[] share = new double[3];
                for (int i = from; i < from + length; i++) {
                    share[truth[i]] += 1.0 / length;
                }
                Instant start = FIRST.plusSeconds(300L * from);
                Optional<RoadWetness> found =
                        film.under(start, start.plusSeconds(300L * length), List.of(new Passage(start, HERE, 0)));
                RoadWetness road = found.orElseThrow();
                error += Math.abs(road.wetShare() - share[0]) / RIDES;
                confusion[largest(share[0], share[1], share[2])][
                        largest(road.wetShare(), road.dampShare(), road.dryShare())]++;
            }
        }
        StringBuilder table =
                new StringBuilder(form + ", true road in rows, found in columns\n      wet  damp   dry\n");
        int right = 0;
        for (int t = 0; t < 3; t++) {
            table.append(String.format(
                    Locale.ROOT, "%4s %4d  %4d  %4d%n", CLASSES[t], confusion[t][0], confusion[t][1], confusion[t][2]));
            right += confusion[t][t];
        }
        table.append(String.format(
                Locale.ROOT,
                "right in %d of %d (at least %.0f asked), wet share off by %.3f on average",
                right,
                RIDES,
                form.least * RIDES,
                error));
        System.out.println(table);
        int wet = confusion[0][0] + confusion[0][1] + confusion[0][2];
        assertTrue(wet > RIDES / 10 && wet < RIDES / 2, "a year worth asking about: " + table);
        assertTrue(right >= form.least * RIDES, table.toString());
        assertTrue(confusion[0][0] >= form.leastOfWet * wet, table.toString());
    }
}
