package chainage.condition;

import static chainage.TestRides.ride;
import static org.junit.jupiter.api.Assertions.assertEquals;

import chainage.TestLedger;
import chainage.TestRides;
import chainage.ledger.Event;
import chainage.ledger.Grit;
import chainage.ledger.Moisture;
import chainage.ride.Ride.Activity.Kind;
import java.util.List;
import org.junit.jupiter.api.Test;

class ConditionsTest {
    private static final String START = "2026-03-01T08:00:00Z";

    private static Condition of(TestLedger ledger, TestRides... rides) {
        return new Conditions(ledger.ledger())
                .of(java.util.Arrays.stream(rides).map(TestRides::filed).toList());
    }

    @Test
    void withoutEvidenceItIsDryAndClean() {
        Condition c = of(new TestLedger(), ride("a", START, 28.8));
        assertEquals(Moisture.DRY, c.moisture());
        assertEquals(Grit.CLEAN, c.grit());
        assertEquals("nothing says otherwise", c.from());
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
        assertEquals("nothing says otherwise", c.from());
    }

    @Test
    void fogLeavesTheRoadDamp() {
        Condition c = of(new TestLedger(), ride("a", START, 28.8).weather(START, true, "fog"));
        assertEquals(Moisture.DAMP, c.moisture());
        assertEquals("weather in the file: fog", c.from());
    }

    @Test
    void looseGroundIsDustyWhenDryAndGrittyWhenWet() {
        TestRides gravel = ride("a", START, 28.8).sport("cycling", "gravel_cycling", Kind.CYCLING, false);
        assertEquals(Grit.DUSTY, of(new TestLedger(), gravel).grit());
        assertEquals(
                Grit.GRITTY,
                of(new TestLedger(), gravel.weather(START, true, "rain")).grit());
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
}
