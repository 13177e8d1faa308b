package chainage.course;

import chainage.ride.Sample;
import java.util.ArrayList;
import java.util.List;
import java.util.function.IntFunction;
import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicData;
import net.sf.geographiclib.GeodesicMask;

/**
 * The road of a course file: legs of equal length with smoothed heights, and what had to be decided about it.
 *
 * @param legs in order; empty when the points make no way
 * @param notes gaps bridged, walls flattened, heights missing
 */
public record Profile(List<Leg> legs, List<RoadNote> notes) {
    /** Length of a leg, metres (our choice). */
    private static final double STEP = 10;

    /** Heights are averaged over so much of the way: positions and heights wander by metres (our choice). */
    public static final double SMOOTHED_METRES = 100;

    /** Steeper than any paved road; beyond, after smoothing, it is an error of heights (our guess). */
    public static final double STEEPEST = 0.30;

    /** A rise like this between two points is no road, whatever lies between them (our guess). */
    private static final double WALL = 0.45;

    private static final double WALL_METRES = 5;

    /** Farther from one point to the next the way between is unknown: planned routes have a point at every bend. */
    private static final double GAP_METRES = 1000;

    private static final int MOST_NOTES = 3;
    private static final int MOST_LEGS = 200_000;

    public Profile {
        legs = List.copyOf(legs);
        notes = List.copyOf(notes);
    }

    /** Metres along it. */
    public double metres() {
        return legs.stream().mapToDouble(Leg::metres).sum();
    }

    /** Metres climbed, smoothed. */
    public double ascentMetres() {
        return legs.stream()
                .mapToDouble(l -> Math.max(0, l.metres() * Math.sin(Math.atan(l.gradient()))))
                .sum();
    }

    /**
     * Reads the points of a course.
     *
     * @param points in order
     * @param wind metres a second
     * @param windFrom where it comes from, degrees from north
     */
    public static Profile of(List<Sample> points, double wind, double windFrom) {
        Way way = new Way();
        points.forEach(way::add);
        return way.profile(wind, windFrom);
    }

    /** The way as it is read: cumulated metres with a height and a heading each. */
    private static final class Way {
        private final List<Double> at = new ArrayList<>();
        private final List<Double> heights = new ArrayList<>();
        private final List<Double> headings = new ArrayList<>();
        private final List<RoadNote> gaps = new ArrayList<>();
        private final List<RoadNote> walls = new ArrayList<>();
        private int unplaced;
        private int heightless;
        private double latitude = Double.NaN;
        private double longitude = Double.NaN;
        private double odometer = Double.NaN;

        void add(Sample s) {
            boolean placed = Math.abs(s.latitude()) <= 90 && Math.abs(s.longitude()) <= 180;
            boolean counted = s.odometerMetres() >= 0;
            double heading = Double.NaN;
            double step = at.isEmpty() ? 0 : Double.NaN;
            if (placed && !Double.isNaN(latitude)) {
                GeodesicData way = Geodesic.WGS84.Inverse(
                        latitude, longitude, s.latitude(), s.longitude(), GeodesicMask.DISTANCE | GeodesicMask.AZIMUTH);
                step = way.s12;
                heading = way.azi1;
            }
            if (counted && s.odometerMetres() >= odometer) {
                step = s.odometerMetres() - odometer;
            }
            if (Double.isNaN(step) || (!placed && !counted)) {
                unplaced++;
                return;
            }
            note(s, step);
            heightless += Double.isNaN(s.altitudeMetres()) ? 1 : 0;
            at.add((at.isEmpty() ? 0 : at.get(at.size() - 1)) + step);
            heights.add(s.altitudeMetres());
            headings.add(heading);
            latitude = placed ? s.latitude() : latitude;
            longitude = placed ? s.longitude() : longitude;
            odometer = counted ? s.odometerMetres() : Double.NaN;
        }

        private void note(Sample s, double step) {
            if (at.isEmpty()) {
                return;
            }
            double here = at.get(at.size() - 1);
            if (step > GAP_METRES || (!s.joined() && step > SMOOTHED_METRES)) {
                gaps.add(new RoadNote.Gap(step, here));
            }
            double rise = s.altitudeMetres() - heights.get(heights.size() - 1);
            if (Math.abs(rise) > WALL_METRES && Math.abs(rise) > WALL * step) {
                walls.add(new RoadNote.Wall(Math.abs(rise), step, here));
            }
        }

