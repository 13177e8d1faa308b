package chainage.course;

/**
 * A rider with a bike, and the air: what it takes to ride at a speed.
 *
 * @param kilograms rider and bike
 * @param dragArea drag coefficient times frontal area, square metres
 * @param wheelDragArea the same for the turning spokes (Martin: 0.0044)
 * @param rolling coefficient of rolling resistance
 * @param inertia of both wheels, kg m² (Martin: 0.14)
 * @param tyreMetres radius of the tyre (Martin: 0.311)
 * @param bearings whether the wheel bearings' friction is counted
 * @param density of the air, kg a cubic metre
 */
public record RoadModel(
        double kilograms,
        double dragArea,
        double wheelDragArea,
        double rolling,
        double inertia,
        double tyreMetres,
        boolean bearings,
        double density) {
    /** Standard gravity, metres a second squared. */
    static final double GRAVITY = 9.80665;

    /** A rider with the wheels of Martin et al. */
    public static RoadModel withUsualWheels(double kilograms, double dragArea, double rolling, double density) {
        return new RoadModel(kilograms, dragArea, 0.0044, rolling, 0.14, 0.311, true, density);
    }

    /** Mass that is to be sped up, the wheels' spin included, kilograms. */
    public double movingKilograms() {
        return kilograms + inertia / (tyreMetres * tyreMetres);
    }

    /**
     * What a steady speed takes.
     *
     * @param speed over the ground, metres a second
     * @param gradient rise over run
     * @param headwind from ahead, metres a second; negative from behind
     */
    public Powers powers(double speed, double gradient, double headwind) {
        double air = speed + headwind;
        return new Powers(
                0.5 * density * (dragArea + wheelDragArea) * air * Math.abs(air) * speed,
                speed * rolling * kilograms * GRAVITY * Math.cos(Math.atan(gradient)),
                bearings ? speed * (91 + 8.7 * speed) * 1e-3 : 0,
                speed * kilograms * GRAVITY * Math.sin(Math.atan(gradient)));
    }

    /** Power that a change of speed takes, watts. */
    public double kinetic(double from, double to, double seconds) {
        return 0.5 * movingKilograms() * (to * to - from * from) / seconds;
    }

    /** The force that a speed takes, newtons; rises with the speed. */
    double force(double speed, double gradient, double headwind) {
        double air = speed + headwind;
        return 0.5 * density * (dragArea + wheelDragArea) * air * Math.abs(air)
                + kilograms * GRAVITY * (rolling * Math.cos(Math.atan(gradient)) + Math.sin(Math.atan(gradient)))
                + (bearings ? (91 + 8.7 * speed) * 1e-3 : 0);
    }

    double forceSlope(double speed, double headwind) {
        return density * (dragArea + wheelDragArea) * Math.abs(speed + headwind) + (bearings ? 8.7e-3 : 0);
    }

    /**
     * The one steady speed at which a power just suffices, metres a second. Exact to the last digits: force rises with
     * speed while power over speed falls, so that they meet once.
     *
     * @param watts at the wheel, above 0
     */
    public double steadySpeed(double watts, double gradient, double headwind) {
        return Root.of(
                new Root.Curve() {
                    @Override
                    public double at(double v) {
                        return force(v, gradient, headwind) - watts / v;
                    }

                    @Override
                    public double slope(double v) {
                        return forceSlope(v, headwind) + watts / (v * v);
                    }
                },
                10);
    }
}
