package chainage.demo;

import chainage.demo.FitFile.Leg;
import chainage.demo.FitFile.Senses;
import chainage.demo.FitFile.Sensor;
import chainage.demo.Outing.Form;
import chainage.demo.Outing.Packing;
import chainage.demo.Outing.Surface;
import chainage.demo.Trip.Moment;
import com.garmin.fit.Sport;
import com.garmin.fit.SubSport;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;

/** Every made file of the demo season, by path below {@code fixtures/season}. */
final class DemoSeason {
    static final long HEAD_UNIT = 70010001L;
    static final long OLD_COMPUTER = 70010002L;
    static final long WATCH = 70010003L;
    static final long POWER_METER = 31000417L;
    static final long SHIFTERS = 31000528L;
    static final long SPEED_SENSOR = 31000633L;
    static final long CADENCE_SENSOR = 31000744L;
    static final long TRAINER = 31000855L;

    // Device type numbers of the FIT profile (antplus_device_type), as the FIT SDK names them.
    private static final int FITNESS_EQUIPMENT = com.garmin.fit.AntplusDeviceType.FITNESS_EQUIPMENT;
    private static final List<Sensor> DUNLIN_SENSORS = List.of(
            new Sensor(com.garmin.fit.AntplusDeviceType.BIKE_POWER, POWER_METER),
            new Sensor(com.garmin.fit.AntplusDeviceType.SHIFTING, SHIFTERS));
    private static final List<Sensor> NATTERJACK_SENSORS = List.of(
            new Sensor(com.garmin.fit.AntplusDeviceType.BIKE_SPEED, SPEED_SENSOR),
            new Sensor(com.garmin.fit.AntplusDeviceType.BIKE_CADENCE, CADENCE_SENSOR));

    private static final String HOLIDAY = "rides/holiday.zip";
    private static final Instant MULTISPORT = Instant.parse("2026-05-31T08:00:00Z");
    private static final Instant RUN = Instant.parse("2026-05-03T09:00:00Z");
    private static final Instant TWIN_WITH_PHONE = Instant.parse("2026-04-26T10:00:00Z");
    private static final Instant TWIN_WITH_WATCH = Instant.parse("2026-05-30T07:50:00Z");
    private static final Instant CUT_SHORT = Instant.parse("2026-05-17T09:00:00Z");
    private static final Instant PLANNED = Instant.parse("2026-06-19T20:00:00Z");

    private final SortedMap<String, byte[]> files = new TreeMap<>();
    private final SortedMap<String, byte[]> holiday = new TreeMap<>();

    private DemoSeason() {}

    /** All of them, sorted by path. */
    static SortedMap<String, byte[]> files() {
        DemoSeason season = new DemoSeason();
        SeasonPlan.outings().forEach(season::add);
        season.addTheOthers();
        Indoors.addTo(season.files);
        season.files.put(HOLIDAY, Packed.zip(season.holiday));
        season.files.put(DemoWeather.FILE, DemoWeather.file());
        season.files.put(RidesTable.FILE, RidesTable.file());
        ClubMates.addTo(season.files);
        return season.files;
    }

    private void add(Outing outing) {
        Trip trip = Rider.ride(outing);
        byte[] content = switch (outing.form()) {
            case FIT -> fit(outing, trip);
            case TCX ->
                XmlFiles.tcx(
                        outing.start(),
                        trip,
                        outing.title(),
                        OLD_COMPUTER,
                        outing.bike().isDunlin(),
                        8);
            case GPX -> XmlFiles.gpx(outing.start(), trip, outing.title(), gpxType(outing), 7);
        };
        boolean gz = outing.packing() == Packing.GZ || outing.packing() == Packing.ZIP_GZ;
        String name = name(outing) + (gz ? ".gz" : "");
        byte[] packed = gz ? Packed.gzip(content) : content;
        if (outing.packing() == Packing.ZIP || outing.packing() == Packing.ZIP_GZ) {
            holiday.put("holiday/" + name, packed);
        } else {
            files.put("rides/" + folder(outing.form()) + "/" + name, packed);
        }
        if (outing.start().equals(TWIN_WITH_PHONE)) {
            // The phone was started a little later in the same jersey pocket.
            files.put(
                    "rides/phone/2026-04-26-1000.gpx",
                    XmlFiles.gpx(outing.start().plusSeconds(40), later(trip, 40), "", "cycling", 7));
        }
        if (outing.start().equals(Truth.STARTED_LATE)) {
            Instant begun = outing.start().plus(Truth.LATE);
            FitFile watch = new FitFile(begun, WATCH, List.of());
            Trip rest = later(trip, (int) Truth.LATE.toSeconds());
            watch.leg(new Leg(begun, Sport.CYCLING, SubSport.GENERIC, rest, Senses.WATCH), "none");
            files.put("rides/watch/" + stamp(begun) + ".fit", watch.close());
        }
        if (outing.start().equals(TWIN_WITH_WATCH)) {
            FitFile watch = new FitFile(outing.start().minusSeconds(25), WATCH, List.of());
            Trip seen = longer(trip, 1.007);
            watch.leg(
                    new Leg(outing.start().minusSeconds(25), Sport.CYCLING, SubSport.GENERIC, seen, Senses.WATCH),
                    "none");
            files.put("rides/watch/2026-05-30-0749.fit", watch.close());
        }
    }

