package chainage.weather;

import static org.junit.jupiter.api.Assertions.assertEquals;

import chainage.TestLedger;
import chainage.TestWeather;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

class StationsTest {
    private static final Instant T0 = Instant.parse("2026-03-04T00:00:00Z");
    private static final long GAP = TestLedger.reach().gap().toMillis();

    private static Observation amount(String station, Place place, int hour, double mm) {
        Phenomenon p = mm > 0 ? Phenomenon.RAIN : Phenomenon.NONE;
        return TestWeather.observation(
                station, place, T0.plusSeconds(3600L * hour), 3600, mm, false, p, Intensity.ofRain(mm), 10, 80);
    }

    private static Observation seen(int minute, Phenomenon p, Intensity i) {
        return TestWeather.observation(
                "XYZA",
                Place.UNKNOWN,
                T0.plusSeconds(60L * minute),
                0,
                Double.NaN,
                false,
                p,
                i,
                Double.NaN,
                Double.NaN);
    }

    /** Sources stand in the resource; the sphere is within the 0.6 % that it states. */
    @ParameterizedTest(name = "{0}")
    @CsvFileSource(resources = "/chainage/ride/geodesics.csv")
    void sphericalDistances(String id, double lat1, double lon1, double lat2, double lon2, double metres, String mark) {
        double lon1In = Math.IEEEremainder(lon1, 360);
        double lon2In = Math.IEEEremainder(lon2, 360);
        assertEquals(metres, new Place(lat1, lon1In).metresTo(new Place(lat2, lon2In)), 0.006 * metres);
    }

    @Test
    void nearestFirstWithinReachAndWeightedByDistance() {
        Place here = new Place(48, 11);
        List<Observation> all = new ArrayList<>();
        for (double north : new double[] {0.3, 0.1, 0.2, 0.5, 0.001, 0.15}) {
            all.add(amount("n" + north, new Place(48 + north, 11), 1, 0));
        }
        all.add(amount("anywhere", Place.UNKNOWN, 1, 0));
        Stations stations = Stations.of(all);
        assertEquals(
                List.of("n0.001", "n0.1", "n0.15", "n0.2"),
                stations.near(here, TestLedger.reach()).stream()
                        .map(n -> n.station().name())
                        .toList());
        List<Stations.Near> near = stations.near(here, TestLedger.reach());
        assertEquals(2, near.get(1).weight() / near.get(3).weight(), 0.01);
        assertEquals(1 / 1000.0, near.get(0).weight());
        assertEquals(
                List.of("anywhere"),
                stations.near(new Place(10, 10), TestLedger.reach()).stream()
                        .map(n -> n.station().name())
                        .toList());
        assertEquals(
                List.of("anywhere"),
                stations.near(Place.UNKNOWN, TestLedger.reach()).stream()
                        .map(n -> n.station().name())
                        .toList());
    }

    private static String pieces(List<Observation> observations, int fromMinute, int toMinute) {
        StationRecord r = Stations.of(observations)
                .near(Place.UNKNOWN, TestLedger.reach())
                .get(0)
                .station();
        StringBuilder b = new StringBuilder();
        String before = "";
        for (StationRecord.Piece p :
                r.between(T0.plusSeconds(60L * fromMinute), T0.plusSeconds(60L * toMinute), GAP, TestLedger.film())) {
            String what = p.known() ? " " + p.millimetresPerHour() : " ?";
            if (!what.equals(before)) {
                b.append(b.isEmpty() ? "" : ", ")
                        .append((p.from() - T0.toEpochMilli()) / 60_000)
                        .append(what);
            }
            before = what;
        }
        return b.toString();
    }

    @Test
    void anAmountHoldsForTheTimeBeforeIt() {
        List<Observation> all = List.of(amount("", Place.UNKNOWN, 1, 0), amount("", Place.UNKNOWN, 2, 3));
        // The last one also says that it rained just then, which holds for half the gap.
        assertEquals("-60 ?, 0 0.0, 60 3.0, 165 ?", pieces(all, -60, 240));
    }

    @Test
    void whatWasSeenHoldsHalfWayToItsNeighboursAndNoFurtherThanHalfTheGap() {
        List<Observation> all = List.of(
                seen(0, Phenomenon.NONE, Intensity.NONE),
                seen(60, Phenomenon.RAIN, Intensity.MODERATE),
                seen(300, Phenomenon.NONE, Intensity.NONE));
        assertEquals("-60 ?, -45 0.0, 30 5.0, 105 ?, 255 0.0, 345 ?", pieces(all, -60, 400));
    }

    @Test
    void anAmountOverrulesWhatWasSeenAndOverlapsCountOnce() {
        List<Observation> all = new ArrayList<>(List.of(
                amount("XYZA", Place.UNKNOWN, 1, 0),
                amount("XYZA", Place.UNKNOWN, 2, 4),
                seen(90, Phenomenon.RAIN, Intensity.HEAVY)));
        assertEquals("0 0.0, 60 4.0", pieces(all, 0, 120));
        all.add(TestWeather.observation(
                "XYZA",
                Place.UNKNOWN,
                T0.plusSeconds(90 * 60),
                3600,
                1,
                false,
                Phenomenon.RAIN,
                Intensity.LIGHT,
                10,
                80));
        assertEquals("0 0.0, 60 1.0, 90 4.0", pieces(all, 0, 120));
    }

    @Test
    void theLaterOfTwoAtOneInstantCorrectsTheOther() {
        assertEquals("0 2.0", pieces(List.of(amount("", Place.UNKNOWN, 1, 0), amount("", Place.UNKNOWN, 1, 2)), 0, 60));
    }
}
