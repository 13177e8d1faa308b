package chainage.weather;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Stations with an X are invented. */
class MetarTest {
    private final List<Observation> all = new ArrayList<>();
    private final List<BadLine> bad = new ArrayList<>();

    private Tally read(@Nullable YearMonth month, String text) {
        return Metar.read(text.lines().iterator(), month, Place.UNKNOWN, all::add, bad::add);
    }

    private Observation one(String report) {
        all.clear();
        read(YearMonth.of(2026, 3), report);
        assertEquals(List.of(), bad);
        assertEquals(1, all.size());
        return all.get(0);
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
            # case                             | groups                                     | seen
            no sign is moderate                | 9999 RA OVC020 10/09 Q1005                 | moderate rain
            in the vicinity is not here        | 9999 VCSH OVC020 10/09 Q1005               | nothing
            thunder alone is dry               | 9999 TS OVC020CB 10/09 Q1005               | nothing
            showers of snow                    | 2000 +SHSN OVC020CB 00/M01 Q1005           | heavy snow
            one sign for the whole group       | 2000 +DZSNRA OVC020 01/00 Q1005            | heavy drizzle
            the strongest group counts         | 2000 -SN RA OVC020 01/00 Q1005             | moderate rain
            freezing rain is rain              | 2000 -FZRA OVC020 M01/M02 Q1005            | light rain
            hail                               | 2000 TSGR OVC020CB 10/09 Q1005             | moderate hail or ice
            lifted snow does not fall          | 2000 DRSN OVC020 M05/M06 Q1005             | haze
            fog patches                        | 0400 BCFG 10/10 Q1005                      | mist
            unknown precipitation              | AUTO 9999 -UP OVC020 10/09 Q1005           | light rain
            station could not see              | AUTO //// // ////// 10/09 Q1005            | ''
            a station that cannot tell         | AUTO 10SM CLR 10/09 A2992 RMK AO1          | ''
            nothing after becoming             | CAVOK 10/09 Q1005 BECMG RA                 | nothing
            nothing after from                 | CAVOK 10/09 Q1005 FM1200 RA                | nothing
            nothing of the remarks             | 10SM CLR 10/09 A2992 RMK AO2 RA OHD        | nothing
            recent rain                        | 9999 OVC020 10/09 Q1005 RERA               | nothing, recent moderate rain
            """)
    void presentWeather(String title, String groups, String seen) {
        Observation o = one("METAR XYZA 041150Z 24010KT " + groups + "=");
        assertEquals(seen, o.seen().words());
        assertEquals(o.seen(), Seen.of(o.seen().words()));
    }

    /** Each group of ICAO Annex 3, table A3-2, that freezes or is frozen, with FM 15's combinations. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
            -FZRA     | light rain
            FZRA      | moderate rain
            +FZRA     | heavy rain
            -FZDZ     | light drizzle
            FZDZ      | moderate drizzle
            +FZDZ     | heavy drizzle
            FZRASN    | moderate rain
            -FZDZSN   | light drizzle
            FZUP      | moderate rain
            FZFG      | mist
            -RASN     | light rain
            +SNRA     | heavy snow
            -DZSN     | light drizzle
            -SN       | light snow
            SG        | moderate snow
            -SHSN     | light snow
            +SHRASN   | heavy rain
            SHGS      | moderate hail or ice
            SHGR      | moderate hail or ice
            -PL       | light hail or ice
            PLRA      | moderate hail or ice
            +TSSN     | heavy snow
            TSPL      | moderate hail or ice
            BLSN      | haze
            """)
    void freezing(String group, String seen) {
        assertEquals(
                seen,
                one("METAR XYZA 041150Z 24010KT 2000 " + group + " OVC020 M01/M02 Q1005=")
                        .seen()
                        .words());
    }

