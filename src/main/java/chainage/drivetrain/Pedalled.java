package chainage.drivetrain;

import chainage.ride.Pedalling;
import chainage.ride.Ride;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a ride's cranks sent into the chain, gear by gear, and how much of the ride that rests on.
 *
 * @param strokes by gear; empty where nothing says how hard
 * @param scale what the strokes are multiplied by so that they stand for the whole ride; 1 when they cover it
 * @param usable share of the ride's crank energy whose gear is known, 0 to 1
 * @param from what it rests on, the most telling first; never empty
 */
public record Pedalled(List<Stroke> strokes, double scale, double usable, List<LoadReason> from) {
    /** A table that holds less of the energy than this lacks cadence in places (our choice). */
    private static final double COMPLETE = 0.9;

    /**
     * Pedalling in one gear.
     *
     * @param gear the gear, or the one taken in its place
     * @param how found; {@code NONE} when the gear is taken for want of a better one
     * @param seconds spent
     * @param rpm mean cadence
     * @param joules at the crank, after the cap
     */
    public record Stroke(Gear gear, Drivetrain.How how, double seconds, double rpm, double joules) {
        public double watts() {
            return joules / seconds;
        }
    }

    public Pedalled {
        strokes = List.copyOf(strokes);
        from = List.copyOf(from);
    }

    private static Pedalled unknown(LoadReason why) {
        return new Pedalled(List.of(), 1, 0, List.of(why));
    }

    /** False where nothing says how hard. */
    public boolean isKnown() {
        return !strokes.isEmpty();
    }

    /** Sliding work of the whole ride: Σ joules × (1/ring + 1/cog). Adds up over rides. */
    public double slidingWork() {
        double sum = 0;
        for (Stroke s : strokes) {
            sum += s.joules() * s.gear().bend();
        }
        return scale * sum;
    }

    /** Crank energy of the whole ride, joules. */
    public double joules() {
        return scale * strokes.stream().mapToDouble(Stroke::joules).sum();
    }

    /** Time pedalled that the strokes stand for, seconds. */
    public double seconds() {
        return scale * strokes.stream().mapToDouble(Stroke::seconds).sum();
    }

    /** Reads a ride's pedalling table against the drivetrain it was ridden on. */
    public static Pedalled of(Ride ride, Drivetrain bike, Reference reference) {
        Pedalling table = ride.pedalling();
        double watts = ride.effort().watts();
        if (hasJoules(table)) {
            return new Reading(bike, reference).byGear(ride, watts);
        }
        if (watts > 0 && ride.movingSeconds() > 0) {
            return byMean(ride, bike, reference, watts);
        }
        return unknown(new LoadReason.NoPower(!table.rows().isEmpty()));
    }

    private static boolean hasJoules(Pedalling table) {
        double joules = 0;
        for (Pedalling.Row r : table.rows()) {
            joules += Double.isNaN(r.joules()) ? 0 : r.joules();
        }
        return joules > 0;
    }

    private static Pedalled byMean(Ride ride, Drivetrain bike, Reference reference, double watts) {
        double most = reference.mostWatts(ride.movingSeconds());
        boolean only = bike.entered() && bike.gears().size() == 1;
        Gear gear = only ? bike.gears().get(0) : reference.gear();
        Stroke stroke = new Stroke(
                gear,
                only ? Drivetrain.How.NEAREST : Drivetrain.How.NONE,
                ride.movingSeconds(),
                reference.rpm(),
                Math.min(watts, most) * ride.movingSeconds());
        List<LoadReason> from = new ArrayList<>(List.of(new LoadReason.MeanPower(gear, only)));
        if (watts > most) {
            from.add(new LoadReason.Cut(watts, most));
        }
        return new Pedalled(List.of(stroke), 1, only ? 1 : 0, from);
    }

    /** Goes through the rows of one table, adding up what could and could not be used. */
    private static final class Reading {
        private final Drivetrain bike;
        private final Reference reference;
        private final List<Stroke> strokes = new ArrayList<>();
        private double known;
        private double unsure;
        private double all;
        private double stated;
        private LoadReason.@Nullable Cut spike;

        Reading(Drivetrain bike, Reference reference) {
            this.bike = bike;
            this.reference = reference;
        }

        Pedalled byGear(Ride ride, double watts) {
            double covered = ride.pedalling().coastingSeconds();
            for (Pedalling.Row row : ride.pedalling().rows()) {
                covered += row.seconds();
                if (row.joules() > 0 && row.seconds() > 0) {
                    take(row);
                }
            }
            if (all == 0) {
                return unknown(new LoadReason.NoTime());
            }
            double share = 1;
            List<LoadReason> from = gears();
            double byMean = Math.min(watts, reference.mostWatts(ride.movingSeconds())) * ride.movingSeconds();
            double time = ride.movingSeconds() > 0 ? Math.min(1, covered / ride.movingSeconds()) : 1;
            if (all < COMPLETE * byMean) {
                share = all / byMean;
                from.add(new LoadReason.WithoutCadence(1 - share));
            } else if (time < COMPLETE) {
                share = time;
                from.add(new LoadReason.Uncovered(1 - share));
            }
            if (spike != null) {
                from.add(spike);
            }
            return new Pedalled(strokes, 1 / share, share * known / all, from);
        }

        private void take(Pedalling.Row row) {
            double most = reference.mostWatts(row.seconds());
            double watts = row.joules() / row.seconds();
            if (watts > most) {
                spike = new LoadReason.Cut(watts, most);
            }
            double joules = Math.min(watts, most) * row.seconds();
            Drivetrain.Match match = row.ring() > 0 && row.cog() > 0
                    ? new Drivetrain.Match(new Gear(row.ring(), row.cog()), Drivetrain.How.STATED)
                    : bike.match(row.development());
            Gear gear = match.gear();
            all += joules;
            known += gear == null ? 0 : joules;
            stated += match.how() == Drivetrain.How.STATED ? joules : 0;
            unsure += match.how() == Drivetrain.How.STRAIGHTEST ? joules : 0;
            strokes.add(new Stroke(
                    gear == null ? reference.gear() : gear,
                    match.how(),
                    row.seconds(),
                    row.revolutions() / row.seconds() * 60,
                    joules));
        }

        private List<LoadReason> gears() {
            List<LoadReason> from = new ArrayList<>();
            if (known == 0) {
                from.add(new LoadReason.ReferenceGear(reference.gear(), bike.entered()));
                return from;
            }
            from.add(new LoadReason.ByGear(
                    stated == all
                            ? LoadReason.Gears.STATED
                            : stated == 0 ? LoadReason.Gears.BY_DEVELOPMENT : LoadReason.Gears.BOTH));
            if (known < all * 0.995) {
                from.add(new LoadReason.Unfitting(1 - known / all, reference.gear()));
            }
            if (unsure > all * 0.005) {
                from.add(new LoadReason.Several(unsure / all));
            }
            return from;
        }
    }
}
