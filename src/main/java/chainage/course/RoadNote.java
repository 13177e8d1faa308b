package chainage.course;

/** What had to be decided about the road of a course file. Metres throughout; places are metres from the start. */
public sealed interface RoadNote {
    /** Points without a place, left out. */
    record Unplaced(int points) implements RoadNote {}

    /** The way between two points is unknown and taken as straight. */
    record Gap(double metres, double at) implements RoadNote {}

    /** Further gaps, which are not told one by one. */
    record MoreGaps(int count) implements RoadNote {}

    /** So much height within so much of the way is no road, and smoothed. */
    record Wall(double height, double within, double at) implements RoadNote {}

    /** Further walls, which are not told one by one. */
    record MoreWalls(int count) implements RoadNote {}

    /** So much of the way was steeper than {@link Profile#STEEPEST}, and is cut to that. */
    record Steep(double metres) implements RoadNote {}

    /** No point has a height. */
    record Flat() implements RoadNote {}

    /** Points without a height, filled in between others. */
    record Filled(int points, int of) implements RoadNote {}

    /** Heights are averaged over {@link Profile#SMOOTHED_METRES}; so much is climbed then. */
    record Climbed(double metres) implements RoadNote {}
}
