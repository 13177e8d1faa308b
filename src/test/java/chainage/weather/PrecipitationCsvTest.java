package chainage.weather;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Iterator;
import java.util.List;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class PrecipitationCsvTest {
    private final List<Observation> all = new ArrayList<>();
    private final List<BadLine> bad = new ArrayList<>();

    /** Lines are parted by a stroke, so that a table stands in one cell. */
    private Tally read(String lines, CsvOptions options) throws WeatherException {
        return PrecipitationCsv.read(Arrays.asList(lines.split("\\|", -1)).iterator(), options, all::add, bad::add);
    }

    private static CsvOptions in(String zone) {
        return new CsvOptions(null, null, null, null, ZoneId.of(zone), "", Place.UNKNOWN, false);
    }

    private String rows() {
        return all.stream()
                .map(o -> o.at() + " " + o.millimetresPerHour() + " " + o.air().celsius() + " "
                        + o.air().humidityPercent())
                .collect(Collectors.joining("|"));
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '#', quoteCharacter = '^', textBlock = """
            English       # time,precipitation,temperature,humidity|2026-03-04 11:00,0.2,7.5,80
            units         # Time (UTC),Precip_mm,Temperature (°C),RH [%]|2026-03-04T11:00,0.2,7.5,80
            German        # Zeitpunkt;Niederschlagshöhe [mm];Lufttemperatur;rel. Feuchte;Relative Luftfeuchte|04.03.2026 11:00;0,2;7,5;x;80
            French        # horodatage;précipitations;température;humidité|2026-03-04 11:00:00;0,2;7,5;80
            Spanish       # fecha hora;precipitación;temperatura;humedad relativa|2026-03-04 11:00;0,2;7,5;80
            Italian       # data ora;pioggia (mm);temperatura;umidità|202603041100;0,2;7,5;80
            Dutch         # tijdstip;neerslag;temperatuur;luchtvochtigheid|2026030411;0,2;7,5;80
            two columns   # Datum;Uhrzeit;Zeit;Niederschlag;Temperatur;Luftfeuchte|04.03.2026;;11:00;0,2;7,5;80
            a height      # Time,Precipitation,Temperature at 2 m (°C),Relative humidity 2m|2026-03-04 11:00,0.2,7.5,80
            German height # Zeit;Regen;Lufttemperatur in 2 m Höhe;Luftfeuchte_2m|04.03.2026 11:00;0,2;7,5;80
            Portuguese    # data hora;precipitação;temperatura do ar;umidade relativa|2026-03-04 11:00;0,2;7,5;80
            Swedish       # tidpunkt;nederbörd;lufttemperatur;relativ luftfuktighet|2026-03-04 11:00;0,2;7,5;80
            Polish        # czas;opad [mm];temperatura powietrza;wilgotność względna|2026-03-04 11:00;0,2;7,5;80
            quoted        # "time","rain","temp","rh"|"2026-03-04 11:00","0,2","7.5","80"
            title first   # hourly table of a garden||time,rain,temp,rh|2026-03-04 11:00Z,0.2,7.5,80
            ISO offset    # time,rain,temp,rh|2026-03-04T12:00:00+01:00,0.2,7.5,80
            epoch         # time,rain,temp,rh|1772622000,0.2,7.5,80
            epoch millis  # time,rain,temp,rh|1772622000000,0.2,7.5,80
            """)
    void tables(String title, String table) throws WeatherException {
        read(table, CsvOptions.DEFAULT);
        assertEquals(List.of(), bad);
        assertEquals("2026-03-04T11:00:00Z 0.2 7.5 80.0", rows());
    }

    @Test
    void tabsAndOwnColumnNames() throws WeatherException {
        CsvOptions own =
                new CsvOptions("wann", "nass", "warm", "feucht", ZoneId.of("UTC"), "garden", new Place(48, 11), true);
        read("feucht\twarm\tnass\twann|80\t7,5\t0,2\t2026-03-04 10:00", own);
        assertEquals("2026-03-04T11:00:00Z 0.2 7.5 80.0", rows());
        assertEquals("garden", all.get(0).station());
        assertEquals(new Place(48, 11), all.get(0).place());
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '#', quoteCharacter = '^', textBlock = """
            no header         # 2026-03-04 11:00,0.2|2026-03-04 12:00,0.2
            no amounts        # time,wind|2026-03-04 11:00,3
            inches            # time,rain (in)|2026-03-04 11:00,0.1
            Fahrenheit        # time,rain,temp (°F)|2026-03-04 11:00,0.1,50
            nothing           #
            """)
    void notSuchATable(String title, String table) {
        assertThrows(WeatherException.class, () -> read(table == null ? "" : table, CsvOptions.DEFAULT));
    }

    @Test
    void whatIsAskedForMustBeThere() {
        CsvOptions own = new CsvOptions(null, null, "warm", null, ZoneId.of("UTC"), "", Place.UNKNOWN, false);
        assertEquals(
                "no column \"warm\" in \"time,rain,temp\"",
                assertThrows(WeatherException.class, () -> read("time,rain,temp", own))
                        .what());
    }

    @Test
    void aColumnOfNoKnownNameIsLeftAlone() throws WeatherException {
        read("time,rain,temp_f|2026-03-04 11:00,0.2,50", CsvOptions.DEFAULT);
        assertEquals("2026-03-04T11:00:00Z 0.2 NaN NaN", rows());
    }

    @ParameterizedTest(name = "{index} {0}")
    @CsvSource(delimiter = '|', textBlock = """
            # cell  | mm  | trace
            0       | 0   | false
            1.25    | 1.25| false
            T       | 0   | true
            M       | NaN | false
            ''      | NaN | false
            ////    | NaN | false
            -999    | NaN | false
            -9999.0 | NaN | false
            NA      | NaN | false
            """)
    void amounts(String cell, double mm, boolean trace) throws WeatherException {
        read("time,rain,temp|2026-03-04 11:00," + cell + ",7", CsvOptions.DEFAULT);
        assertEquals(List.of(), bad);
        Observation o = all.get(0);
        assertEquals(mm, o.millimetresPerHour());
        assertEquals(trace, o.seen().trace());
        assertEquals(!Double.isNaN(mm), o.tellsOfRain());
    }

    @Test
    void badLinesAreNumberedAndTheRestIsKept() throws WeatherException {
        Tally tally = read(
                "time,rain,temp|2026-03-04 11:00,0.2,7|2026-03-04 12:00,-0.2,7|2026-03-04 13:00,x,7"
                        + "|noon,0.2,7|04/03/2026 15:00,0.2,7|2026-13-04 16:00,0.2,7|2026-03-04 17:00,0.2,999"
                        + "|2026-03-04 18:00,\"0.2,7||2026-03-04 19:00,0.4,6|2026-03-04 20:00,,",
                CsvOptions.DEFAULT);
        assertEquals(
                List.of(3L, 4L, 5L, 6L, 7L, 8L, 9L),
                bad.stream().map(BadLine::line).toList());
        assertEquals("precipitation \"-0.2\" is outside 0 to 400", bad.get(0).what());
        assertEquals(new Tally(10, 2, 7), tally);
        assertEquals(2, all.size());
    }

    /** Central Europe 2026: forward on 29 March at 02:00, back on 25 October at 03:00 (tz database). */
    @Test
    void clocksForwardAndBack() throws WeatherException {
        read(
                "time,rain|2026-03-29 01:00,1|2026-03-29 02:00,2|2026-03-29 03:00,3"
                        + "|2026-10-25 01:00,4|2026-10-25 02:00,5|2026-10-25 02:00,6|2026-10-25 03:00,7",
                in("Europe/Berlin"));
        assertEquals(
                "2026-03-29T00:00:00Z 2026-03-29T01:00:00Z 2026-10-24T23:00:00Z 2026-10-25T00:00:00Z"
                        + " 2026-10-25T01:00:00Z 2026-10-25T02:00:00Z",
                all.stream().map(o -> o.at().toString()).collect(Collectors.joining(" ")));
        assertEquals(1, bad.size());
        assertTrue(bad.get(0).what().contains("skipped by the clocks in Europe/Berlin"));
    }

    @Test
    void clocksBackInATableThatRunsBackwardsAndInTenMinutes() throws WeatherException {
        read(
                "time,rain|2026-10-25 03:00,1|2026-10-25 02:00,2|2026-10-25 02:00,3|2026-10-25 01:00,4",
                in("Europe/Berlin"));
        assertEquals(
                List.of("02", "01", "00", "23"),
                all.stream().map(o -> o.at().toString().substring(11, 13)).toList());
        all.clear();
        StringBuilder fine = new StringBuilder("time,rain");
        for (int pass = 0; pass < 2; pass++) {
            for (int minute = 0; minute < 60; minute += 10) {
                fine.append(String.format("|2026-10-25 02:%02d,0", minute));
            }
        }
        read(fine.toString(), in("Europe/Berlin"));
        Instant first = Instant.parse("2026-10-25T00:00:00Z");
        assertEquals(
                LongStream.range(0, 12)
                        .mapToObj(i -> first.plusSeconds(600 * i))
                        .toList(),
                all.stream().map(Observation::at).toList());
    }

    @Test
    void amountsBecomeRatesByTheStep() throws WeatherException {
        StringBuilder table = new StringBuilder("time,rain");
        for (int i = 0; i < 30; i++) {
            int minute = i < 15 ? i * 10 : i * 10 + 50; // One hole, which changes nothing.
            table.append(String.format("|2026-03-04 %02d:%02d,0.1", minute / 60, minute % 60));
        }
        read(table.toString(), CsvOptions.DEFAULT);
        assertTrue(all.stream().allMatch(o -> o.seconds() == 600 && Math.abs(o.millimetresPerHour() - 0.6) < 1e-12));
    }

    @Test
    void aDaysSumsAreRefused() throws WeatherException {
        read("time,rain|2026-03-04 00:00,5|2026-03-05 00:00,5|2026-03-06 00:00,5", CsvOptions.DEFAULT);
        assertEquals(List.of(), all);
        assertEquals("amounts are for 24 hours", bad.get(0).what());
    }

    @Test
    void stationsInATable() throws WeatherException {
        read(
                "station,lat,lon,time,rain|A,48.1,11.2,2026-03-04 11:00,1|B,48.5,11.2,2026-03-04 11:00,2"
                        + "|A,48.1,11.2,2026-03-04 12:00,1|B,48.5,11.2,2026-03-04 12:00,2",
                CsvOptions.DEFAULT);
        assertEquals(
                List.of("A", "B", "A", "B"),
                all.stream().map(Observation::station).toList());
        assertEquals(new Place(48.5, 11.2), all.get(1).place());
        assertTrue(all.stream().allMatch(o -> o.seconds() == 3600));
    }

    /** Thirty years of hours. The rows are made as they are asked for and dropped as they come: nothing collects them. */
    @Test
    void thirtyYearsGoThroughWithoutBeingHeld() throws WeatherException {
        Instant first = Instant.parse("1996-01-01T00:00:00Z");
        int rows = 260_000;
        long[] asked = {0};
        long[] given = {0};
        long[] mostHeld = {0};
        Iterator<String> lines = new Iterator<>() {
            @Override
            public boolean hasNext() {
                return asked[0] <= rows;
            }

            @Override
            public String next() {
                long i = asked[0]++;
                return i == 0
                        ? "time;rain;temp"
                        : first.plusSeconds(3600 * i) + ";" + (i % 7 == 0 ? "0,4" : "0,0") + ";8,5";
            }
        };
        Tally tally = PrecipitationCsv.read(
                lines,
                CsvOptions.DEFAULT,
                o -> mostHeld[0] = Math.max(mostHeld[0], asked[0] - given[0]++),
                b -> bad.add(b));
        assertEquals(new Tally(rows, rows, 0), tally);
        assertEquals(rows, given[0]);
        assertTrue(mostHeld[0] <= 520, "held back " + mostHeld[0]);
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3})
    void brokenTextIsRefusedAndNothingElse(long seed) {
        Random random = new Random(seed);
        String good = """
                time;rain;temp;rh
                2026-03-04 11:00;0,2;7,5;80
                "04.03.2026 12:00";T;M;80
                202603041300;0;7;80
                METAR XYZA 041150Z 24010KT 9999 -RA OVC020 08/07 Q1005=
                2026-03-04 12:00 XYZB 041150Z NIL=
                """;
        String junk = "\"\\;,\t/=-+.:0129TMZX \u0000\u00e9\ud83d";
        for (int i = 0; i < 2000; i++) {
            StringBuilder text = new StringBuilder(good);
            for (int k = random.nextInt(6); k >= 0; k--) {
                int at = random.nextInt(text.length());
                text.replace(at, at + random.nextInt(3), "" + junk.charAt(random.nextInt(junk.length())));
            }
            try {
                PrecipitationCsv.read(text.toString().lines().iterator(), CsvOptions.DEFAULT, all::add, bad::add);
            } catch (WeatherException e) {
                assertTrue(e.hint().length() > 5);
            }
            Metar.read(text.toString().lines().iterator(), YearMonth.of(2026, 3), Place.UNKNOWN, all::add, bad::add);
        }
        assertTrue(bad.stream().noneMatch(b -> b.what().isBlank() || b.what().contains("\n") || b.line() < 1));
        assertTrue(all.size() > 2000);
    }
}
