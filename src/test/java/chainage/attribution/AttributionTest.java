package chainage.attribution;

import static chainage.TestRides.ride;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.TestLedger;
import chainage.TestRides;
import chainage.attribution.AttributedRide.Verdict;
import chainage.ledger.Event;
import chainage.ledger.Rule;
import chainage.ride.FiledRide;
import chainage.ride.Ride;
import chainage.ride.Ride.Activity.Kind;
import chainage.ride.RideFormat;
import chainage.ridefile.RideFileException;
import chainage.ridefile.RideFiles;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class AttributionTest {
    private static TestLedger bikes() {
        return new TestLedger().bike("Dunlin").bike("Natterjack");
    }

    private static Event rule(Rule.When when, String bike) {
        return new Event.RuleSet(new Rule(when, bike, null));
    }

    private static List<AttributedRide> attribute(TestLedger ledger, TestRides... rides) {
        List<FiledRide> filed = Arrays.stream(rides)
                .map(TestRides::filed)
                .sorted(Comparator.comparing((FiledRide f) -> f.ride().start()))
                .toList();
        return Attribution.of(ledger.ledger(), filed);
    }

    private static AttributedRide only(TestLedger ledger, TestRides ride) {
        return attribute(ledger, ride).get(0);
    }

    @Test
    void rulesAreTriedInOrderAndTheFirstThatSpeaksWins() {
        TestRides r = ride("a", "2026-03-01T08:00:00Z", 40)
                .sensor("bike_power", "77")
                .path("/exports/commute/a.fit")
                .sport("cycling", "gravel_cycling", Kind.CYCLING, false);
        TestLedger l = bikes();
        assertNull(only(l, r).bike());
        l.add(rule(new Rule.Otherwise(), "Dunlin"));
        assertEquals(new BikeFrom.ByRule(new Rule.Otherwise()), only(l, r).bikeFrom());
        l.add(rule(new Rule.SubSport("gravel_cycling"), "Natterjack"));
        assertEquals(
                new BikeFrom.ByRule(new Rule.SubSport("gravel_cycling")),
                only(l, r).bikeFrom());
        l.add(rule(new Rule.Path("commute"), "Dunlin"));
        assertEquals(new BikeFrom.ByRule(new Rule.Path("commute")), only(l, r).bikeFrom());
        l.add(rule(new Rule.Sensor("bike_power", "77"), "Natterjack"));
        assertEquals(
                new BikeFrom.ByRule(new Rule.Sensor("bike_power", "77")),
                only(l, r).bikeFrom());
        l.add(new Event.RidesAssigned(List.of(r.id()), "Dunlin"));
        assertEquals(new BikeFrom.Rider(), only(l, r).bikeFrom());
        assertEquals("Dunlin", only(l, r).bike());
        l.add(new Event.RidesAssigned(List.of(r.id()), null));
        assertEquals("Natterjack", only(l, r).bike());
    }

    @Test
    void oneSerialUnderAnotherTypeIsAnotherSensor() {
        TestLedger l = bikes().add(rule(new Rule.Sensor("bike_power", "77"), "Natterjack"));
        assertNull(only(l, ride("a", "2026-03-01T08:00:00Z", 40).sensor("heart_rate", "77"))
                .bike());
    }

    @ParameterizedTest(name = "{0} against {1}")
    @CsvSource(delimiter = '|', textBlock = """
            # pattern  | path                           | matches
            commute    | /x/commute/a.fit               | true
            commute    | /x/commuter/a.fit              | false
            COMMUTE    | /x/commute/a.fit               | true
            commute*   | /x/commuter/a.fit              | true
            a.fit      | /x/commute/a.fit               | true
            runs/*     | /x/runs/b.gpx                  | true
            runs/*     | /x/runs.zip!/c/b.gpx           | false
            c/b.gpx    | /x/runs.zip!/c/b.gpx           | true
            x/commute  | /x/commute/a.fit               | true
            a*         | /x/commute/b.fit               | false
            """)
    void pathPatternsMatchWholeNames(String pattern, String path, boolean matches) {
        assertEquals(matches, new Rule.Path(pattern).matcher().test(path));
    }

    @Test
    void theChainIsTheOneInstalledAtTheStart() {
        TestLedger l = bikes().add(rule(new Rule.Otherwise(), "Dunlin"))
                .chain("Amber")
                .chain("Ochre")
                .installed("Amber", "Dunlin", "2026-03-01T00:00:00Z")
                .removed("Amber", "2026-03-02T08:00:00Z")
                .installed("Ochre", "Dunlin", "2026-03-02T08:00:00Z");
        assertNull(only(l, ride("a", "2026-02-28T23:59:59Z", 40)).chain());
        assertEquals("Amber", only(l, ride("b", "2026-03-01T00:00:00Z", 40)).chain());
        assertEquals("Amber", only(l, ride("c", "2026-03-02T07:59:59Z", 40)).chain(), "under way during the swap");
        assertEquals("Ochre", only(l, ride("d", "2026-03-02T08:00:00Z", 40)).chain());
    }

    @ParameterizedTest(name = "{0} {1} at {2} m/s")
    @CsvSource(textBlock = """
            cycling,  CYCLING,   1, COUNTED
            running,  OTHER,     8, NOT_A_RIDE
            '',       UNSTATED,  8, COUNTED
            '',       UNSTATED,  2, NOT_A_RIDE
            '',       UNSTATED, 16, NOT_A_RIDE
            '',       UNSTATED, NaN, NOT_A_RIDE
            """)
    void anUnstatedSportIsToldByItsSpeed(String sport, Kind kind, double speed, Verdict verdict) {
        TestRides r = ride("a", "2026-03-01T08:00:00Z", 40)
                .sport(sport, "", kind, false)
                .speed(speed);
        assertEquals(verdict, only(bikes(), r).verdict());
    }

    @Test
    void theRiderOverrulesEitherWay() {
        TestRides run = ride("a", "2026-03-01T08:00:00Z", 10).sport("running", "", Kind.OTHER, false);
        TestRides car = ride("b", "2026-03-01T12:00:00Z", 10)
                .sport("", "", Kind.UNSTATED, false)
                .path("/x/car/b.gpx");
        TestLedger l = bikes().add(new Event.RidesCounted(List.of(run.id()), true));
        l.add(new Event.RuleSet(new Rule(new Rule.Path("car"), null, false)));
        assertEquals(Verdict.COUNTED, only(l, run).verdict());
        assertEquals(Verdict.NOT_A_RIDE, only(l, car).verdict());
        l.add(new Event.RidesCounted(List.of(car.id()), true));
        assertEquals(Verdict.COUNTED, only(l, car).verdict());
    }

    // Twins.

    private static List<Verdict> verdicts(TestLedger l, TestRides... rides) {
        List<AttributedRide> all = attribute(l, rides);
        return Arrays.stream(rides)
                .map(r -> all.stream()
                        .filter(a -> a.id().equals(r.id()))
                        .findFirst()
                        .orElseThrow()
                        .verdict())
                .toList();
    }

    @Test
    void ofThreeFormatsTheFitIsCounted() {
        TestRides gpx =
                ride("g", "2026-03-01T08:00:00Z", 40.9).format(RideFormat.GPX).dense(9000);
        TestRides tcx = ride("t", "2026-03-01T08:00:01Z", 40.1).format(RideFormat.TCX);
        TestRides fit = ride("f", "2026-03-01T08:00:02Z", 40).dense(10);
        assertEquals(List.of(Verdict.TWIN, Verdict.TWIN, Verdict.COUNTED), verdicts(bikes(), gpx, tcx, fit));
    }

    @Test
    void theDenserOfTwoFilesOfOneFormatIsCounted() {
        TestRides thin = ride("x", "2026-03-01T08:00:00Z", 40).dense(100);
        TestRides dense = ride("y", "2026-03-01T08:00:30Z", 40).dense(5000);
        assertEquals(List.of(Verdict.TWIN, Verdict.COUNTED), verdicts(bikes(), thin, dense));
    }

    @Test
    void aDeviceWithoutDistanceIsTheTwinOfOneWith() {
        TestRides zero = ride("z", "2026-03-01T08:00:00Z", 0).lasting(5000).dense(9000);
        TestRides full = ride("f", "2026-03-01T08:00:00Z", 28).format(RideFormat.GPX);
        assertEquals(List.of(Verdict.TWIN, Verdict.COUNTED), verdicts(bikes(), zero, full));
    }

    /** The longer hour and a half, or two halves of one, and so on: a bike is ridden once at one time. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
            # the GPX beside a FIT of 90 min, 40 km | min later | min | km | counted of the FIT, of the GPX
            a copy                                 |   0 |  90 | 40   | 40 |  0
            begun late                             |  25 |  65 | 28   | 40 |  0
            ended early                            |   0 |  50 | 22   | 40 |  0
            half of it                             |  22 |  45 | 20   | 40 |  0
            a scrap of it                          |  70 |   3 |  1   | 40 |  0
            10 % longer                            |   0 |  90 | 44   | 40 |  0
            far off                                |   0 |  90 | 60   | 40 |  0
            the FIT began late                     | -20 | 110 | 49   |  0 | 49
            the FIT broke off                      |   0 | 180 | 80   |  0 | 80
            as full, within 5 %                    |  -2 |  94 | 42   | 40 |  0
            fuller by more                         |  -3 |  96 | 42   |  0 | 42
            half past the end                      |  44 |  90 | 40   | 40 |  0
            more than that: two, and named         |  46 |  90 | 40   | 40 | 40
            after it                               | 100 |  90 | 40   | 40 | 40
            """)
    void oneOutingCountsOnce(String title, int later, int minutes, double km, double fit, double gpx) {
        TestRides a = ride("a", "2026-03-01T08:00:00Z", 40).lasting(5400);
        String start =
                Instant.parse("2026-03-01T08:00:00Z").plusSeconds(60L * later).toString();
        TestRides b = ride("b", start, km).format(RideFormat.GPX).lasting(60.0 * minutes);
        TestLedger l = bikes().add(rule(new Rule.Otherwise(), "Dunlin"));
        assertEquals(
                List.of(fit > 0 ? Verdict.COUNTED : Verdict.TWIN, gpx > 0 ? Verdict.COUNTED : Verdict.TWIN),
                verdicts(l, a, b),
                title);
        List<AttributedRide> all = attribute(l, a, b);
        assertEquals(fit + gpx, countedKm(all), 1e-9, title);
        assertEquals(
                title.contains("named") ? 1 : 0, Overlap.of(l.ledger(), all).size());
    }

    /** What overlaps a twin and not what counts is an outing of its own: its metres are nowhere else. */
    @Test
    void whatOnlyATwinOverlapsIsNotSwallowed() {
        TestRides a = ride("a", "2026-03-01T08:00:00Z", 60).lasting(7200).dense(5000);
        TestRides b = ride("b", "2026-03-01T08:58:00Z", 59).lasting(7100);
        TestRides c = ride("c", "2026-03-01T09:56:00Z", 58).lasting(7000);
        assertEquals(List.of(Verdict.COUNTED, Verdict.TWIN, Verdict.COUNTED), verdicts(bikes(), a, b, c));
    }

    /** A watch without distance that ran all day joins the morning's ride, and takes neither from the count. */
    @Test
    void aLongRecordingWithoutDistanceStandsForNothing() {
        TestRides watch = ride("watch", "2026-03-01T06:00:00Z", 0).lasting(43_200);
        TestRides morning = ride("morning", "2026-03-01T07:00:00Z", 12);
        TestRides evening = ride("evening", "2026-03-01T17:00:00Z", 12);
        assertEquals(24, countedKm(attribute(bikes(), watch, morning, evening)), 1e-9);
    }

    /** Four outings of 40 km, each recorded twice: 160 km, that a rule on distances alone took for 252. */
    @Test
    void aHundredAndSixtyKilometresStayAHundredAndSixty() {
        List<TestRides> rides = new ArrayList<>();
        double[] copies = {20, 44, 12, 36.5};
        for (int day = 0; day < 4; day++) {
            rides.add(ride("fit" + day, "2026-03-0" + (day + 1) + "T08:00:00Z", 40)
                    .lasting(5400));
            rides.add(ride("gpx" + day, "2026-03-0" + (day + 1) + "T08:05:00Z", copies[day])
                    .format(RideFormat.GPX)
                    .lasting(copies[day] > 30 ? 5200 : 2700));
        }
        TestLedger l = bikes().add(rule(new Rule.Otherwise(), "Dunlin"));
        assertEquals(160, countedKm(attribute(l, rides.toArray(TestRides[]::new))), 1e-9);
    }

    /** Two who ride together, at the same second and as far. */
    @ParameterizedTest(name = "{0}, {1}")
    @CsvSource(delimiter = '|', textBlock = """
            # what names the first's bike | the second's | counted
            sensor    | sensor    | 2
            path      | path      | 2
            sub-sport | sub-sport | 2
            word      | word      | 2
            sensor    | path      | 2
            word      | sub-sport | 2
            path      | default   | 2
            # A copy may lack the sensor, the word or the sub-sport.
            sensor    | default   | 1
            sub-sport | default   | 1
            word      | default   | 1
            default   | default   | 1
            """)
    void whatAnyRuleGivesToTwoBikesIsNoTwin(String first, String second, int counted) {
        TestLedger l = bikes().add(
                        rule(new Rule.Sensor("bike_power", "1"), "Dunlin"),
                        rule(new Rule.Sensor("bike_power", "2"), "Natterjack"),
                        rule(new Rule.Path("rider 1"), "Dunlin"),
                        rule(new Rule.Path("rider 2"), "Natterjack"),
                        rule(new Rule.SubSport("kind 1"), "Dunlin"),
                        rule(new Rule.SubSport("kind 2"), "Natterjack"),
                        rule(new Rule.Otherwise(), second.equals("default") ? "Natterjack" : "Dunlin"));
        List<TestRides> rides = new ArrayList<>();
        for (int i = 1; i <= 2; i++) {
            TestRides r = ride("r" + i, "2026-03-01T08:00:00Z", 40);
            switch (i == 1 ? first : second) {
                case "sensor" -> r = r.sensor("bike_power", String.valueOf(i));
                case "path" -> r = r.path("/rides/rider " + i + "/a.fit");
                case "sub-sport" -> r = r.sport("cycling", "kind " + i, Kind.CYCLING, false);
                case "word" -> l.add(new Event.RidesAssigned(List.of(r.id()), i == 1 ? "Dunlin" : "Natterjack"));
                default -> {}
            }
            rides.add(r);
        }
        List<AttributedRide> all = attribute(l, rides.toArray(TestRides[]::new));
        assertEquals(40 * counted, countedKm(all), 1e-9);
        assertEquals(List.of(), Overlap.of(l.ledger(), all));
    }

    @Test
    void whatTwoBikesRodeIsNotJoinedByACopyThatKnowsNone() {
        TestLedger l = bikes().add(
                        rule(new Rule.Sensor("bike_power", "1"), "Dunlin"),
                        rule(new Rule.Sensor("bike_power", "2"), "Natterjack"));
        TestRides copy = ride("copy", "2026-03-01T08:00:00Z", 41).lasting(5500);
        TestRides a = ride("a", "2026-03-01T08:00:10Z", 40).lasting(5400).sensor("bike_power", "1");
        TestRides b = ride("b", "2026-03-01T08:00:20Z", 40).lasting(5300).sensor("bike_power", "2");
        List<AttributedRide> all = attribute(l, copy, a, b);
        assertEquals(
                List.of("Dunlin", "Natterjack"),
                all.stream()
                        .filter(AttributedRide::counted)
                        .map(AttributedRide::bike)
                        .sorted()
                        .toList());
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
            # case            | s later | of one's own | overlaps, as stated
            by the clocks     | 5341    | false        |
            by more           | 5339    | false        | false
            as the rider says | 0       | true         | true
            """)
    void ridesOfOneBikeThatOverlapAreFound(String title, int later, boolean own, @Nullable Boolean stated) {
        TestRides a = ride("a", "2026-03-01T08:00:00Z", 40).lasting(5400);
        TestRides b = ride(
                        "b",
                        Instant.parse("2026-03-01T08:00:00Z").plusSeconds(later).toString(),
                        40)
                .lasting(5400);
        TestLedger l = bikes().add(rule(new Rule.Otherwise(), "Dunlin"));
        if (own) {
            l.add(new Event.TwinStated(b.id(), b.id()));
        }
        assertEquals(
                stated == null ? List.of() : List.of(stated),
                Overlap.of(l.ledger(), attribute(l, a, b)).stream()
                        .map(Overlap::stated)
                        .toList(),
                title);
    }

    @Test
    void aCopyCutShortIsTheTwinOfTheWhole() {
        TestRides whole = ride("whole", "2026-03-01T08:00:00Z", 66.8).format(RideFormat.GPX);
        TestRides half = ride("half", "2026-03-01T08:00:00Z", 35.6).salvagedFrom("the end is missing");
        TestRides quarter = ride("quarter", "2026-03-01T08:00:00Z", 17).salvagedFrom("the end is missing");
        assertEquals(List.of(Verdict.COUNTED, Verdict.TWIN, Verdict.TWIN), verdicts(bikes(), whole, half, quarter));
        assertEquals(List.of(Verdict.COUNTED, Verdict.TWIN), verdicts(bikes(), half, quarter));
        TestRides other = ride("other", "2026-03-01T13:00:00Z", 80);
        assertEquals(List.of(Verdict.COUNTED, Verdict.COUNTED), verdicts(bikes(), half, other));
    }

    @Test
    void theClocksOfTwoDevicesMayBeAMinuteApart() {
        TestRides a = ride("a", "2026-03-01T08:00:00Z", 0.46).lasting(62).sensor("head_unit", "1");
        TestRides b = ride("b", "2026-03-01T08:00:53Z", 0.45).lasting(64).sensor("head_unit", "2");
        assertEquals(List.of(Verdict.COUNTED, Verdict.TWIN), verdicts(bikes(), a.dense(2000), b));
        TestRides farther = ride("b", "2026-03-01T08:00:53Z", 0.5).lasting(64).sensor("head_unit", "2");
        assertEquals(List.of(Verdict.COUNTED, Verdict.COUNTED), verdicts(bikes(), a.dense(2000), farther));
        TestRides same = ride("b", "2026-03-01T08:00:53Z", 0.45).lasting(64).sensor("head_unit", "1");
        assertEquals(List.of(Verdict.COUNTED, Verdict.COUNTED), verdicts(bikes(), a.dense(2000), same));
        // A sensor that both listen to is no clock.
        assertEquals(
                List.of(Verdict.COUNTED, Verdict.TWIN),
                verdicts(bikes(), a.dense(2000).sensor("bike_cadence", "7"), b.sensor("bike_cadence", "7")));
    }

    @Test
    void ridesTiedToDifferentBikesAreNoTwins() {
        TestLedger l = bikes().add(
                        rule(new Rule.Sensor("bike_power", "1"), "Dunlin"),
                        rule(new Rule.Sensor("bike_power", "2"), "Natterjack"));
        TestRides a = ride("a", "2026-03-01T08:00:00Z", 40).sensor("bike_power", "1");
        TestRides b = ride("b", "2026-03-01T08:00:00Z", 40).sensor("bike_power", "2");
        assertEquals(List.of(Verdict.COUNTED, Verdict.COUNTED), verdicts(l, a, b));
    }

    @Test
    void theRiderOverrulesTwinsEitherWay() {
        TestRides a = ride("a", "2026-03-01T08:00:00Z", 40);
        TestRides b = ride("b", "2026-03-01T08:00:00Z", 40).format(RideFormat.GPX);
        TestRides c = ride("c", "2026-03-01T12:00:00Z", 40);
        TestLedger l = bikes().add(new Event.TwinStated(b.id(), b.id()), new Event.TwinStated(c.id(), a.id()));
        assertEquals(List.of(Verdict.COUNTED, Verdict.COUNTED, Verdict.TWIN), verdicts(l, a, b, c));
    }

    @Test
    void aTwinLendsItsSensorsToTheOneThatIsCounted() {
        TestLedger l = bikes().add(rule(new Rule.Sensor("bike_power", "2"), "Natterjack"));
        TestRides fit = ride("a", "2026-03-01T08:00:00Z", 40);
        TestRides other = ride("b", "2026-03-01T08:00:00Z", 40).dense(10).sensor("bike_power", "2");
        assertEquals(
                "Natterjack",
                attribute(l, fit, other).stream()
                        .filter(AttributedRide::counted)
                        .findFirst()
                        .orElseThrow()
                        .bike());
    }

    private static double countedKm(List<AttributedRide> rides) {
        return rides.stream()
                        .filter(AttributedRide::counted)
                        .mapToDouble(r -> r.filed().ride().distance().metres())
                        .sum()
                / 1000;
    }

    @Test
    void aTwinOfATwinIsNotCountedBesideIt() {
        TestRides fit = ride("fit", "2026-03-01T08:00:00Z", 100).lasting(10_800);
        TestRides tcx = ride("tcx", "2026-03-01T08:00:01Z", 96).lasting(10_800).format(RideFormat.TCX);
        TestRides gpx = ride("gpx", "2026-03-01T08:00:02Z", 92).lasting(10_800).format(RideFormat.GPX);
        assertEquals(100, countedKm(attribute(bikes(), fit, tcx, gpx)), 1e-9);
    }

    @Test
    void ridesSaidToRepeatEachOtherStillCountOnce() {
        TestRides a = ride("a", "2026-03-01T08:00:00Z", 40);
        TestRides b = ride("b", "2026-03-01T08:00:05Z", 40);
        TestLedger l = bikes().add(new Event.TwinStated(a.id(), b.id()), new Event.TwinStated(b.id(), a.id()));
        assertEquals(40, countedKm(attribute(l, a, b)), 1e-9);
    }

    @Test
    void anOutingSaidToBeNoRideDoesNotComeBackThroughItsTwin() {
        TestRides fit = ride("fit", "2026-03-01T08:00:00Z", 40);
        TestRides gpx = ride("gpx", "2026-03-01T08:00:05Z", 40.2).format(RideFormat.GPX);
        TestLedger l = bikes().add(new Event.RidesCounted(List.of(fit.id()), false));
        assertEquals(0, countedKm(attribute(l, fit, gpx)), 1e-9);
    }

    @Test
    void tracksOfOneFileThatFollowEachOtherAreNoTwins() throws RideFileException {
        StringBuilder gpx = new StringBuilder("<gpx>");
        Instant start = Instant.parse("2026-03-01T08:00:00Z");
        for (int lap = 0; lap < 10; lap++) {
            gpx.append("<trk><type>cycling</type><trkseg>");
            for (int i = 0; i <= 100; i += 5) {
                gpx.append("<trkpt lat=\"10\" lon=\"")
                        .append(20 + i * 10 / 109_639.4)
                        .append("\"><time>")
                        .append(start.plusSeconds(lap * 101 + i))
                        .append("</time></trkpt>");
            }
            gpx.append("</trkseg></trk>");
        }
        byte[] content = gpx.append("</gpx>").toString().getBytes(StandardCharsets.UTF_8);
        List<FiledRide> laps = RideFiles.decode(content, Instant.parse("2027-01-01T00:00:00Z")).activities().stream()
                .map(r -> new FiledRide(r, List.of("/rides/laps.gpx")))
                .toList();
        assertEquals(10, countedKm(Attribution.of(bikes().ledger(), laps)), 0.1);
    }

    @Test
    void whatWasSalvagedOfARideIsATwinOfTheWholeOne() throws Exception {
        byte[] whole = Files.readAllBytes(Path.of("fixtures/season/rides/computer/2026-03-15-1000.fit"));
        byte[] cut = Arrays.copyOf(whole, whole.length * 6 / 10);
        List<FiledRide> both = new ArrayList<>();
        double km = 0;
        for (byte[] content : List.of(whole, cut)) {
            for (Ride r : RideFiles.decode(content, Instant.parse("2027-01-01T00:00:00Z"))
                    .activities()) {
                both.add(new FiledRide(r, List.of("/rides/x.fit")));
                km = Math.max(km, r.distance().metres() / 1000);
            }
        }
        both.sort(Comparator.comparing((FiledRide f) -> f.ride().start()));
        assertEquals(2, both.size());
        assertEquals(km, countedKm(Attribution.of(bikes().ledger(), both)), 1e-9);
    }

    @Test
    void aRunThatOneRecordingNamesIsNoRideByTheSpeedOfAnother() {
        TestRides fit =
                ride("fit", "2026-03-01T08:00:00Z", 10).lasting(3300).speed(3).sport("running", "", Kind.OTHER, false);
        TestRides gpx = ride("gpx", "2026-03-01T08:00:05Z", 10)
                .lasting(3300)
                .speed(3)
                .format(RideFormat.GPX)
                .sport("", "", Kind.UNSTATED, false);
        assertEquals(0, countedKm(attribute(bikes(), fit, gpx)), 1e-9);
    }

    /** The band's bounds, 8 and 55 km/h, belong to it. */
    @ParameterizedTest(name = "{0} km/h")
    @CsvSource({"7.99, false", "8, true", "25, true", "55, true", "55.01, false"})
    void aCyclistsSpeedsReachFromBoundToBound(double kmh, boolean counted) {
        TestRides r = ride("a", "2026-03-01T08:00:00Z", 40)
                .sport("", "", Kind.UNSTATED, false)
                .speed(kmh / 3.6);
        AttributedRide verdict = only(bikes(), r);
        assertEquals(counted, verdict.counted());
        assertEquals(new Because.Speed(kmh / 3.6, counted), verdict.because());
    }

    @Test
    void aRuleThatDoesNotFitNamesNoBike() {
        TestRides r = ride("a", "2026-03-01T08:00:00Z", 40)
                .sensor("bike_power", "77")
                .path("/exports/commute/a.fit")
                .sport("cycling", "road", Kind.CYCLING, false);
        for (Rule.When other : List.of(
                new Rule.Sensor("bike_power", "78"), new Rule.Path("holiday"), new Rule.SubSport("gravel_cycling"))) {
            assertFalse(Attribution.matches(other, r.filed()), other.words());
            assertNull(only(bikes().add(rule(other, "Dunlin")), r).bike(), other.words());
        }
        assertTrue(Attribution.matches(new Rule.Sensor("bike_power", "77"), r.filed()));
        assertTrue(Attribution.matches(new Rule.Otherwise(), r.filed()));
    }

    @Test
    void theRidersWordForOneRideNamesNoOthersBike() {
        TestRides a = ride("a", "2026-03-01T08:00:00Z", 40);
        TestRides b = ride("b", "2026-03-02T08:00:00Z", 40);
        TestLedger l = bikes().add(new Event.RidesAssigned(List.of(a.id()), "Dunlin"));
        List<AttributedRide> rides = attribute(l, a, b);
        assertEquals("Dunlin", rides.get(0).bike());
        assertNull(rides.get(1).bike());
    }

    /** Five per cent of the longer one: 2 km of 40. */
    @ParameterizedTest(name = "{0} km beside 40 km")
    @CsvSource({"38, false", "37.99, true", "40, false", "42.1, false", "42.2, true", "0, false"})
    void twinsThatDifferByMoreThanFivePerCentAreNamed(double km, boolean named) {
        TestRides a = ride("a", "2026-03-01T08:00:00Z", 40).lasting(5400);
        TestRides b =
                ride("b", "2026-03-01T08:00:00Z", km).format(RideFormat.GPX).lasting(5400);
        AttributedRide twin = attribute(bikes(), a, b).stream()
                .filter(r -> !r.counted())
                .findFirst()
                .orElseThrow();
        assertEquals(
                new Because.SameOuting(a.id(), named ? new Disagreement(km * 1000, 40_000) : null), twin.because());
    }

    /** A run recorded beside a ride, in the same hour and as far, is no recording of it; an untyped copy is. */
    @ParameterizedTest(name = "{0} and {1}")
    @CsvSource({
        "CYCLING, OTHER, 1, COUNTED, NOT_A_RIDE",
        "CYCLING, UNSTATED, 1, COUNTED, TWIN",
        "CYCLING, CYCLING, 1, COUNTED, TWIN",
        "OTHER, OTHER, 0, NOT_A_RIDE, NOT_A_RIDE",
    })
    void whatIsCalledAnotherSportIsNoTwin(Kind first, Kind second, int counted, Verdict a, Verdict b) {
        List<AttributedRide> rides = attribute(
                bikes(),
                ride("a", "2026-03-01T08:00:00Z", 40).lasting(5400).sport("x", "", first, false),
                ride("b", "2026-03-01T08:00:01Z", 40)
                        .lasting(5400)
                        .format(RideFormat.GPX)
                        .sport("y", "", second, false));
        assertEquals(counted, rides.stream().filter(AttributedRide::counted).count());
        assertEquals(List.of(a, b), rides.stream().map(AttributedRide::verdict).toList());
    }
}
