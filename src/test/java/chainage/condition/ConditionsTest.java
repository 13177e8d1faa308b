package chainage.condition;

import static chainage.TestRides.ride;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.TestLedger;
import chainage.TestRides;
import chainage.TestWeather;
import chainage.ledger.Event;
import chainage.ledger.Grit;
import chainage.ledger.Moisture;
import chainage.ride.Ride.Activity.Kind;
import chainage.weather.Intensity;
import chainage.weather.Observation;
import chainage.weather.Phenomenon;
import chainage.weather.Place;
import com.garmin.fit.WeatherStatus;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;

class ConditionsTest {
    private static final String START = "2026-03-01T08:00:00Z";

    private static Condition of(TestLedger ledger, TestRides... rides) {
        return TestLedger.roads(ledger.ledger())
                .of(java.util.Arrays.stream(rides).map(TestRides::filed).toList());
    }

    @Test
    void withoutEvidenceItIsDryAndClean() {
        Condition c = of(new TestLedger(), ride("a", START, 28.8));
        assertEquals(Moisture.DRY, c.moisture());
        assertEquals(Grit.CLEAN, c.grit());
        assertEquals(List.of(new Reason.Nothing()), c.from());
    }

    @Test
    void eachCurrentReportHoldsUntilTheNext() {
        // 28.8 km at 8 m/s last an hour: the rain from 08:45 is a quarter of it.
        Condition c = of(
                new TestLedger(),
                ride("a", START, 28.8)
                        .weather("2026-03-01T08:00:00Z", true, "cloudy")
                        .weather("2026-03-01T08:45:00Z", true, "light_rain"));
        assertEquals(Moisture.WET, c.moisture());
        assertEquals(0.25, c.wetShare(), 1e-9);
    }

    @Test
    void aForecastOfRainIsNoRain() {
        Condition c = of(new TestLedger(), ride("a", START, 28.8).weather(START, false, "heavy_rain"));
        assertEquals(Moisture.DRY, c.moisture());
        assertEquals(List.of(new Reason.Nothing()), c.from());
    }

    @Test
    void fogLeavesTheRoadDamp() {
        Condition c = of(new TestLedger(), ride("a", START, 28.8).weather(START, true, "fog"));
        assertEquals(Moisture.DAMP, c.moisture());
        assertEquals(List.of(new Reason.Weather(List.of("fog"))), c.from());
    }

    @Test
    void looseGroundIsDustyWhenDryAndGrittyWhenWet() {
        TestRides gravel = ride("a", START, 28.8).sport("cycling", "gravel_cycling", Kind.CYCLING, false);
        assertEquals(Grit.DUSTY, of(new TestLedger(), gravel).grit());
        assertEquals(
                Grit.GRITTY,
                of(new TestLedger(), gravel.weather(START, true, "rain")).grit());
    }

    /** A mountain bike is off the tarmac whatever format says so, a twin's as well. */
    @Test
    void theKindOfRideMeansTheSameInEveryFormat() {
        TestRides fit = ride("a", START, 28.8).sport("cycling", "mountain", Kind.CYCLING, false);
        TestRides gpx = ride("b", START, 28.8).sport("mountain bike", "", Kind.CYCLING, false);
        TestRides plain = ride("c", START, 28.8);
        assertEquals(Grit.DUSTY, of(new TestLedger(), fit).grit());
        assertEquals(Grit.DUSTY, of(new TestLedger(), gpx).grit());
        assertEquals(
                List.of(new Reason.Kind(gpx.filed().ride().activity())),
                of(new TestLedger(), gpx).from().subList(0, 1));
        assertEquals(Grit.DUSTY, of(new TestLedger(), plain, gpx).grit());
        assertEquals(Grit.CLEAN, of(new TestLedger(), plain).grit());
    }

