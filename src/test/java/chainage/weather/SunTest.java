package chainage.weather;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SunTest {
    /** FAO Irrigation and Drainage Paper 56 (1998): 3 September is day 246 (example 8), 1 October day 274 (example 19). */
    @ParameterizedTest
    @CsvSource({"246, 0.120", "274, -0.0753"})
    void declination(int day, double radians) {
        assertEquals(radians, Sun.declination(day), 0.0005);
    }

    /** The same paper, example 19: 1 October, 14:30 at 15° W in a station at 16.25° W, solar angle 0.682 rad. */
    @Test
    void anAfternoonInSenegal() {
        assertEquals(0.1889, Sun.hoursAhead(274), 0.0001);
        double latitude = Math.toRadians(16.217);
        double sine = Math.sin(latitude) * Math.sin(-0.0753) + Math.cos(latitude) * Math.cos(-0.0753) * Math.cos(0.682);
        // The paper's clock is an hour behind UTC there.
        assertEquals(
                sine, Sun.sineOfElevation(Instant.parse("2026-10-01T15:30:00Z"), new Place(16.217, -16.25)), 0.001);
    }

    /**
     * By elevation in degrees: values that the tests of a public solar library hold its own form of Haurwitz's clear sky
     * to.
     */
    @ParameterizedTest
    @CsvSource({"-20, 0", "0, 0", "5, 48.6299", "10, 135.7417", "30, 487.8941", "50, 778.7667", "90, 1035.092"})
    void clearSky(double elevation, double watts) {
        assertEquals(watts, Sun.clearWatts(Math.sin(Math.toRadians(elevation))), 0.001);
    }

    /** Kasten and Czeplak (1980): a quarter comes through a sky wholly covered. */
    @Test
    void clouds() {
        assertEquals(1, Sun.throughCloud(0));
        assertEquals(0.25, Sun.throughCloud(1));
        assertTrue(Sun.throughCloud(0.5) > 0.9);
        Place nowhere = Place.UNKNOWN;
        assertEquals(0, Sun.watts(Instant.parse("2026-06-21T12:00:00Z"), nowhere, 0));
    }
}
