package chainage;

import chainage.quantity.ContentDigest;
import chainage.quantity.RideKey;
import chainage.ride.FiledRide;
import chainage.ride.Pedalling;
import chainage.ride.Ride;
import chainage.ride.RideFormat;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Rides made by hand: start from a plain one and change what matters to the test. */
public record TestRides(
        String name,
        RideFormat format,
        Instant start,
        double seconds,
        double metres,
        Ride.Activity activity,
        double medianSpeed,
        List<Ride.Device> devices,
        List<Ride.WeatherReport> weather,
        Pedalling pedalling,
        int samples,
        List<String> paths,
        @Nullable String salvaged) {

    /** A FIT road ride at 8 m/s. */
    public static TestRides ride(String name, String start, double km) {
        return new TestRides(
                name,
                RideFormat.FIT,
                Instant.parse(start),
                km * 1000 / 8,
                km * 1000,
                new Ride.Activity("cycling", "", Ride.Activity.Kind.CYCLING, false),
                8,
                List.of(),
                List.of(),
                Pedalling.NONE,
                1000,
                List.of("/rides/" + name + ".fit"),
                null);
    }

    public TestRides format(RideFormat f) {
        return new TestRides(
                name,
                f,
                start,
                seconds,
                metres,
                activity,
                medianSpeed,
                devices,
                weather,
                pedalling,
                samples,
                paths,
                salvaged);
    }

    public TestRides sport(String sport, String subSport, Ride.Activity.Kind kind, boolean indoor) {
        Ride.Activity a = new Ride.Activity(sport, subSport, kind, indoor);
        return new TestRides(
                name,
                format,
                start,
                seconds,
                metres,
                a,
                medianSpeed,
                devices,
                weather,
                pedalling,
                samples,
                paths,
                salvaged);
    }

    public TestRides speed(double metresPerSecond) {
        return new TestRides(
                name,
                format,
                start,
                seconds,
                metres,
                activity,
                metresPerSecond,
                devices,
                weather,
                pedalling,
                samples,
                paths,
                salvaged);
    }

    public TestRides lasting(double newSeconds) {
        return new TestRides(
                name,
                format,
                start,
                newSeconds,
                metres,
                activity,
                medianSpeed,
                devices,
                weather,
                pedalling,
                samples,
                paths,
                salvaged);
    }

    public TestRides sensor(String type, String serial) {
        List<Ride.Device> more = new ArrayList<>(devices);
        more.add(new Ride.Device(type, serial));
        return new TestRides(
                name,
                format,
                start,
                seconds,
                metres,
                activity,
                medianSpeed,
                more,
                weather,
                pedalling,
                samples,
                paths,
                salvaged);
    }

    public TestRides weather(String at, boolean current, String condition) {
        List<Ride.WeatherReport> more = new ArrayList<>(weather);
        more.add(new Ride.WeatherReport(Instant.parse(at), current, condition, 10, Double.NaN));
        return new TestRides(
                name,
                format,
                start,
                seconds,
                metres,
                activity,
                medianSpeed,
                devices,
                more,
                pedalling,
                samples,
                paths,
                salvaged);
    }

    public TestRides pedalled(Pedalling p) {
        return new TestRides(
                name,
                format,
                start,
                seconds,
                metres,
                activity,
                medianSpeed,
                devices,
                weather,
                p,
                samples,
                paths,
                salvaged);
    }

    public TestRides path(String path) {
        return new TestRides(
                name,
                format,
                start,
                seconds,
                metres,
                activity,
                medianSpeed,
                devices,
                weather,
                pedalling,
                samples,
                List.of(path),
                salvaged);
    }

    public TestRides dense(int newSamples) {
        return new TestRides(
                name,
                format,
                start,
                seconds,
                metres,
                activity,
                medianSpeed,
                devices,
                weather,
                pedalling,
                newSamples,
                paths,
                salvaged);
    }

    public TestRides over(double newMetres) {
        return new TestRides(
                name,
                format,
                start,
                seconds,
                newMetres,
                activity,
                medianSpeed,
                devices,
                weather,
                pedalling,
                samples,
                paths,
                salvaged);
    }

    public TestRides salvagedFrom(String lost) {
        return new TestRides(
                name,
                format,
                start,
                seconds,
                metres,
                activity,
                medianSpeed,
                devices,
                weather,
                pedalling,
                samples,
                paths,
                lost);
    }

    /** The ride, filed under its path; its digest comes from its name. */
    public FiledRide filed() {
        ContentDigest digest = ContentDigest.of(name.getBytes(StandardCharsets.UTF_8));
        Ride ride = new Ride(
                new RideKey(digest, 0),
                format,
                start,
                seconds,
                seconds,
                new Ride.Distance(metres, metres > 0 ? Ride.MetresFrom.DEVICE_TOTAL : Ride.MetresFrom.NONE),
                new Ride.Effort(Double.NaN, Double.NaN, Double.NaN, medianSpeed, samples),
                activity,
                pedalling,
                devices,
                weather,
                new Ride.Labels("", "", ""),
                List.of(),
                List.of(),
                salvaged);
        return new FiledRide(ride, paths);
    }

    public String id() {
        return filed().id();
    }
}
