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

    /** How long it takes at a power that reaches the wheel, watts. */
    public CourseTime time(RoadModel model, double watts) {
        return ridden ? CourseTime.ridden(model, legs, watts, limit) : CourseTime.steady(model, legs, watts);
    }
}
