package chainage.demo;

import chainage.demo.Outing.Surface;
import chainage.demo.Trip.Moment;
import chainage.demo.Trip.Pause;
import chainage.demo.Trip.Shift;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/**
 * Rides a course: power against drag, rolling, gravity and inertia, one step a second, with gears, coasting, braking
 * and stops. The numbers are our guesses at an ordinary amateur, stronger each month; nothing is checked against them.
 */
final class Rider {
    private static final Instant SEASON_START = Instant.parse("2026-03-01T00:00:00Z");
    private static final double GRAVITY = 9.81;
    private static final double AIR_DENSITY = 1.2;
    private static final double BRAKING = 0.9;
    private static final double EFFICIENCY = 0.97;
    private static final int PAUSE_FROM_SECONDS = 60;

    private final Outing outing;
    private final Random random;
    private final DemoBike bike;
    private final Course course;
    private final boolean stops;

    private final List<Moment> moments = new ArrayList<>();
    private final List<Shift> shifts = new ArrayList<>();
    private final List<Pause> pauses = new ArrayList<>();
    private double metres;
    private double speed;
    private int ring;
    private int cog;
    private int lastShift;
    private int coastUntil;
    private double mood;
    private double driftEast;
    private double driftNorth;

    private Rider(Outing outing) {
        this.outing = outing;
        this.random = new Random(outing.seed());
        this.bike = outing.bike();
        double steepness = switch (outing.surface()) {
            case ROAD -> 0.020;
            case GRAVEL -> 0.026;
            case SIMULATED -> 0.018;
            case TRAINER -> 0;
        };
        this.course = new Course(outing.kilometres() * 1000, steepness, random);
        this.stops = outing.surface() == Surface.ROAD || outing.surface() == Surface.GRAVEL;
    }

    static Trip ride(Outing outing) {
        return new Rider(outing).ride();
    }

    /** One-hour power, watts: from 205 in March to about 250 at the end of August. */
    static double hourPower(Instant day) {
        double weeks = Duration.between(SEASON_START, day).toHours() / (24.0 * 7);
        return 205 + 1.75 * weeks;
    }

    private Trip ride() {
        ring = bike.rings().size() - 1;
        cog = bike.cogs().size() / 2;
        lastShift = -10;
        shifts.add(shift(0, true));
        double nextStop = stopAfter();
        double ascent = 0;
        while (metres < course.lengthMetres()) {
            double brakingMetres = speed * speed / (2 * BRAKING);
            double stopAt = Math.min(nextStop, course.lengthMetres());
            boolean braking = stops && stopAt - metres <= brakingMetres + 1;
            double before = course.altitudeMetres(metres);
            step(braking);
            ascent += Math.max(0, course.altitudeMetres(metres) - before);
            if (metres >= nextStop && metres < course.lengthMetres()) {
                rest();
                nextStop = metres + stopAfter();
            }
        }
        speed = 0;
        record(0, 0);
        return new Trip(moments, shifts, pauses, ascent);
    }

    private double stopAfter() {
        return stops ? 6_000 + 16_000 * random.nextDouble() : Double.POSITIVE_INFINITY;
    }

    private void rest() {
        // Most stops are a junction; one in four is a café, a puncture or a view, and pauses the recording.
        int seconds = random.nextInt(4) == 0 ? 120 + random.nextInt(500) : 8 + random.nextInt(40);
        speed = 0;
        int from = moments.size() + 2;
        for (int i = 0; i < seconds; i++) {
            record(0, 0);
        }
        if (seconds >= PAUSE_FROM_SECONDS) {
            pauses.add(new Pause(from, moments.size()));
        }
    }

