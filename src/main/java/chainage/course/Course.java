package chainage.course;

import java.util.List;

/**
 * A way, and how it is ridden.
 *
 * @param legs in order
 * @param notes on how it was made from a file
 * @param ridden from a standing start, speeding up and slowing down; else at each leg's steady speed
 * @param limit speed that is never passed, m/s; infinite for none
 */
public record Course(List<Leg> legs, List<RoadNote> notes, boolean ridden, double limit) {
    public Course {
        legs = List.copyOf(legs);
        notes = List.copyOf(notes);
    }

    /**
     * A distance at each way's steady speed.
     *
     * @param metres all of it
     * @param gradient rise over run
     * @param windAhead metres a second; negative from behind
     * @param outAndBack whether the second half leads back, down again and with the wind
     */
    public static Course steady(double metres, double gradient, double windAhead, boolean outAndBack) {
        List<Leg> legs = outAndBack
                ? List.of(new Leg(metres / 2, gradient, windAhead), new Leg(metres / 2, -gradient, -windAhead))
                : List.of(new Leg(metres, gradient, windAhead));
        return new Course(legs, List.of(), false, Double.POSITIVE_INFINITY);
    }

    /** How long it takes at a power that reaches the wheel, watts. */
    public CourseTime time(RoadModel model, double watts) {
        return ridden ? CourseTime.ridden(model, legs, watts, limit) : CourseTime.steady(model, legs, watts);
    }
}
