package chainage.course;

import java.util.List;

/**
 * A course ridden.
 *
 * @param seconds it took
 * @param metres long
 * @param slowest speed at the end of any step, metres a second; the steady one's least
 * @param fastest the same
 * @param slowMetres ridden slower than walking pace, 1.4 m/s
 * @param energy where it went
 */
public record CourseTime(
        double seconds, double metres, double slowest, double fastest, double slowMetres, Energy energy) {
    /** Walking pace, metres a second. */
    private static final double WALKING = 1.4;

    private static final int MOST_HALVINGS = 30;

    /**
     * Each leg at its own steady speed, without speeding up or braking between them.
     *
     * @param watts at the wheel, above 0
     */
    public static CourseTime steady(RoadModel model, List<Leg> legs, double watts) {
        Sum sum = new Sum();
        for (Leg leg : legs) {
            double v = model.steadySpeed(watts, leg.gradient(), leg.headwind());
            double dt = leg.metres() / v;
            sum.take(leg.metres(), dt, v, energy(model, leg, v, dt, watts * dt, 0, 0));
        }
        return sum.result();
    }

    /**
     * The whole course from a standing start at constant power, with inertia. Where it would run faster than the limit
     * the rider pedals less, then brakes.
     *
     * @param watts at the wheel, above 0
     * @param limit speed that the rider does not pass, metres a second
     */
    public static CourseTime ridden(RoadModel model, List<Leg> legs, double watts, double limit) {
        Sum sum = new Sum();
        double v = 0;
        for (Leg leg : legs) {
            v = step(model, leg, leg.metres(), v, watts, limit, sum, 0);
        }
        return sum.result();
    }

    /** Rides part of a leg in one step, or in two halves where the speed changes too much for one. */
    private static double step(
            RoadModel model, Leg leg, double metres, double v0, double watts, double limit, Sum sum, int halvings) {
        double v1 = next(model, leg, metres, v0, watts);
        boolean coarse = !(v1 > 0) || v1 > 1.2 * v0 + 1 || v1 < 0.8 * v0 - 1;
        if (coarse && halvings < MOST_HALVINGS) {
            double middle = step(model, leg, metres / 2, v0, watts, limit, sum, halvings + 1);
            return step(model, leg, metres / 2, middle, watts, limit, sum, halvings + 1);
        }
        double to = Math.min(v1, limit);
        double mean = (v0 + to) / 2;
        double dt = metres / mean;
        double kinetic = model.kinetic(v0, to, dt) * dt;
        double needed = model.force(mean, leg.gradient(), leg.headwind()) * metres + kinetic;
        boolean held = to < v1;
        double pedalled = held ? Math.max(0, needed) : watts * dt;
        double brakes = held ? Math.max(0, -needed) : 0;
        sum.take(metres, dt, to, energy(model, leg, mean, dt, pedalled, kinetic, brakes));
        return to;
    }

    /** Speed at the end of a step at its mean speed's forces; 0 where the step is too long to be ridden in one. */
    private static double next(RoadModel model, Leg leg, double metres, double v0, double watts) {
        double inertia = model.movingKilograms() / metres;
        Root.Curve curve = new Root.Curve() {
            @Override
            public double at(double v1) {
                double mean = (v0 + v1) / 2;
                return inertia / 2 * (v1 * v1 - v0 * v0)
                        - watts / mean
                        + model.force(mean, leg.gradient(), leg.headwind());
            }

            @Override
            public double slope(double v1) {
                double mean = (v0 + v1) / 2;
                return inertia * v1 + (watts / (mean * mean) + model.forceSlope(mean, leg.headwind())) / 2;
            }
        };
        return v0 > 0 && curve.at(0) >= 0 ? 0 : Root.of(curve, Math.max(v0, 0.5));
    }

    private static Energy energy(
            RoadModel model, Leg leg, double speed, double seconds, double pedalled, double kinetic, double brakes) {
        Powers p = model.powers(speed, leg.gradient(), leg.headwind());
        return new Energy(
                pedalled,
                p.air() * seconds,
                p.rolling() * seconds,
                p.bearings() * seconds,
                p.climbing() * seconds,
                kinetic,
                brakes);
    }

    /** What a ride adds up to so far. */
    private static final class Sum {
        private double seconds;
        private double metres;
        private double slowest = Double.POSITIVE_INFINITY;
        private double fastest;
        private double slow;
        private Energy energy = Energy.NOTHING;

        void take(double stepMetres, double dt, double speed, Energy stepEnergy) {
            seconds += dt;
            metres += stepMetres;
            slowest = Math.min(slowest, speed);
            fastest = Math.max(fastest, speed);
            slow += stepMetres / dt < WALKING ? stepMetres : 0;
            energy = energy.plus(stepEnergy);
        }

        CourseTime result() {
            return new CourseTime(seconds, metres, slowest, fastest, slow, energy);
        }
    }
}
