package chainage.drivetrain;

import chainage.ride.Pedalling;
import chainage.ride.Ride;
import java.util.ArrayList;
import java.util.List;

/**
 * What a ride's cranks sent into the chain, gear by gear, and how much of the ride that rests on.
 *
 * @param basis what was known
 * @param strokes by gear; empty without power
 * @param scale what the strokes are multiplied by so that they stand for the whole ride; 1 when they cover it
 * @param usable share of the ride's crank energy whose gear is known, 0 to 1
 * @param from what it rests on, in words
 */
public record Pedalled(Basis basis, List<Stroke> strokes, double scale, double usable, String from) {
    /** A table that holds less of the energy than this lacks cadence in places (our choice). */
    private static final double COMPLETE = 0.9;

    /** What the file knows. */
    public enum Basis {
        /** Power and cadence: work by gear. */
        BY_GEAR,
        /** Power without cadence: the mean power in one gear. */
        MEAN_POWER,
        /** No power: nothing says how hard. */
        NOTHING
    }

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
        return new Pedalled(
                Basis.NOTHING,
                List.of(),
                1,
                0,
                table.rows().isEmpty()
                        ? "no power and no cadence in the file"
                        : "cadence but no power in the file: nothing says how hard");
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
        return new Pedalled(
                Basis.MEAN_POWER,
                List.of(stroke),
                1,
                only ? 1 : 0,
                "power without cadence: mean power in " + gear + (only ? ", the bike's only gear" : "")
                        + (watts > most ? cut(watts, most) : ""));
    }

    private static String cut(double watts, double most) {
        return "; " + Math.round(watts) + " W cut to " + Math.round(most) + " W, more than anybody holds so long";
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
        private String spikes = "";

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
                return new Pedalled(Basis.NOTHING, List.of(), 1, 0, "power without time in the file");
            }
            double share = 1;
            String gap = "";
            double byMean = Math.min(watts, reference.mostWatts(ride.movingSeconds())) * ride.movingSeconds();
            double time = ride.movingSeconds() > 0 ? Math.min(1, covered / ride.movingSeconds()) : 1;
            if (all < COMPLETE * byMean) {
                share = all / byMean;
                gap = "; " + Math.round(100 * (1 - share))
                        + " % of the energy came without cadence, or with a cadence of 0, taken as in the same gears";
            } else if (time < COMPLETE) {
                share = time;
                gap = "; " + Math.round(100 * (1 - share)) + " % of the time has no cadence, taken to be like the rest";
            }
            return new Pedalled(Basis.BY_GEAR, strokes, 1 / share, share * known / all, words() + gap + spikes);
        }

        private void take(Pedalling.Row row) {
            double most = reference.mostWatts(row.seconds());
            double watts = row.joules() / row.seconds();
            if (watts > most) {
                spikes = cut(watts, most);
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

        private String words() {
            if (known == 0) {
                return "power in " + reference.gear() + ", the reference gear: "
                        + (bike.entered()
                                ? "no gear of the bike fits its speed and cadence"
                                : "its file names no gears and the bike's rings and cogs are not entered");
            }
            String gears = stated == all
                    ? "power and the gears in the file"
                    : stated == 0 ? "power and gears by development" : "power and gears, in part by development";
            String others = known < all * 0.995
                    ? "; " + Math.round(100 * (1 - known / all))
                            + " % of the energy fits no gear of the bike, taken as " + reference.gear()
                    : "";
            String several = unsure > all * 0.005
                    ? "; for " + Math.round(100 * unsure / all)
                            + " % of the energy several gears fit, the straighter chain taken"
                    : "";
            return gears + others + several;
        }
    }
}
