package chainage.exposure;

import chainage.ledger.Event;
import chainage.ride.Pedalling;
import chainage.ride.Ride;
import org.jspecify.annotations.Nullable;

/**
 * The metres that count for the chain, and where they came from.
 *
 * <p>Outdoors they are the ride's own. Indoors the distance of a simulated road is not the chain's, so where the
 * cadence is known they come from the crank's revolutions: by the stated gear, else by the reference gear.
 *
 * @param metres 0 or more
 * @param from what they rest on
 */
public record ChainMetres(double metres, From from) {
    /** What the metres of a chain rest on. */
    public enum From {
        /** The ride's own distance. */
        RIDE,
        /** Crank turns, each gear stated. */
        GEARS,
        /** Crank turns, the reference gear taken where none is stated. */
        REFERENCE_GEAR
    }

    /** A ride is counted by its cranks when they turned for at least this share of its time moving; our guess. */
    private static final double PEDALLED_SHARE = 0.5;

    static ChainMetres of(Ride ride, Event.@Nullable BikeDescribed bike, Factors factors) {
        Pedalling pedalling = ride.pedalling();
        boolean byCranks = ride.activity().indoor() || ride.distance().metres() == 0;
        if (!byCranks
                || pedalling.revolutions() == 0
                || pedalledSeconds(pedalling) < PEDALLED_SHARE * ride.movingSeconds()) {
            return new ChainMetres(ride.distance().metres(), From.RIDE);
        }
        double wheel = bike == null || bike.circumferenceMetres() == null
                ? factors.value("wheel.circumference")
                : bike.circumferenceMetres();
        double metres = 0;
        boolean allGears = true;
        for (Pedalling.Row row : pedalling.rows()) {
            boolean gear = row.ring() > 0 && row.cog() > 0;
            allGears &= gear;
            double development = gear ? wheel * row.ring() / row.cog() : factors.value("indoor.development");
            metres += row.revolutions() * development;
        }
        return new ChainMetres(metres, allGears ? From.GEARS : From.REFERENCE_GEAR);
    }

    private static double pedalledSeconds(Pedalling pedalling) {
        return pedalling.rows().stream().mapToDouble(Pedalling.Row::seconds).sum() + pedalling.coastingSeconds();
    }
}