    @Test
    void indoorsIsIndoorWhateverTheWeatherOutside() {
        TestRides r = ride("a", START, 28.8)
                .sport("cycling", "indoor_cycling", Kind.CYCLING, true)
                .weather(START, true, "rain");
        assertEquals(Moisture.INDOOR, of(new TestLedger(), r).moisture());
        assertEquals(0, of(new TestLedger(), r).wetShare());
    }

    @Test
    void theRidersFlagBeatsAllForEachOfTheTwoAlone() {
        TestRides r = ride("a", START, 28.8).weather(START, true, "rain");
        TestLedger l = new TestLedger().add(new Event.Tagged(List.of(r.id()), Moisture.DRY, 1, null));
        assertEquals(Moisture.DRY, of(l, r).moisture());
        assertEquals(Grit.CLEAN, of(l, r).grit());
        l.add(new Event.Tagged(List.of(r.id()), null, 1, Grit.GRITTY));
        assertEquals(Moisture.DRY, of(l, r).moisture(), "a later flag on grit leaves the one on moisture");
        assertEquals(Grit.GRITTY, of(l, r).grit());
        l.add(new Event.Untagged(List.of(r.id())));
        assertEquals(Moisture.WET, of(l, r).moisture());
    }

    @Test
    void aFlagOnATwinSpeaksForTheOuting() {
        TestRides fit = ride("a", START, 28.8);
        TestRides gpx = ride("b", START, 28.8);
        TestLedger l = new TestLedger().add(new Event.Tagged(List.of(gpx.id()), Moisture.WET, 0.4, Grit.GRITTY));
        assertEquals(0.4, of(l, fit, gpx).wetShare());
        assertEquals(Grit.GRITTY, of(l, fit, gpx).grit());
    }

    private static final Place STATION = new Place(0, -30);

    private static Observation report(String at, Phenomenon what, Intensity how) {
        return TestWeather.observation("XDUN", STATION, Instant.parse(at), 0, Double.NaN, false, what, how, 8, 90);
    }

    /** Hours of rain or of none from 00:00 to 12:00, a ride at 08:00 in the middle of them. */
    private static List<Observation> hours(Phenomenon what, Intensity how) {
        return IntStream.rangeClosed(0, 12)
                .mapToObj(h -> report(String.format("2026-03-01T%02d:00:00Z", h), what, how))
                .toList();
    }

