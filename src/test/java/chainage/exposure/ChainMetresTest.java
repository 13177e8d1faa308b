package chainage.exposure;

import static chainage.TestRides.ride;
import static org.junit.jupiter.api.Assertions.assertEquals;

import chainage.TestLedger;
import chainage.TestRides;
import chainage.ledger.Event;
import chainage.ride.Pedalling;
import chainage.ride.Ride.Activity.Kind;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Which metres count for the chain; a ride of 3,600 s and 28.8 km by its file, of 5,000 crank turns. */
class ChainMetresTest {
    private static final Factors FACTORS = TestLedger.factors();

    private static ChainMetres metres(
            boolean indoor, double km, double pedalled, double coasted, double turns, int ring, int cog, double wheel) {
        Pedalling.Row row = new Pedalling.Row(
                ring, cog, ring > 0 && cog > 0 ? Double.NaN : 6.125, pedalled, turns, Double.NaN, Double.NaN);
        TestRides ride = ride("a", "2026-03-01T08:00:00Z", km)
                .lasting(3600)
                .sport("cycling", "", Kind.CYCLING, indoor)
                .pedalled(new Pedalling(List.of(row), coasted, 0));
        return ChainMetres.of(
                ride.filed().ride(),
                wheel == 0 ? null : new Event.BikeDescribed("Dunlin", List.of(), List.of(), wheel),
                FACTORS);
    }

    /** 5,000 turns of 50×20 on a wheel of 2 m are 25 km; without a gear a turn is 6.18 m, the table's guess. */
    @ParameterizedTest(name = "indoors {0}, {1} km, {2} s pedalled, {3} s coasted, {4} turns, {5}x{6}, wheel {7}")
    @CsvSource({
        "false, 28.8, 3600, 0, 5000, 50, 20, 2, 28800, RIDE",
        "true, 28.8, 3600, 0, 5000, 50, 20, 2, 25000, GEARS",
        "false, 0, 3600, 0, 5000, 50, 20, 2, 25000, GEARS",
        "true, 28.8, 3600, 0, 5000, 50, 20, 0, 26250, GEARS",
        "true, 28.8, 3600, 0, 5000, 0, 0, 2, 30900, REFERENCE_GEAR",
        "true, 28.8, 1800, 0, 5000, 50, 20, 2, 25000, GEARS",
        "true, 28.8, 1790, 0, 5000, 50, 20, 2, 28800, RIDE",
        "true, 28.8, 1000, 800, 5000, 50, 20, 2, 25000, GEARS",
        "true, 28.8, 3600, 0, 0, 50, 20, 2, 28800, RIDE",
    })
    void indoorsAndWithoutADistanceTheCranksCount(
            boolean indoor,
            double km,
            double pedalled,
            double coasted,
            double turns,
            int ring,
            int cog,
            double wheel,
            double metres,
            ChainMetres.From from) {
        ChainMetres m = metres(indoor, km, pedalled, coasted, turns, ring, cog, wheel);
        assertEquals(metres, m.metres(), 1e-6);
        assertEquals(from, m.from());
    }
}