    /** The same way so many degrees of longitude farther east. */
    private static Trip moved(Trip trip, double east) {
        return new Trip(
                trip.moments().stream()
                        .map(m -> new Moment(
                                m.metres(),
                                m.latitude(),
                                m.longitude() + east,
                                m.altitudeMetres(),
                                m.speed(),
                                m.watts(),
                                m.cadence(),
                                m.celsius()))
                        .toList(),
                trip.shifts(),
                trip.pauses(),
                trip.ascentMetres());
    }

    /** Natterjack went along on a voyage: a ride where clocks are half a day behind. */
    private static byte[] abroad() {
        Outing outing = new Outing(
                Truth.ABROAD,
                DemoBike.NATTERJACK,
                Truth.ABROAD_KILOMETRES,
                Form.FIT,
                Packing.GZ,
                Surface.GRAVEL,
                "none",
                "");
        FitFile file = new FitFile(outing.start(), HEAD_UNIT, NATTERJACK_SENSORS, Truth.ABROAD_OFFSET);
        Trip trip = moved(Rider.ride(outing), -105);
        file.leg(
                new Leg(
                        outing.start(),
                        Sport.CYCLING,
                        SubSport.GRAVEL_CYCLING,
                        trip,
                        new Senses(false, true, false, true, 5)),
                "none");
        return Packed.gzip(file.close());
    }

    private static String folder(Form form) {
        return switch (form) {
            case FIT -> "computer";
            case TCX -> "old-computer";
            case GPX -> "phone";
        };
    }

    /**
     * Date and time; files of the phone and the old computer know no sensor, so the rider puts the bike in the name, save
     * once.
     */
    private static String name(Outing outing) {
        String stamp = stamp(outing.start());
        boolean says = outing.form() != Form.FIT
                && !outing.bike().isDunlin()
                && !outing.start().equals(Truth.UNNAMED);
        return stamp
                + (says ? "-natterjack" : "")
                + switch (outing.form()) {
                    case FIT -> ".fit";
                    case TCX -> ".tcx";
                    case GPX -> ".gpx";
                };
    }

    static String stamp(Instant start) {
        return start.toString().substring(0, 16).replace('T', '-').replace(":", "");
    }

    /** Phones differ: on the road bike the rider chose a sport, on the gravel bike mostly not. */
    private static String gpxType(Outing outing) {
        if (outing.bike().isDunlin()) {
            return outing.start().isBefore(MULTISPORT) ? "cycling" : "Cycling";
        }
        return outing.packing() == Packing.GZ ? "cycling" : "";
    }

    private static byte[] fit(Outing outing, Trip trip) {
        boolean dunlin = outing.bike().isDunlin();
        boolean trainer = outing.surface() == Surface.TRAINER;
        boolean simulated = outing.surface() == Surface.SIMULATED;
        List<Sensor> sensors = new ArrayList<>(dunlin ? DUNLIN_SENSORS : NATTERJACK_SENSORS);
        if (trainer || simulated) {
            sensors.add(new Sensor(FITNESS_EQUIPMENT, TRAINER));
        }
        SubSport subSport = switch (outing.surface()) {
            case ROAD -> SubSport.ROAD;
            case GRAVEL -> SubSport.GRAVEL_CYCLING;
            case TRAINER -> SubSport.INDOOR_CYCLING;
            case SIMULATED -> SubSport.VIRTUAL_ACTIVITY;
        };
        FitFile file = new FitFile(outing.start(), HEAD_UNIT, sensors);
        Senses senses = new Senses(dunlin, true, dunlin, !trainer, 5);
        file.leg(new Leg(outing.start(), Sport.CYCLING, subSport, trip, senses), outing.sky());
        return file.close();
    }