        Profile profile(double wind, double windFrom) {
            List<RoadNote> notes = new ArrayList<>();
            if (unplaced > 0) {
                notes.add(new RoadNote.Unplaced(unplaced));
            }
            some(gaps, RoadNote.MoreGaps::new, notes);
            some(walls, RoadNote.MoreWalls::new, notes);
            double length = at.isEmpty() ? 0 : at.get(at.size() - 1);
            int n = (int) Math.min(MOST_LEGS, Math.max(1, Math.round(length / STEP)));
            if (!(length >= STEP)) {
                return new Profile(List.of(), notes);
            }
            fillHeights(notes);
            double step = length / n;
            double[] smooth = smoothed(n, step);
            List<Leg> legs = new ArrayList<>();
            double cut = 0;
            int place = 0;
            for (int i = 0; i < n; i++) {
                while (place < at.size() - 1 && at.get(place) <= i * step) {
                    place++;
                }
                double rise = (smooth[i + 1] - smooth[i]) / step;
                double steep = Math.max(-STEEPEST, Math.min(STEEPEST, rise));
                cut += steep == rise ? 0 : step;
                double heading = headings.get(place);
                double ahead =
                        wind == 0 || Double.isNaN(heading) ? 0 : wind * Math.cos(Math.toRadians(heading - windFrom));
                legs.add(new Leg(step, steep, ahead));
            }
            if (cut > 0) {
                notes.add(new RoadNote.Steep(cut));
            }
            return new Profile(legs, notes);
        }

        private static void some(List<RoadNote> found, IntFunction<RoadNote> more, List<RoadNote> notes) {
            notes.addAll(found.subList(0, Math.min(MOST_NOTES, found.size())));
            if (found.size() > MOST_NOTES) {
                notes.add(more.apply(found.size() - MOST_NOTES));
            }
        }

        /** Missing heights lie in a straight line between those that are there. */
        private void fillHeights(List<RoadNote> notes) {
            if (heightless == heights.size()) {
                heights.replaceAll(h -> 0.0);
                notes.add(new RoadNote.Flat());
                return;
            }
            if (heightless > 0) {
                notes.add(new RoadNote.Filled(heightless, heights.size()));
            }
            int last = -1;
            for (int i = 0; i < heights.size(); i++) {
                if (Double.isNaN(heights.get(i))) {
                    continue;
                }
                for (int k = last + 1; k < i; k++) {
                    double from = last < 0 ? heights.get(i) : heights.get(last);
                    double way = last < 0 ? 0 : at.get(i) - at.get(last);
                    double share = way > 0 ? (at.get(k) - at.get(last)) / way : 0;
                    heights.set(k, from + share * (heights.get(i) - from));
                }
                last = i;
            }
            for (int k = last + 1; k < heights.size(); k++) {
                heights.set(k, heights.get(last));
            }
        }

        /** Heights at every step's end: the mean over half the window either way, less of it near the ends. */
        private double[] smoothed(int n, double step) {
            double[] sums = new double[n + 2];
            int place = 0;
            double[] raw = new double[n + 1];
            for (int i = 0; i <= n; i++) {
                double x = Math.min(i * step, at.get(at.size() - 1));
                while (place < at.size() - 2 && at.get(place + 1) < x) {
                    place++;
                }
                double way = at.get(place + 1) - at.get(place);
                double share = way > 0 ? Math.min(1, (x - at.get(place)) / way) : 1;
                raw[i] = heights.get(place) + share * (heights.get(place + 1) - heights.get(place));
                sums[i + 1] = sums[i] + raw[i];
            }
            int half = (int) Math.round(SMOOTHED_METRES / 2 / step);
            double[] smooth = new double[n + 1];
            for (int i = 0; i <= n; i++) {
                // As far on both sides as the ends allow, so that start and finish keep their heights.
                int reach = Math.min(half, Math.min(i, n - i));
                smooth[i] = (sums[i + reach + 1] - sums[i - reach]) / (2 * reach + 1);
            }
            return smooth;
        }
    }
}
