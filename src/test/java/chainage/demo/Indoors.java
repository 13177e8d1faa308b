package chainage.demo;

import chainage.demo.FitFile.Leg;
import chainage.demo.FitFile.Senses;
import chainage.demo.FitFile.Sensor;
import chainage.demo.Outing.Form;
import chainage.demo.Outing.Packing;
import chainage.demo.Outing.Surface;
import chainage.demo.Trip.Moment;
import com.garmin.fit.AntplusDeviceType;
import com.garmin.fit.Sport;
import com.garmin.fit.SubSport;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.SortedMap;

/**
 * Indoor rides that two power meters record: pedals on the bike computer, and the trainer on a tablet of its own, whose
 * clock is some seconds ahead. Two chains take turns, each on a product of its own; what a chain takes of the power grows
 * by a straight line with what was ridden on it.
 */
final class Indoors {
    static final long PEDALS = 31000966L;
    static final long TABLET = 70010004L;

    private static final double KILOMETRES = 36;
    private static final int EVERY_SECONDS = 3;
    /** How far the trainer reads high; how far the two wander from ride to ride, as a standard deviation. */
    private static final double HIGH = 0.007;

    private static final double WANDERS = 0.001;

    /** Before this evening Russet was treated anew, as the logbook has it. */
    private static final String TREATED_AGAIN = "2026-08-13";

    /** One ride: its day, its chain, and whether the trainer took its zero anew on the way. */
    private record Evening(String day, Truth.Dressed on, boolean broken) {}

    private static final List<Evening> EVENINGS = List.of(
            new Evening("2026-03-05", Truth.RUSSET, false),
            new Evening("2026-03-12", Truth.TEAL, false),
            new Evening("2026-03-19", Truth.TEAL, false),
            new Evening("2026-04-02", Truth.RUSSET, false),
            new Evening("2026-04-16", Truth.RUSSET, false),
            new Evening("2026-04-23", Truth.TEAL, false),
            new Evening("2026-05-07", Truth.RUSSET, false),
            new Evening(Truth.ZERO_TAKEN_ANEW, Truth.TEAL, true),
            new Evening("2026-05-28", Truth.TEAL, false),
            new Evening("2026-06-11", Truth.RUSSET, false),
            new Evening("2026-06-25", Truth.TEAL, false),
            new Evening("2026-07-09", Truth.RUSSET, false),
            new Evening("2026-07-23", Truth.RUSSET, false),
            new Evening("2026-08-06", Truth.RUSSET, false),
            new Evening(TREATED_AGAIN, Truth.RUSSET, false));

    private Indoors() {}

    static void addTo(SortedMap<String, byte[]> files) {
        Map<Truth.Dressed, Double> ridden = new HashMap<>();
        for (Evening evening : EVENINGS) {
            Instant start = Instant.parse(evening.day() + "T18:00:00Z");
            Outing outing =
                    new Outing(start, DemoBike.DUNLIN, KILOMETRES, Form.FIT, Packing.GZ, Surface.TRAINER, "none", "");
            Trip trip = Rider.ride(outing);
            Random random = new Random(start.getEpochSecond());
            if (evening.day().equals(TREATED_AGAIN)) {
                ridden.remove(evening.on());
            }
            double before = ridden.merge(evening.on(), KILOMETRES, Double::sum) - KILOMETRES;
            double lost = evening.on().lost(before + KILOMETRES / 2);
            double day = 1 + HIGH + WANDERS * random.nextGaussian();
            String name = evening.day() + "-1800.fit.gz";
            files.put(
                    "rides/computer/" + name,
                    file(start, DemoSeason.HEAD_UNIT, AntplusDeviceType.BIKE_POWER, PEDALS, seen(trip, 1, 3, 0)));
            files.put(
                    "rides/tablet/" + name,
                    file(
                            start.plusSeconds(17 + random.nextInt(9)),
                            TABLET,
                            AntplusDeviceType.FITNESS_EQUIPMENT,
                            DemoSeason.TRAINER,
                            seen(trip, day * (1 - lost), 8, evening.broken() ? 13 : 0)));
        }
    }

    private static byte[] file(Instant start, long writer, int type, long serial, Trip trip) {
        FitFile file = new FitFile(start, writer, List.of(new Sensor(type, serial)));
        Senses senses = new Senses(true, true, false, false, EVERY_SECONDS);
        file.leg(new Leg(start, Sport.CYCLING, SubSport.INDOOR_CYCLING, trip, senses), "none");
        return Packed.gzip(file.close());
    }

    /** As a meter shows it: so much of the power, smoothed over so many seconds, and a step from half-way on. */
    private static Trip seen(Trip trip, double gain, int smoothing, int step) {
        List<Moment> moments = new ArrayList<>();
        for (int t = 0; t < trip.moments().size(); t++) {
            Moment m = trip.moments().get(t);
            double watts = trip.moments().subList(Math.max(0, t + 1 - smoothing), t + 1).stream()
                    .mapToInt(Moment::watts)
                    .average()
                    .orElse(0);
            moments.add(new Moment(
                    m.metres(),
                    m.latitude(),
                    m.longitude(),
                    m.altitudeMetres(),
                    m.speed(),
                    (int) Math.round(gain * watts + (t > trip.moments().size() / 2 ? step : 0)),
                    m.cadence(),
                    m.celsius()));
        }
        return new Trip(moments, List.of(), List.of(), 0);
    }
}
