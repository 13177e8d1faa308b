package chainage;

import chainage.quantity.ContentDigest;
import chainage.quantity.RideKey;
import chainage.ride.FiledRide;
import chainage.ride.Pedalling;
import chainage.ride.PowerTrace;
import chainage.ride.Ride;
import chainage.ride.RideFormat;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/** Rides made by hand: start from a plain one and change what matters to the test. Each change gives a new one. */
public final class TestRides implements Cloneable {
    private final String name;
    private final Instant start;
    private RideFormat format = RideFormat.FIT;
    private double seconds;
    private double metres;
    private Ride.Activity activity = new Ride.Activity("cycling", "", Ride.Activity.Kind.CYCLING, false);
    private double medianSpeed = 8;
    private double watts = Double.NaN;
    private List<Ride.Device> devices = List.of();
    private List<Ride.WeatherReport> weather = List.of();
    private Pedalling pedalling = Pedalling.NONE;
    private PowerTrace recorded = PowerTrace.NONE;
    private int samples = 1000;
    private String title = "";
    private List<Ride.Waypoint> trace = List.of();
    private List<String> paths;
    private @Nullable String salvaged;
    private @Nullable ZoneOffset offset;

    private TestRides(String name, Instant start, double metres) {
        this.name = name;
        this.start = start;
        this.metres = metres;
        this.seconds = metres / 8;
        this.paths = List.of("/rides/" + name + ".fit");
    }

    /** A FIT road ride at 8 m/s; its digest comes from its name. */
    public static TestRides ride(String name, String start, double km) {
        return new TestRides(name, Instant.parse(start), km * 1000);
    }

    private TestRides but(Consumer<TestRides> change) {
        try {
            TestRides copy = (TestRides) clone();
            change.accept(copy);
            return copy;
        } catch (CloneNotSupportedException e) {
            throw new AssertionError(e);
        }
    }

    public Instant start() {
        return start;
    }

    public double seconds() {
        return seconds;
    }

    public double metres() {
        return metres;
    }

    public TestRides format(RideFormat f) {
        return but(r -> r.format = f);
    }

    public TestRides sport(String sport, String subSport, Ride.Activity.Kind kind, boolean indoor) {
        return but(r -> r.activity = new Ride.Activity(sport, subSport, kind, indoor));
    }

    public TestRides speed(double metresPerSecond) {
        return but(r -> r.medianSpeed = metresPerSecond);
    }

    public TestRides power(double meanWatts) {
        return but(r -> r.watts = meanWatts);
    }

    /** Power by the minute. */
    public TestRides recorded(PowerTrace trace) {
        return but(r -> r.recorded = trace);
    }

    public TestRides lasting(double newSeconds) {
        return but(r -> r.seconds = newSeconds);
    }

    public TestRides over(double newMetres) {
        return but(r -> r.metres = newMetres);
    }

    public TestRides sensor(String type, String serial) {
        return but(r -> r.devices = plus(r.devices, new Ride.Device(type, serial)));
    }

    public TestRides weather(String at, boolean current, String condition) {
        return but(r -> r.weather =
                plus(r.weather, new Ride.WeatherReport(Instant.parse(at), current, condition, 10, Double.NaN)));
    }

    public TestRides titled(String newTitle) {
        return but(r -> r.title = newTitle);
    }

    /** Spent at one place, all of it. */
    public TestRides at(double latitude, double longitude) {
        return but(r -> r.trace = List.of(
                new Ride.Waypoint(r.start, latitude, longitude, 0),
                new Ride.Waypoint(r.start.plusSeconds(Math.round(r.seconds)), latitude, longitude, r.metres)));
    }

    public TestRides pedalled(Pedalling p) {
        return but(r -> r.pedalling = p);
    }

    public TestRides path(String path) {
        return but(r -> r.paths = List.of(path));
    }

    public TestRides dense(int newSamples) {
        return but(r -> r.samples = newSamples);
    }

    /** In a file that states how far its local time is from UTC. */
    public TestRides local(String newOffset) {
        return but(r -> r.offset = ZoneOffset.of(newOffset));
    }

    public TestRides salvagedFrom(String lost) {
        return but(r -> r.salvaged = lost);
    }

    private static <T> List<T> plus(List<T> list, T more) {
        List<T> longer = new ArrayList<>(list);
        longer.add(more);
        return longer;
    }

    /** The ride, filed under its path. */
    public FiledRide filed() {
        ContentDigest digest = ContentDigest.of(name.getBytes(StandardCharsets.UTF_8));
        Ride ride = new Ride(
                new RideKey(digest, 0),
                format,
                start,
                seconds,
                seconds,
                new Ride.Distance(metres, metres > 0 ? Ride.MetresFrom.DEVICE_TOTAL : Ride.MetresFrom.NONE),
                new Ride.Effort(Double.NaN, Double.NaN, watts, medianSpeed, samples),
                activity,
                pedalling,
                devices,
                weather,
                new Ride.Labels(title, "", ""),
                trace,
                List.of(),
                salvaged,
                offset);
        return new FiledRide(ride.withPower(recorded), paths);
    }

    public String id() {
        return filed().id();
    }
}