    /** The rider's rule is asked only where weather records know of snow or ice, and only outdoors. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
            # case                   | rule  | records | title             | grit   | salt
            snow, no rule            | false | snow    |                   | CLEAN  | false
            snow and the rule        | true  | snow    |                   | GRITTY | true
            rain and the rule        | true  | rain    |                   | CLEAN  | false
            no records and the rule  | true  |         |                   | CLEAN  | false
            a word                   | false |         | Salted roads      | GRITTY | true
            a word of sand           | false |         | Sand on the lane  | GRITTY | false
            the rule beats a word    | true  | snow    | clean roads       | GRITTY | true
            """)
    void saltedRoadsAreGrittyAndRust(
            String title, boolean rule, String records, String words, Grit grit, boolean salt) {
        TestRides r = ride("a", START, 28.8).at(0, -30).titled(words == null ? "" : words);
        List<Observation> observed = records == null
                ? List.of()
                : hours(records.equals("snow") ? Phenomenon.SNOW : Phenomenon.RAIN, Intensity.LIGHT);
        Condition c =
                TestLedger.roads(new TestLedger().ledger(), observed, rule).of(List.of(r.filed()));
        assertEquals(grit, c.grit());
        assertEquals(salt, c.grits().get(0).why().salt());
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
            # case                     | flag | records | file       | title           | moisture | evidence
            nothing                    |      |         |            |                 | DRY      | NOTHING
            a word alone               |      |         |            | In the rain     | WET      | WORDS
            the file beats a word      |      |         | clear      | In the rain     | DRY      | FILE
            records beat the file      |      | rain    | clear      | Dry as a bone   | WET      | RECORDS
            dry records beat all below |      | dry     | heavy_rain | In the rain     | DRY      | RECORDS
            the flag beats all         | DAMP | rain    | heavy_rain | In the rain     | DAMP     | FLAG
            a dry flag as well         | DRY  | rain    | heavy_rain | In the rain     | DRY      | FLAG
            a word that denies         |      |         |            | No rain at last | DRY      | WORDS
            """)
    void theStrongestEvidenceHolds(
            String title, Moisture flag, String records, String file, String words, Moisture moisture, Evidence from) {
        TestRides r = ride("a", START, 28.8).at(0, -30).titled(words == null ? "" : words);
        r = file == null ? r : r.weather(START, true, file);
        TestLedger l = new TestLedger();
        if (flag != null) {
            l.add(new Event.Tagged(List.of(r.id()), flag, 1, null));
        }
        List<Observation> observed = records == null
                ? List.of()
                : records.equals("rain")
                        ? hours(Phenomenon.RAIN, Intensity.MODERATE)
                        : hours(Phenomenon.NONE, Intensity.NONE);
        Condition c = TestLedger.roads(l.ledger(), observed).of(List.of(r.filed()));
        assertEquals(moisture, c.moisture());
        assertEquals(from, c.moistureEvidence());
        // Strongest first, each kind once, and what is overruled is kept.
        List<Evidence> said = c.wetness().stream().map(Said::evidence).toList();
        assertEquals(said.stream().sorted().distinct().toList(), said);
        int spoke =
                (flag == null ? 0 : 1) + (records == null ? 0 : 1) + (file == null ? 0 : 1) + (words == null ? 0 : 1);
        assertEquals(Math.max(1, spoke), said.size());
    }

    @Test
    void gritIsWeighedApart() {
        TestRides r = ride("a", START, 28.8)
                .at(0, -30)
                .titled("Muddy lanes")
                .sport("cycling", "gravel_cycling", Kind.CYCLING, false);
        Condition c = TestLedger.roads(new TestLedger().ledger(), hours(Phenomenon.NONE, Intensity.NONE))
                .of(List.of(r.filed()));
        assertEquals(Moisture.DRY, c.moisture());
        assertEquals(Grit.GRITTY, c.grit());
        assertEquals(Evidence.WORDS, c.gritEvidence());
        assertEquals(Grit.DUSTY, c.grits().get(1).value(), "the sub-sport is overruled, and kept");
    }

    @Test
    void recordsFarAwayAreSilent() {
        TestRides r = ride("a", START, 28.8).at(1, -30);
        Condition c = TestLedger.roads(new TestLedger().ledger(), hours(Phenomenon.RAIN, Intensity.HEAVY))
                .of(List.of(r.filed()));
        assertEquals(Evidence.NOTHING, c.moistureEvidence(), "111 km off");
    }

    /**
     * Source: the FIT profile's enumeration weather_status (values and names, verified in two profile-generated
     * libraries); column wet is this project's own reading.
     */
    @ParameterizedTest(name = "{1}")
    @CsvFileSource(resources = "/chainage/condition/fit-weather.csv", numLinesToSkip = 1)
    void eachWordOfTheFitProfile(short value, String name, String wet) {
        WeatherStatus status = WeatherStatus.getByValue(value);
        assertEquals(name.toUpperCase(Locale.ROOT), status.name(), "as the FIT SDK has it");
        Moisture moisture = of(new TestLedger(), ride("a", START, 28.8).weather(START, true, name))
                .moisture();
        assertEquals(wet.equals("no") ? Moisture.DRY : wet.equals("damp") ? Moisture.DAMP : Moisture.WET, moisture);
    }

    @Test
    void everyWordOfTheSdkStandsInTheTable() throws IOException {
        String table = Files.readString(Path.of("src/test/resources/chainage/condition/fit-weather.csv"));
        for (WeatherStatus s : WeatherStatus.values()) {
            assertTrue(
                    s == WeatherStatus.INVALID || table.contains("," + s.name().toLowerCase(Locale.ROOT) + ","),
                    s.name());
        }
    }
}