    private void addTheOthers() {
        files.put("rides/computer/" + stamp(MULTISPORT) + ".fit", multisport());
        files.put("rides/computer/" + stamp(Truth.ABROAD) + ".fit.gz", abroad());
        FitFile run = new FitFile(RUN, WATCH, List.of());
        run.leg(new Leg(RUN, Sport.RUNNING, SubSport.GENERIC, onFoot(RUN, 8, 2.9), Senses.WATCH), "none");
        files.put("rides/watch/" + stamp(RUN) + ".fit", run.close());

        Outing lost = road(CUT_SHORT, 20);
        byte[] whole = fit(lost, Rider.ride(lost));
        // Cut inside the first definition: a battery that died. Nothing in it can be saved.
        files.put("rides/computer/" + stamp(CUT_SHORT) + ".fit", Arrays.copyOf(whole, 30));

        files.put(
                "rides/phone/plan-for-the-long-one.gpx",
                XmlFiles.plannedRoute(Rider.ride(road(PLANNED, 60)), "The long one"));
    }

    /** Swim, change, ride, change, run: one file, five sessions, of which one wears a chain. */
    private static byte[] multisport() {
        List<Sensor> sensors = DUNLIN_SENSORS;
        FitFile file = new FitFile(MULTISPORT, HEAD_UNIT, sensors);
        Instant at = MULTISPORT;
        at = leg(file, at, Sport.SWIMMING, SubSport.OPEN_WATER, onFoot(at, 1.5, 0.95), Senses.WATCH);
        at = leg(file, at, Sport.TRANSITION, SubSport.SWIM_TO_BIKE_TRANSITION, onFoot(at, 0.2, 1.2), Senses.WATCH);
        Trip bikeLeg = Rider.ride(road(at, 40));
        at = leg(file, at, Sport.CYCLING, SubSport.ROAD, bikeLeg, new Senses(true, true, true, true, 5));
        at = leg(file, at, Sport.TRANSITION, SubSport.BIKE_TO_RUN_TRANSITION, onFoot(at, 0.2, 1.4), Senses.WATCH);
        leg(file, at, Sport.RUNNING, SubSport.GENERIC, onFoot(at, 10, 3.1), Senses.WATCH);
        return file.close();
    }

    private static Instant leg(FitFile file, Instant at, Sport sport, SubSport subSport, Trip trip, Senses senses) {
        file.leg(new Leg(at, sport, subSport, trip, senses), "none");
        return at.plusSeconds(trip.seconds());
    }

    private static Outing road(Instant start, double kilometres) {
        return new Outing(start, DemoBike.DUNLIN, kilometres, Form.FIT, Packing.PLAIN, Surface.ROAD, "none", "");
    }

    /** Even speed, no bike. */
    private static Trip onFoot(Instant start, double kilometres, double metresPerSecond) {
        Course course = new Course(kilometres * 1000, 0.01, new java.util.Random(start.getEpochSecond()));
        List<Moment> moments = new ArrayList<>();
        for (double metres = 0; metres < course.lengthMetres(); metres += metresPerSecond) {
            moments.add(new Moment(
                    metres,
                    course.latitude(metres, 0),
                    course.longitude(metres, 0),
                    course.altitudeMetres(metres),
                    metresPerSecond,
                    0,
                    0,
                    16));
        }
        return new Trip(moments, List.of(), List.of(), 0);
    }

    /** The same way seen by a device that counts the distance differently. */
    private static Trip longer(Trip trip, double factor) {
        List<Moment> moments = trip.moments().stream()
                .map(m -> new Moment(
                        m.metres() * factor,
                        m.latitude() + 0.00001,
                        m.longitude() - 0.00001,
                        m.altitudeMetres() + 3,
                        m.speed() * factor,
                        0,
                        0,
                        m.celsius() + 2))
                .toList();
        return new Trip(moments, List.of(), List.of(), trip.ascentMetres());
    }

    /** The same way by a device that was started some seconds later. */
    private static Trip later(Trip trip, int seconds) {
        double before = trip.moments().get(seconds).metres();
        return new Trip(
                trip.moments().subList(seconds, trip.moments().size()).stream()
                        .map(m -> new Moment(
                                m.metres() - before,
                                m.latitude(),
                                m.longitude(),
                                m.altitudeMetres(),
                                m.speed(),
                                m.watts(),
                                m.cadence(),
                                m.celsius()))
                        .toList(),
                List.of(),
                trip.pauses().stream()
                        .map(p -> new Trip.Pause(p.from() - seconds, p.to() - seconds))
                        .toList(),
                trip.ascentMetres());
    }

    /** What the rider stated and noted. */
    static final List<String> WRITTEN_BY_HAND = List.of("logbook.txt", "setup.txt");

    /** Sorted paths, one a line, of what lies in a packed folder, since a jar cannot be listed. */
    static String index(Map<String, byte[]> files) {
        List<String> paths = new ArrayList<>(files.keySet());
        paths.addAll(WRITTEN_BY_HAND);
        paths.sort(null);
        return String.join("\n", paths) + "\n";
    }
}
