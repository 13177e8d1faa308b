package chainage.course;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.ride.Sample;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class ProfileTest {
    /** One degree of longitude on the equator of WGS84, metres. */
    private static final double DEGREE = 111_319.490793;

    private static Sample point(double metresEast, double height, boolean joined) {
        return new Sample(
                Sample.NO_TIME,
                0,
                10 + metresEast / DEGREE,
                Double.NaN,
                Double.NaN,
                Double.NaN,
                Double.NaN,
                Double.NaN,
                height,
                joined);
    }

    private static List<Sample> slope(double metres, double gradient) {
        List<Sample> points = new ArrayList<>();
        for (double m = 0; m <= metres; m += 25) {
            points.add(point(m, 100 + gradient * m, m > 0));
        }
        return points;
    }

    @Test
    void anEvenSlopeStaysAsItIs() {
        Profile p = Profile.of(slope(2000, 0.04), 0, 0);
        assertEquals(List.of(), p.notes());
        assertEquals(2000, p.metres(), 1e-3);
        p.legs().forEach(l -> assertEquals(0.04, l.gradient(), 1e-6));
    }

    @Test
    void theWindCountsByItsDirection() {
        // Eastward: wind from the east is ahead, from the west behind, from the north of no effect.
        assertEquals(5, Profile.of(slope(500, 0), 5, 90).legs().get(10).headwind(), 1e-6);
        assertEquals(-5, Profile.of(slope(500, 0), 5, 270).legs().get(10).headwind(), 1e-6);
        assertEquals(0, Profile.of(slope(500, 0), 5, 0).legs().get(10).headwind(), 1e-6);
    }

    @Test
    void aGapIsBridgedAndSaid() {
        List<Sample> points = slope(500, 0);
        points.add(point(2500, 100, false));
        Profile p = Profile.of(points, 0, 0);
        RoadNote.Gap gap = (RoadNote.Gap) p.notes().get(0);
        assertEquals(1, p.notes().size());
        assertEquals(2000, gap.metres(), 1e-3);
        assertEquals(500, gap.at(), 1e-3);
        assertEquals(2500, p.metres(), 1e-3);
    }

    @Test
    void aVerticalWallIsSmoothedCutAndSaid() {
        List<Sample> points = slope(500, 0);
        points.add(point(500, 160, true));
        for (double m = 525; m <= 1000; m += 25) {
            points.add(point(m, 160, true));
        }
        Profile p = Profile.of(points, 0, 0);
        RoadNote.Wall wall = (RoadNote.Wall) p.notes().get(0);
        assertEquals(60, wall.height(), 1e-9);
        assertEquals(0, wall.within(), 1e-6);
        assertEquals(500, wall.at(), 1e-3);
        assertTrue(p.notes().get(1) instanceof RoadNote.Steep, p.notes().toString());
        p.legs().forEach(l -> assertTrue(Math.abs(l.gradient()) <= 0.3));
    }

    @Test
    void theHeightsOfStartAndFinishAreKept() {
        List<Sample> points = new ArrayList<>();
        for (int i = 0; i <= 80; i++) {
            points.add(point(25 * i, 100 + 8 * Math.sin(i / 6.0) + (i % 2), i > 0));
        }
        Profile p = Profile.of(points, 0, 0);
        double rise =
                p.legs().stream().mapToDouble(l -> l.gradient() * l.metres()).sum();
        assertEquals(points.get(80).altitudeMetres() - points.get(0).altitudeMetres(), rise, 1e-6);
    }

    @Test
    void missingHeightsAreFilledOrTakenAsFlat() {
        List<Sample> some = new ArrayList<>(slope(1000, 0.03));
        for (int i = 5; i < 12; i++) {
            some.set(i, point(25 * i, Double.NaN, true));
        }
        Profile filled = Profile.of(some, 0, 0);
        assertEquals(List.of(new RoadNote.Filled(7, 41)), filled.notes());
        filled.legs().forEach(l -> assertEquals(0.03, l.gradient(), 1e-6));
        List<Sample> none = new ArrayList<>();
        for (double m = 0; m <= 500; m += 25) {
            none.add(point(m, Double.NaN, true));
        }
        assertEquals(List.of(new RoadNote.Flat()), Profile.of(none, 0, 0).notes());
    }

    @Test
    void pointsThatMakeNoWayGiveNoLegs() {
        assertEquals(List.of(), Profile.of(List.of(), 0, 0).legs());
        assertEquals(List.of(), Profile.of(List.of(point(0, 1, false)), 0, 0).legs());
        Profile p = Profile.of(List.of(point(0, 1, false), point(0, 2, true)), 0, 0);
        assertEquals(List.of(), p.legs());
    }
}
