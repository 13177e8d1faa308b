package chainage.weather;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.TestLedger;
import chainage.TestWeather;
import chainage.answer.Reasons;
import chainage.render.Formatter;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class WaterFilmTest {
    private static final Place STATION = new Place(48, 11);

    private static Optional<RoadWetness> under(
            List<Observation> all, String start, double hours, List<Passage> passages) {
        Instant from = Instant.parse(start);
        return new WaterFilm(Stations.of(all), TestLedger.reach(), TestLedger.film())
                .under(from, from.plusSeconds(Math.round(hours * 3600)), passages);
    }

    private static List<Observation> metars(String text) {
        List<Observation> all = new ArrayList<>();
        List<BadLine> bad = new ArrayList<>();
        Metar.read(text.lines().iterator(), null, STATION, all::add, bad::add);
        assertEquals(List.of(), bad);
        return all;
    }

    /** Hourly records of 2026-03-04, hours 0 to 23, station 8 km north of the ride. */
    private static List<Observation> hours(double celsius, double humidity, double... mm) {
        List<Observation> all = new ArrayList<>();
        for (int h = 0; h < 24; h++) {
            double rain = h < mm.length ? mm[h] : 0;
            all.add(TestWeather.observation(
                    "XYZA",
                    new Place(48.072, 11),
                    Instant.parse("2026-03-04T00:00:00Z").plusSeconds(3600L * h),
                    3600,
                    rain,
                    false,
                    rain > 0 ? Phenomenon.RAIN : Phenomenon.NONE,
                    Intensity.ofRain(rain),
                    celsius,
                    humidity));
        }
        return all;
    }

    private static List<Passage> along(String start, double hours) {
        Instant from = Instant.parse(start);
        List<Passage> all = new ArrayList<>();
        for (int i = 0; i <= hours * 6; i++) {
            all.add(new Passage(from.plusSeconds(600L * i), STATION, 5000.0 * i));
        }
        return all;
    }

    /** Reports of an invented airfield: rain through the night, over at five, grey and cool. */
    private static final String NIGHT = """
            2026-03-03 22:50 METAR XYZA 032250Z 24010KT 9999 OVC020 09/07 Q1005=
            2026-03-03 23:50 METAR XYZA 032350Z 24010KT 9999 -RA OVC020 08/07 Q1005=
            2026-03-04 00:50 METAR XYZA 040050Z 24010KT 6000 RA OVC015 08/07 Q1004=
            2026-03-04 01:50 METAR XYZA 040150Z 24010KT 6000 RA OVC015 08/07 Q1004=
            2026-03-04 02:50 METAR XYZA 040250Z 24010KT 6000 RA OVC015 08/07 Q1004=
            2026-03-04 03:50 METAR XYZA 040350Z 24010KT 9999 -RA OVC015 08/07 Q1004=
            2026-03-04 04:50 METAR XYZA 040450Z 24010KT 9999 -RA OVC015 08/07 Q1004=
            2026-03-04 05:50 METAR XYZA 040550Z 24010KT 9999 OVC020 08/07 Q1005 RERA=
            2026-03-04 06:50 METAR XYZA 040650Z 24010KT 9999 OVC020 08/06 Q1006 TEMPO SHRA=
            2026-03-04 07:50 METAR XYZA 040750Z 24010KT 9999 BKN020 09/06 Q1006=
            2026-03-04 08:50 METAR XYZA 040850Z 24010KT 9999 BKN020 09/06 Q1006=
            """;

    @Test
    void aMorningRideAfterANightsRainIsWetThoughNoReportOfItHasRain() {
        RoadWetness road = under(metars(NIGHT), "2026-03-04T06:00:00Z", 2, along("2026-03-04T06:00:00Z", 2))
                .orElseThrow();
        assertTrue(road.wetShare() > 0.9, road.toString());
        assertEquals(0, road.duringMm());
        assertTrue(road.beforeMm() > 10);
        assertTrue(words(road).endsWith("; station XYZA, 0 km"), words(road));
    }

    /** The same night in July, then a hot dry forenoon. */
    @Test
    void aDryHourInJulyUndoesIt() {
        String july = NIGHT.replace("2026-03", "2026-07").replaceAll("0[89]/0[67] Q", "18/16 Q")
                + "2026-07-04 09:50 METAR XYZA 040950Z 24010KT CAVOK 27/11 Q1010=\n"
                + "2026-07-04 10:50 METAR XYZA 041050Z 24010KT CAVOK 29/11 Q1010=\n"
                + "2026-07-04 11:50 METAR XYZA 041150Z 24010KT CAVOK 30/11 Q1010=\n";
        assertTrue(under(metars(july), "2026-07-04T05:00:00Z", 0.5, List.of()).isEmpty(), "no place, no answer");
        assertTrue(under(metars(july), "2026-07-04T05:00:00Z", 0.5, along("2026-07-04T05:00:00Z", 0.5))
                        .orElseThrow()
                        .wetShare()
                > 0.99);
        RoadWetness road = under(metars(july), "2026-07-04T10:30:00Z", 1, along("2026-07-04T10:30:00Z", 1))
                .orElseThrow();
        assertEquals(1, road.dryShare(), 1e-9, road.toString());
    }

    @Test
    void rainAtHalfTimeMakesHalfTheRideWet() {
        double[] mm = new double[24];
        mm[13] = 4;
        RoadWetness road = under(hours(15, 70, mm), "2026-03-04T11:00:00Z", 2, along("2026-03-04T11:00:00Z", 2))
                .orElseThrow();
        assertEquals(0.5, road.wetShare(), 0.02);
        assertEquals("0.0 mm of rain within 6 h before, 4.0 mm during; station XYZA, 8 km", words(road));
    }

    @Test
    void metresWeighNotTime() {
        double[] mm = new double[24];
        mm[13] = 4;
        Instant noon = Instant.parse("2026-03-04T12:00:00Z");
        List<Passage> fastInTheDry = List.of(
                new Passage(noon.minusSeconds(3600), STATION, 0),
                new Passage(noon, STATION, 30_000),
                new Passage(noon.plusSeconds(3600), STATION, 40_000));
        RoadWetness road = under(hours(15, 70, mm), "2026-03-04T11:00:00Z", 2, fastInTheDry)
                .orElseThrow();
        assertEquals(0.25, road.wetShare(), 0.02);
    }

    @Test
    void snowLiesWetUntilItThawsAndDries() {
        List<Observation> all = new ArrayList<>();
        Instant midnight = Instant.parse("2026-01-10T00:00:00Z");
        for (int h = 0; h < 24; h++) {
            double mm = h >= 1 && h <= 3 ? 1 : 0;
            double celsius = h < 10 ? -4 : 3;
            all.add(TestWeather.observation(
                    "",
                    Place.UNKNOWN,
                    midnight.plusSeconds(3600L * h),
                    3600,
                    mm,
                    false,
                    mm > 0 ? Phenomenon.SNOW : Phenomenon.NONE,
                    Intensity.ofRain(mm),
                    celsius,
                    85));
        }
        RoadWetness frozen = under(all, "2026-01-10T07:00:00Z", 1, List.of()).orElseThrow();
        assertEquals(1, frozen.wetShare(), 1e-9);
        assertEquals(
                "2.0 mm of snow or rain within 6 h before, 0.0 mm during, snow or ice lying; record, place not stated",
                words(frozen));
        assertTrue(
                under(all, "2026-01-10T11:00:00Z", 1, List.of()).orElseThrow().wetShare() > 0.99);
    }

    /** Sleet in frost, 5.6 mm of it during the ride, on snow that lies: it read as dry once. */
    @Test
    void sleetInFrostIsWet() {
        List<Observation> all = new ArrayList<>();
        Instant midnight = Instant.parse("2026-01-10T00:00:00Z");
        for (int h = 0; h < 24; h++) {
            double mm = h >= 3 && h <= 5 ? 1 : h > 8 && h <= 10 ? 2.8 : 0;
            all.add(TestWeather.observation(
                    "",
                    Place.UNKNOWN,
                    midnight.plusSeconds(3600L * h),
                    3600,
                    mm,
                    false,
                    mm > 0 ? Phenomenon.SNOW : Phenomenon.NONE,
                    Intensity.ofRain(mm),
                    -1,
                    95));
        }
        RoadWetness road = under(all, "2026-01-10T08:00:00Z", 2, List.of()).orElseThrow();
        assertEquals(1, road.wetShare(), 1e-9);
        assertEquals(
                "3.0 mm of snow or rain within 6 h before, 5.6 mm during, snow or ice lying; record, place not stated",
                words(road));
    }

    /** A ride of an hour from 12:00, hourly reports at ten to; the groups of 11:50, then those of all others. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
            # case                                 | at 11:50                     | else                     | wet
            freezing rain                          | 2000 FZRA OVC010 M01/M02      | 9999 OVC010 M01/M02      | true
            freezing drizzle                       | 2000 -FZDZ OVC010 M01/M02     | 9999 OVC010 M01/M02      | true
            sleet                                  | 2000 RASN OVC010 M00/M01      | 9999 OVC010 M01/M02      | true
            snow                                   | 2000 -SN OVC010 M05/M06       | 9999 OVC010 M05/M06      | true
            ice pellets                            | 2000 PL OVC010 M02/M03        | 9999 OVC010 M02/M03      | true
            rain on frozen ground                  | 2000 RA OVC010 M01/M01        | 9999 OVC010 M03/M04      | true
            it froze a moment ago                  | 9999 OVC010 M01/M02 REFZRA    | 9999 OVC010 M01/M02      | true
            it rained a moment ago                 | 9999 OVC010 08/06 RERA        | 9999 OVC010 08/06        | true
            a shower a moment ago                  | 9999 BKN010 08/06 RESHRA      | 9999 OVC010 08/06        | true
            rain, no amount, by an automatic gauge | 9SM -RA OVC010 08/06 RMK AO2  | 9SM OVC010 08/06 RMK AO2 | true
            it rained, by the remarks alone        | 9SM OVC010 08/06 RMK AO2 RAB05E25 | 9SM OVC010 08/06 RMK AO2 | true
            an amount and nothing else             | 9SM OVC010 08/06 RMK AO2 P0004 | 9SM OVC010 08/06 RMK AO2 | true
            freezing fog alone                     | 0200 FZFG VV001 M01/M01       | 9999 OVC010 M01/M02      | false
            recent thunder alone                   | 9999 OVC010 08/06 RETS        | 9999 OVC010 08/06        | false
            """)
    void whatFellIsWet(String title, String one, String others, boolean wet) {
        StringBuilder text = new StringBuilder();
        for (int h = 0; h < 14; h++) {
            text.append(String.format(
                    "2026-01-10 %02d:50 METAR XYZA 10%02d50Z 24010KT %s=%n", h, h, h == 11 ? one : others));
        }
        RoadWetness road = under(metars(text.toString()), "2026-01-10T12:00:00Z", 1, along("2026-01-10T12:00:00Z", 1))
                .orElseThrow();
        assertEquals(wet ? 1 : 0, road.wetShare(), 1e-9, road.toString());
    }

    /** The same shower, the same cool air: a clear noon in June dries the road, an overcast night does not. */
    @Test
    void theSunDecides() {
        assertEquals(0, afterAShower("2026-06-20", 11, "CAVOK").wetShare(), 1e-9);
        assertEquals(1, afterAShower("2026-06-20", 11, "9999 OVC010").wetShare(), 1e-9);
        assertEquals(1, afterAShower("2026-06-20", 1, "CAVOK").wetShare(), 1e-9);
        assertEquals(1, afterAShower("2026-12-20", 11, "CAVOK").wetShare(), 1e-9, "a low sun in December");
    }

    /** Half an hour's ride, two and a half hours after a heavy shower. */
    private static RoadWetness afterAShower(String day, int hour, String sky) {
        StringBuilder text = new StringBuilder();
        Instant shower = Instant.parse(day + "T00:00:00Z").plusSeconds(3600L * hour);
        for (int h = -12; h < 6; h++) {
            Instant at = shower.plusSeconds(3600L * h);
            text.append(at).append(" METAR XYZA ");
            text.append(DateTimeFormatter.ofPattern("ddHHmm", Locale.ROOT)
                    .withZone(ZoneOffset.UTC)
                    .format(at));
            text.append("Z 24006KT ").append(h == 0 ? "5000 +SHRA BKN010" : sky).append(" 12/10 Q1005=\n");
        }
        String start = shower.plusSeconds(10_800).toString();
        return under(metars(text.toString()), start, 0.5, along(start, 0.5)).orElseThrow();
    }

    @Test
    void beyondReachTheRecordIsSilent() {
        List<Observation> all = hours(15, 70, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1);
        List<Passage> far = along("2026-03-04T11:00:00Z", 2).stream()
                .map(p -> new Passage(p.at(), new Place(47.5, 11), p.metres()))
                .toList();
        assertEquals(Optional.empty(), under(all, "2026-03-04T11:00:00Z", 2, far));
        assertEquals(Optional.empty(), under(all, "2026-03-06T11:00:00Z", 2, along("2026-03-06T11:00:00Z", 2)));
        assertEquals(Optional.empty(), under(List.of(), "2026-03-04T11:00:00Z", 2, far));
        assertFalse(under(all, "2026-03-04T11:00:00Z", 2, along("2026-03-04T11:00:00Z", 2))
                .isEmpty());
    }

    @Test
    void withoutARecordOfTheHoursBeforeOnlyRainSpeaks() {
        String start = "2026-03-04T11:00:00Z";
        String report = "2026-03-04 11:30 METAR XYZA 041130Z 24010KT 9999 %s OVC020 08/07 Q1005=";
        RoadWetness wet = under(metars(String.format(report, "RA")), start, 1, along(start, 1))
                .orElseThrow();
        assertEquals(1, wet.wetShare(), 0.05);
        assertTrue(words(wet).contains("no record of the hours before"));
        assertEquals(Optional.empty(), under(metars(String.format(report, "")), start, 1, along(start, 1)));
    }

    /** Rain is added at one record of one of several stations; nothing else changes. */
    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {11, 22, 33, 44, 55})
    void moreRainNeverMakesARideLessWet(long first) {
        int wetter = 0;
        for (long seed = first * 1000; seed < first * 1000 + 200; seed++) {
            Random random = new Random(seed);
            List<Observation> before = season(random);
            String start = "2026-03-0" + (3 + random.nextInt(2)) + "T0" + random.nextInt(10) + ":17:00Z";
            Instant from = Instant.parse(start);
            List<Integer> recent = new ArrayList<>();
            for (int i = 0; i < before.size(); i++) {
                Observation o = before.get(i);
                double hours = Duration.between(o.at(), from).toMinutes() / 60.0;
                if (o.measured() && hours > -3 && hours < 8) {
                    recent.add(i);
                }
            }
            if (recent.isEmpty()) {
                continue;
            }
            int which = recent.get(random.nextInt(recent.size()));
            Observation o = before.get(which);
            List<Observation> after = new ArrayList<>(before);
            after.set(
                    which,
                    TestWeather.observation(
                            o.station(),
                            o.place(),
                            o.at(),
                            o.seconds(),
                            o.millimetresPerHour() + random.nextDouble() * 3,
                            false,
                            o.seen().now().phenomenon(),
                            o.seen().now().intensity(),
                            o.air().celsius(),
                            o.air().humidityPercent()));
            List<Passage> way = along(start, 3);
            Optional<RoadWetness> less = under(before, start, 3, way);
            Optional<RoadWetness> more = under(after, start, 3, way);
            double wetBefore = less.map(RoadWetness::wetShare).orElse(0.0);
            double wetAfter = more.map(RoadWetness::wetShare).orElse(0.0);
            assertTrue(wetAfter >= wetBefore - 1e-9, "seed " + seed + ": " + less + " then " + more);
            double waterBefore = less.map(r -> r.wetShare() + r.dampShare()).orElse(0.0);
            double waterAfter = more.map(r -> r.wetShare() + r.dampShare()).orElse(0.0);
            assertTrue(waterAfter >= waterBefore - 1e-9, "seed " + seed + ": " + less + " then " + more);
            wetter += wetAfter > wetBefore + 1e-9 ? 1 : 0;
        }
        assertTrue(wetter >= 10, "the rain mattered in " + wetter + " of 200");
    }

    /** Three stations over four days, with holes, frost, words and amounts. */
    private static List<Observation> season(Random random) {
        List<Observation> all = new ArrayList<>();
        Instant first = Instant.parse("2026-03-01T00:00:00Z");
        for (int s = 0; s < 3; s++) {
            Place place = s == 2 ? Place.UNKNOWN : new Place(48 + 0.3 * random.nextDouble(), 11);
            boolean words = random.nextInt(4) == 0;
            for (int h = random.nextInt(80); h < 100; h++) {
                if (random.nextInt(10) == 0) {
                    continue;
                }
                double mm = random.nextInt(5) == 0 ? random.nextDouble() * 2 : 0;
                double celsius = -3 + 12 * random.nextDouble();
                Phenomenon p = mm == 0 ? Phenomenon.NONE : celsius < 1 ? Phenomenon.SNOW : Phenomenon.RAIN;
                all.add(TestWeather.observation(
                        "s" + s,
                        place,
                        first.plus(Duration.ofHours(h)),
                        words ? 0 : 3600,
                        words ? Double.NaN : mm,
                        false,
                        p,
                        Intensity.ofRain(mm),
                        celsius,
                        40 + 60 * random.nextDouble()));
            }
        }
        return all;
    }

    /** Thirty years of hours and ten thousand rides: within the time that a test may take, so no ride walks them all. */
    @Test
    void manyRidesOverALongHistory() {
        List<Observation> all = new ArrayList<>();
        Instant first = Instant.parse("1996-01-01T00:00:00Z");
        for (int h = 0; h < 260_000; h++) {
            double mm = h % 31 < 3 ? 0.8 : 0;
            all.add(TestWeather.observation(
                    "XYZA",
                    STATION,
                    first.plusSeconds(3600L * h),
                    3600,
                    mm,
                    false,
                    mm > 0 ? Phenomenon.RAIN : Phenomenon.NONE,
                    Intensity.ofRain(mm),
                    10,
                    75));
        }
        WaterFilm film = new WaterFilm(Stations.of(all), TestLedger.reach(), TestLedger.film());
        int answered = 0;
        for (int i = 0; i < 10_000; i++) {
            Instant start = first.plusSeconds(3600L * (100 + 25L * i));
            List<Passage> way =
                    List.of(new Passage(start, STATION, 0), new Passage(start.plusSeconds(7200), STATION, 50_000));
            answered += film.under(start, start.plusSeconds(7200), way).isPresent() ? 1 : 0;
        }
        assertEquals(10_000, answered);
    }

    private static String words(RoadWetness road) {
        return Reasons.of(road.reason(), new Formatter(false, ZoneOffset.UTC));
    }
}
