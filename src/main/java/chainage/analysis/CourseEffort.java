package chainage.analysis;

import chainage.course.Course;
import chainage.course.CourseTime;
import chainage.course.RoadModel;
import chainage.drivetrain.Drivetrain;
import chainage.drivetrain.Gear;
import chainage.drivetrain.Reference;
import chainage.friction.Effort;
import chainage.ledger.Event;
import chainage.ledger.Method;
import org.jspecify.annotations.Nullable;

/**
 * Gear and cadence that go with the speed that a power arrives at: where they are not stated, the bike's own gear in which
 * the cranks turn most nearly as the reference rider's do.
 */
public final class CourseEffort {
    private static final double SECONDS = 60;

    private CourseEffort() {}

    /**
     * The effort over a course.
     *
     * @param bike whose gears there are; null for none in particular
     * @param watts at the crank
     * @param gear stated; null for one that fits
     * @param rpm stated; null for what gear and speed make it
     * @param method of the treatment that the speed is that of
     */
    public static Effort of(
            Analysis analysis,
            Event.@Nullable BikeDescribed bike,
            Course course,
            RoadModel model,
            double watts,
            @Nullable Gear gear,
            @Nullable Double rpm,
            Method method) {
        Reference reference = analysis.factors().reference();
        Drivetrain drivetrain = analysis.factors().drivetrain(bike);
        double turns = rpm == null ? reference.rpm() : rpm;
        Effort about = new Effort(watts, gear == null ? reference.gear() : gear, turns);
        if (gear != null && rpm != null) {
            return about;
        }
        double lost = ChainState.of(analysis, method, 0, drivetrain)
                .loss(analysis, about)
                .watts();
        CourseTime time = course.time(model, watts - lost);
        double metresPerMinute = SECONDS * time.metres() / time.seconds();
        Gear ridden = gear == null
                ? drivetrain.nearest(metresPerMinute / turns, reference.gear().ring())
                : gear;
        return new Effort(
                watts,
                ridden,
                rpm == null
                        ? Math.max(1, Math.rint(metresPerMinute / ridden.development(drivetrain.circumferenceMetres())))
                        : rpm);
    }
}
