package chainage.answer.page;

import chainage.attribution.AttributedRide;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Unit;

/** What the page's tables of rides begin and end with. */
final class RideColumns {
    /** Longer titles are cut, so that ten thousand of them still make a page. */
    private static final int LONGEST_TITLE = 48;

    static final Columns<AttributedRide> START = Columns.of(
            Column.shown("Start", Unit.TIME, (r, f) -> f.time(r.filed().ride().start())));

    static final Columns<AttributedRide> TITLE = Columns.of(
            Column.shown("Title", Unit.NAME, (r, f) -> title(r)), Column.shown("Ride", Unit.ID, (r, f) -> r.id()));

    private RideColumns() {}

    private static String title(AttributedRide r) {
        String title = r.filed().ride().labels().title().strip();
        return title.codePointCount(0, title.length()) <= LONGEST_TITLE
                ? title
                : title.substring(0, title.offsetByCodePoints(0, LONGEST_TITLE - 1)) + "…";
    }
}
