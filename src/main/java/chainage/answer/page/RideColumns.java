package chainage.answer.page;

import chainage.attribution.AttributedRide;
import chainage.page.Block;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Unit;
import java.util.ArrayList;
import java.util.List;

/** What the page's tables of rides begin and end with. */
final class RideColumns {
    /** Longer titles are cut, so that ten thousand of them still make a page. */
    private static final int LONGEST_TITLE = 48;

    static final Columns<AttributedRide> START = Columns.of(
            Column.shown("Start", Unit.TIME, (r, f) -> f.time(r.filed().ride().start())));

    static final Columns<AttributedRide> TITLE = Columns.of(
            Column.shown("Title", Unit.NAME, (r, f) -> title(r)), Column.shown("Ride", Unit.ID, (r, f) -> r.id()));

    /** So many rides are in a table; a hundred thousand would be a page that no browser bears. Our choice. */
    static final int SHOWN = 1000;

    private RideColumns() {}

    /**
     * A table of the latest rides.
     *
     * @param rides by start
     * @param all the command that lists all of them
     */
    static <R> List<Block> latest(Columns<R> columns, String caption, List<R> rides, Formatter format, String all) {
        int left = Math.max(0, rides.size() - SHOWN);
        List<Block> blocks = new ArrayList<>();
        if (left > 0) {
            blocks.add(Block.note("The latest " + Formatter.count(SHOWN, "ride", "rides") + "; all of them: " + all));
        }
        blocks.add(new Block.Table(columns.grid(caption, rides.subList(left, rides.size()), format, true)));
        return blocks;
    }

    private static String title(AttributedRide r) {
        String title = r.filed().ride().labels().title().strip();
        return title.codePointCount(0, title.length()) <= LONGEST_TITLE
                ? title
                : title.substring(0, title.offsetByCodePoints(0, LONGEST_TITLE - 1)) + "…";
    }
}