    private void step(boolean braking) {
        double gradient = course.gradient(metres);
        double top = outing.surface() == Surface.GRAVEL ? 12.5 : 16.5;
        mood = 0.985 * mood + 0.022 * random.nextGaussian();
        int second = moments.size();
        if (second >= coastUntil && stops && random.nextDouble() < 0.006) {
            coastUntil = second + 3 + random.nextInt(7);
        }
        boolean coasting = braking || second < coastUntil || speed > top - 1.5 || (gradient < -0.025 && speed > 10.5);
        double wanted = 0;
        if (!coasting) {
            double share = outing.surface() == Surface.TRAINER ? 0.80 : 0.70;
            double slope = Math.min(0.35, Math.max(-0.45, 6 * gradient));
            wanted = hourPower(outing.start()) * share * (1 + slope + mood);
            wanted *= 1 + 0.07 * random.nextGaussian();
            // Nobody pushes full power from standstill in a low gear.
            wanted = Math.max(25, Math.min(wanted, 90 + 70 * speed));
        }
        drive(wanted, gradient, braking, top);
        metres += speed;
        if (coasting) {
            record(0, 0);
        } else {
            chooseGear(second, gradient);
            record((int) Math.round(wanted), (int) Math.round(cadence(ring, cog)));
        }
    }

    private void drive(double watts, double gradient, boolean braking, double top) {
        if (braking) {
            speed = Math.max(1.0, speed - BRAKING);
            return;
        }
        double push = EFFICIENCY * watts / Math.max(speed, 1.8);
        double drag = 0.5 * AIR_DENSITY * bike.dragAreaSquareMetres() * speed * speed;
        double hold = bike.kilograms() * GRAVITY * (bike.rolling() + gradient);
        speed += (push - drag - hold) / bike.kilograms();
        speed = Math.min(top, Math.max(watts > 0 ? 1.6 : 0.8, speed));
    }

    private double cadence(int ringPlace, int cogPlace) {
        double development = bike.circumferenceMetres()
                * bike.rings().get(ringPlace)
                / bike.cogs().get(cogPlace);
        return 60 * speed / development;
    }

    /** Shifts one cog when the legs turn too fast or too slowly, the ring when the cogs run out. */
    private void chooseGear(int second, double gradient) {
        if (second - lastShift < 3) {
            return;
        }
        double turning = cadence(ring, cog);
        double lowest = gradient > 0.04 ? 64 : 76;
        boolean harder = turning > 96 && cog > 0;
        boolean easier = turning < lowest && cog < bike.cogs().size() - 1;
        boolean bigRing = bike.rings().size() > 1 && ring > 0 && turning > 96 && cog <= 3;
        boolean smallRing = bike.rings().size() > 1
                && ring == 0
                && turning < lowest
                && cog >= bike.cogs().size() - 3;
        if (bigRing) {
            ring--;
            cog += 2;
            shifts.add(shift(second, true));
            shifts.add(shift(second + 1, false));
        } else if (smallRing) {
            ring++;
            cog -= 2;
            shifts.add(shift(second, true));
            shifts.add(shift(second + 1, false));
        } else if (harder || easier) {
            cog += harder ? -1 : 1;
            shifts.add(shift(second, false));
        } else {
            return;
        }
        lastShift = second;
    }

    private Shift shift(int second, boolean front) {
        return new Shift(
                second,
                bike.rings().size() - ring,
                bike.rings().get(ring),
                bike.cogs().size() - cog,
                bike.cogs().get(cog),
                front);
    }

    private void record(int watts, int cadence) {
        // Position error of a metre or two that wanders slowly, as that of a receiver does.
        driftEast = 0.97 * driftEast + 0.35 * random.nextGaussian();
        driftNorth = 0.97 * driftNorth + 0.35 * random.nextGaussian();
        double at = Math.min(metres, course.lengthMetres());
        moments.add(new Moment(
                at,
                course.latitude(at, driftNorth),
                course.longitude(at, driftEast),
                course.altitudeMetres(at),
                speed,
                watts,
                cadence,
                celsius()));
    }

    /** Cool in March, warm in August, a little warmer as the morning goes on. */
    private int celsius() {
        if (!stops) {
            return 21;
        }
        double weeks = Duration.between(SEASON_START, outing.start()).toHours() / (24.0 * 7);
        double sky = outing.sky().contains("rain") ? -3 : outing.sky().contains("snow") ? -10 : 0;
        return (int) Math.round(8 + 0.6 * weeks + sky + moments.size() / 4_000.0);
    }
}
