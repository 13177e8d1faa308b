package chainage.store.row;

import chainage.ride.Pedalling;
import chainage.ride.Ride;
import java.time.Instant;

/**
 * What a ride's figures may be, wherever they come from; far beyond any ride, and short of what no sum can hold. Our
 * guesses. A figure that is not known is no figure out of bounds.
 */
final class RideBounds {
    private static final Instant FIRST = Instant.parse("1900-01-01T00:00:00Z");
    private static final Instant LAST = Instant.parse("2200-01-01T00:00:00Z");

    /** Thirty years. */
    private static final double SECONDS = 1e9;

    private static final double METRES = 1e9;
    private static final double JOULES = 1e12;
    private static final double CELSIUS = 1e4;
    private static final double WATTS = 1e5;
    private static final int TEETH = 1_000;

    private RideBounds() {}

    /**
     * Answers the ride as it is.
     *
     * @throws IllegalArgumentException when one of its figures cannot be
     */
    static Ride within(Ride ride) {
        time("start", ride.start());
        figure("elapsed", ride.elapsedSeconds(), 0, SECONDS);
        figure("moving", ride.movingSeconds(), 0, SECONDS);
        figure("metres", ride.distance().metres(), 0, METRES);
        Ride.Effort effort = ride.effort();
        figure("ascent", effort.ascentMetres(), 0, METRES);
        figure("celsius", effort.celsius(), -CELSIUS, CELSIUS);
        figure("watts", effort.watts(), 0, WATTS);
        figure("speed", effort.medianSpeed(), 0, METRES);
        figure("samples", effort.samples(), 0, Integer.MAX_VALUE);
        Pedalling pedalling = ride.pedalling();
        figure("coasting", pedalling.coastingSeconds(), 0, SECONDS);
        figure("coasting", pedalling.coastingMetres(), 0, METRES);
        for (Pedalling.Row row : pedalling.rows()) {
            figure("ring", row.ring(), 0, TEETH);
            figure("cog", row.cog(), 0, TEETH);
            figure("development", row.development(), 0, METRES);
            figure("pedalled", row.seconds(), 0, SECONDS);
            figure("revolutions", row.revolutions(), 0, SECONDS);
            figure("joules", row.joules(), 0, JOULES);
            figure("pedalled", row.metres(), 0, METRES);
        }
        for (Ride.WeatherReport report : ride.weather()) {
            time("weather", report.at());
            figure("celsius", report.celsius(), -CELSIUS, CELSIUS);
            figure("humidity", report.humidityPercent(), 0, CELSIUS);
        }
        return ride;
    }

    /** The same of a place of its track. */
    static Ride.Waypoint within(Ride.Waypoint point) {
        time("track", point.at());
        figure("latitude", point.latitude(), -90, 90);
        figure("longitude", point.longitude(), -180, 180);
        figure("track", point.metres(), 0, METRES);
        if (Double.isNaN(point.latitude()) != Double.isNaN(point.longitude())) {
            throw new IllegalArgumentException("half a place");
        }
        return point;
    }

    private static void time(String what, Instant at) {
        if (at.isBefore(FIRST) || !at.isBefore(LAST)) {
            throw new IllegalArgumentException(what + " " + at);
        }
    }

    private static void figure(String what, double figure, double least, double most) {
        if (figure < least || figure > most) {
            throw new IllegalArgumentException(what + " " + figure);
        }
    }
}
