package chainage.answer.course;

import chainage.course.Profile;
import chainage.course.RoadNote;
import chainage.render.Formatter;

/** What had to be decided about the road of a course file, in words without a full stop. */
final class RoadNoteWords {
    private RoadNoteWords() {}

    static String of(RoadNote note, Formatter format) {
        if (note instanceof RoadNote.Unplaced n) {
            return "points without a place, left out: " + n.points();
        }
        if (note instanceof RoadNote.Gap n) {
            return "a gap of " + metres(n.metres()) + " at " + format.distance(n.at()) + ", taken as straight road";
        }
        if (note instanceof RoadNote.MoreGaps n) {
            return "and " + n.count() + " more gaps";
        }
        if (note instanceof RoadNote.Wall n) {
            return metres(n.height()) + " of height within " + metres(n.within()) + " of way at "
                    + format.distance(n.at()) + ", smoothed";
        }
        if (note instanceof RoadNote.MoreWalls n) {
            return "and " + n.count() + " more walls";
        }
        if (note instanceof RoadNote.Steep n) {
            return "steeper than " + Formatter.percent(Profile.STEEPEST) + " for " + metres(n.metres())
                    + ", cut to that";
        }
        if (note instanceof RoadNote.Flat) {
            return "no heights in the file: taken as flat";
        }
        if (note instanceof RoadNote.Filled n) {
            return "points without a height, filled in between: " + n.points() + " of " + n.of();
        }
        if (note instanceof RoadNote.Climbed n) {
            return "heights averaged over " + metres(Profile.SMOOTHED_METRES) + "; " + metres(n.metres()) + " climbed";
        }
        throw new AssertionError(note);
    }

    private static String metres(double metres) {
        return Formatter.fixed(metres, 0) + " m";
    }
}
