package chainage.analysis;

import chainage.course.Course;
import chainage.course.CourseTime;
import chainage.course.RoadModel;
import chainage.drivetrain.Drivetrain;
import chainage.friction.Effort;
import chainage.friction.Loss;
import chainage.ledger.Method;
import java.util.ArrayList;
import java.util.List;

/**
 * What chains' states cost over a course.
 *
 * @param course the way
 * @param effort at the crank
 * @param model rider, road and air
 * @param best the way freshly treated
 * @param rows freshly treated first, then the chains as they stand, then a treatment at its end and washed out
 */
public record CourseLosses(Course course, Effort effort, RoadModel model, CourseTime best, List<Row> rows) {
    public CourseLosses {
        rows = List.copyOf(rows);
    }

    /**
     * A state's time.
     *
     * @param seconds at the likely loss
     * @param low at the low end of its band
     * @param high at the high end
     */
    public record Row(ChainState state, Loss loss, double seconds, double low, double high) {}

    /**
     * Rides the course in every state.
     *
     * @param method of the treatment that the chains are compared with
     */
    public static CourseLosses of(Analysis analysis, Course course, Effort effort, RoadModel model, Method method) {
        List<Row> rows = new ArrayList<>();
        for (ChainState s : states(analysis, method)) {
            Loss loss = s.loss(analysis, effort);
            rows.add(new Row(
                    s,
                    loss,
                    course.time(model, effort.watts() - loss.watts()).seconds(),
                    course.time(model, effort.watts() - loss.low()).seconds(),
                    course.time(model, effort.watts() - loss.high()).seconds()));
        }
        CourseTime best = course.time(model, effort.watts() - rows.get(0).loss().watts());
        return new CourseLosses(course, effort, model, best, rows);
    }

    private static List<ChainState> states(Analysis analysis, Method method) {
        Drivetrain usual = analysis.factors().drivetrain(null);
        List<ChainState> states = new ArrayList<>();
        states.add(ChainState.of(analysis, method, 0, usual));
        analysis.standings().forEach(s -> states.add(ChainState.now(analysis, s)));
        states.add(ChainState.of(analysis, method, 1, usual));
        states.add(ChainState.of(analysis, method, 2, usual));
        return states;
    }
}