    /**
     * Each recent-weather group of ICAO Annex 3, table A3-2. It is given for freezing precipitation of any strength and
     * for moderate or heavy precipitation else, so it stands for moderate.
     */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
            REFZDZ     | moderate drizzle
            REFZRA     | moderate rain
            REDZ       | moderate drizzle
            RERA       | moderate rain
            RESN       | moderate snow
            RERASN     | moderate rain
            RESG       | moderate snow
            REPL       | moderate hail or ice
            RESHRA     | moderate rain
            RESHSN     | moderate snow
            RESHRASN   | moderate rain
            RESHGR     | moderate hail or ice
            RESHGS     | moderate hail or ice
            RETSRA     | moderate rain
            RETSSN     | moderate snow
            RETSPL     | moderate hail or ice
            RETSGR     | moderate hail or ice
            RETSGS     | moderate hail or ice
            REUP       | moderate rain
            REFZUP     | moderate rain
            RETSUP     | moderate rain
            RESHUP     | moderate rain
            RETS       | ''
            REBLSN     | ''
            RESS       | ''
            REDS       | ''
            REFC       | ''
            REVA       | ''
            """)
    void recentWeather(String group, String seen) {
        String words = one("METAR XYZA 041150Z 24010KT 9999 OVC020 01/00 Q1005 " + group + " NOSIG=")
                .seen()
                .words();
        assertEquals("nothing" + (seen.isEmpty() ? "" : ", recent " + seen), words);
    }

    /** Began and ended within the hour, by the remarks of FMH-1 chapter 12; their strength is not given. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
            RAB05E20        | nothing, recent light rain
            RAB1105E1120    | nothing, recent light rain
            SNE1105B20E45   | nothing, recent light snow
            TSB05RAB10E22   | nothing, recent light rain
            FZRAE12         | nothing, recent light rain
            TSB05E30        | nothing
            TSNO            | nothing
            """)
    void begunAndEnded(String remark, String seen) {
        Observation o = one("METAR KXYZ 041153Z 24010KT 9SM OVC020 01/00 A2992 RMK AO2 " + remark + " SLP100");
        assertEquals(seen, o.seen().words());
        assertEquals(seen.equals("nothing"), o.measured(), "something fell, and nobody says how much");
    }

    /** FM 15: wind over ten minutes at ten metres in three units, clouds by eighths of the sky. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
            24010KT 9999 OVC020                | 5.144  | 1
            24010G25KT 9999 BKN020 OVC090      | 5.144  | 1
            VRB02KT 9999 SCT020 BKN045         | 1.029  | 0.75
            00000KT CAVOK                      | 0      | 0
            30003MPS 8000 FEW020 SCT040        | 3      | 0.4375
            24036KMH 9999 FEW020CB             | 10     | 0.1875
            240P99KT 9999 NSC                  | 50.93  | 0
            AUTO 24010KT 9999 NCD              | 5.144  | 0
            24010KT 0200 FG VV001              | 5.144  | 1
            AUTO ///10KT //// BKN///           | 5.144  | 0.75
            AUTO /////KT 9999                  | NaN    | NaN
            """)
    void windAndClouds(String groups, double metresPerSecond, double cloud) {
        Air air = one("METAR XYZA 041150Z " + groups + " 10/09 Q1005=").air();
        assertEquals(metresPerSecond, air.metresPerSecond(), 0.01);
        assertEquals(cloud, air.cloud());
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
            # case                  | kind  | remarks             | seconds | mm    | trace
            a tenth of an inch      | METAR | AO2 P0010           | 3600    | 2.54  | false
            a trace                 | METAR | AO2 P0000           | 3600    | 0     | true
            no amount, yet it rains | METAR | AO2 SLP100          | 0       | NaN   | false
            gauge missing           | METAR | AO2 P////           | 0       | NaN   | false
            gauge broken            | METAR | AO2 PNO             | 0       | NaN   | false
            no gauge                | METAR | AO1                 | 0       | NaN   | false
            sea level pressure      | METAR | AO2 P0001 SLP123    | 3600    | 0.254 | false
            part of the next report | SPECI | AO2 P0010           | 0       | NaN   | false
            """)
    void amounts(String title, String kind, String remarks, int seconds, double mm, boolean trace) {
        Observation o = one(kind + " KXYZ 041153Z 24010KT 3SM -RA OVC020 10/09 A2992 RMK " + remarks);
        assertEquals(seconds, o.seconds());
        assertEquals(mm, o.millimetresPerHour(), 1e-9);
        assertEquals(trace, o.seen().trace());
        assertEquals(o.seen(), Seen.of(o.seen().words()));
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
            06/04                            | 6    | true
            M12/M15                          | -12  | true
            06/                              | 6    | false
            06///                            | 6    | false
            /////                            | NaN  | false
            06/04 A2992 RMK T00640036        | 6.4  | true
            M01/M02 A2992 RMK T10061017      | -0.6 | true
            """)
    void temperatures(String groups, double celsius, boolean humid) {
        Observation o = one("METAR XYZA 041150Z 24010KT 9999 RA OVC020 " + groups);
        assertEquals(celsius, o.air().celsius(), 1e-9);
        assertEquals(humid, !Double.isNaN(o.air().humidityPercent()));
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
            # case                 | line                                                          | at
            stamped                | 2026-03-04 11:53 METAR XYZA 041150Z CAVOK 10/09 Q1005=         | 2026-03-04T11:50:00Z
            ISO                    | 2026-03-04T11:53:00Z XYZA 041150Z CAVOK 10/09 Q1005            | 2026-03-04T11:50:00Z
            digits                 | 202603041153 METAR COR XYZA 041150Z CAVOK 10/09 Q1005=         | 2026-03-04T11:50:00Z
            stamped late           | 202604010010 METAR XYZA 312350Z CAVOK 10/09 Q1005=             | 2026-03-31T23:50:00Z
            stamped early          | 2026-12-31 23:59 SPECI XYZA 010001Z CAVOK 10/09 Q1005          | 2027-01-01T00:01:00Z
            a column of a table    | XYZA,2026-03-04 11:50,10.0,"XYZA 041150Z CAVOK 10/09 Q1005",M  | 2026-03-04T11:50:00Z
            """)
    void stamps(String title, String line, String at) {
        read(null, line);
        assertEquals(List.of(), bad);
        assertEquals(
                List.of(Instant.parse(at)), all.stream().map(Observation::at).toList());
    }

    @Test
    void aTextOfManyReports() {
        Tally tally = read(YearMonth.of(2026, 3), """
                # archive
                SAXX31 XYZA 041150
                METAR XYZA 041150Z 24010KT 9999 -RA OVC020
                      10/09 Q1005 TEMPO RA=
                METAR XYZB 041150Z NIL= METAR XYZC 041150Z CAVOK 12/03 Q1010=
                2026/03/04 12:20
                XYZA 041220Z 24010KT 9999 RA
                OVC020 10/09 Q1005

                METAR
                XYZD 041250Z AUTO 24010KT 9999 SHRA OVC020 10/09 Q1005
                the sky was lovely
                SPECI XYZA 041259Z 24010KT CAVOK 10/09 Q1005=
                TAF XYZA 041100Z 0412/0512 24010KT 9999 RA=
                METAR XYZA 041350Z=
                METAR XYZA 991350Z CAVOK 10/09 Q1005=
                """);
        assertEquals(
                List.of("XYZA light rain", "XYZC nothing", "XYZA moderate rain", "XYZD moderate rain", "XYZA nothing"),
                all.stream().map(o -> o.station() + " " + o.seen().words()).toList());
        assertEquals(
                List.of(12L, 14L, 15L, 16L), bad.stream().map(BadLine::line).toList());
        assertEquals(new Tally(9, 5, 4), tally);
    }

    @Test
    void withoutMonthTheReportIsRefusedWithAHint() {
        read(null, "METAR XYZA 041150Z CAVOK 10/09 Q1005=");
        assertEquals(List.of(), all);
        assertEquals("XYZA: day 04 at 11:50 of no stated month", bad.get(0).what());
        assertTrue(bad.get(0).hint().contains("month"));
    }

    @Test
    void aMonthsFileMayEndWithMidnightOfTheNext() {
        read(YearMonth.of(2026, 3), """
                METAR XYZA 010050Z CAVOK 10/09 Q1005=
                METAR XYZA 312350Z CAVOK 10/09 Q1005=
                METAR XYZA 010050Z CAVOK 10/09 Q1005=
                METAR XYZB 010050Z CAVOK 10/09 Q1005=
                METAR XYZB 310050Z CAVOK 10/09 Q1005=
                """);
        assertEquals(
                List.of("03-01", "03-31", "04-01", "03-01", "03-31"),
                all.stream().map(o -> o.at().toString().substring(5, 10)).toList());
    }

    @Test
    void aDayThatTheMonthLacksIsRefused() {
        read(YearMonth.of(2026, 2), "METAR XYZA 301150Z CAVOK 10/09 Q1005=");
        assertEquals(1, bad.size());
        assertEquals(List.of(), all);
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(textBlock = """
            metar-2026-03.txt,            2026-03
            XYZA_202603.txt,              2026-03
            xyza 20260304.log,            2026-03
            xyza-202603041153.log,        2026-03
            20260301-20260331.txt,        2026-03
            2026-03-01_2026-04-01.txt,    ''
            metar.txt,                    ''
            reports-2026.txt,             ''
            41203042.txt,                 ''
            """)
    void monthsInFileNames(String name, String month) {
        assertEquals(month, Metar.monthIn(name).map(YearMonth::toString).orElse(""));
    }

    @Test
    void tellsItselfFromATable() {
        assertTrue(Metar.isReport("2026-03-04 11:53 METAR XYZA 041150Z CAVOK"));
        assertFalse(Metar.isReport("time,precipitation"));
        assertFalse(Metar.isReport("2026-03-04 11:00,0.2"));
    }
}
