package chainage.answer.page;

import java.util.List;
import java.util.Locale;

/** What a page that is served says of its being served. */
public final class ServedWords {
    /** While the first page is made. */
    public static final String READING = "Reading the ledger. With very many rides that takes some seconds.";

    public static final String GO_ON = "Go to the page";

    /** The heading for whoever is turned away. */
    public static final String SHUT = "Not shown";

    /** The heading once nothing is served any more. */
    public static final String ENDED = "Ended";

    /** Above what a form would change, where the facts are others than those that were looked at before. */
    public static final String STALE =
            "The ledger has changed since this was shown, elsewhere or in another window. Nothing was written; this is what"
                    + " it changes now.";

    /** While the answer to a form is waited for. */
    public static final String WAIT = "Working it out. With very many rides that takes some seconds.";

    /** After files were taken in. */
    public static final String NOT_KEPT =
            "What was read is in the ledger. The files themselves were read in memory and are not kept here: leave them"
                    + " where you have them.";

    /** Where a form for files came without any. */
    public static final String NO_FILES = "no file was chosen; choose some, or drop them on this page";

    static final String FILES =
            "Choose ride files, archives, a logbook or an export of chainage, as many as you like, or drop them anywhere"
                    + " on this page, folders too. They are read at once; what is known is skipped.";
    static final String TAKE_IN = "Take them in";
    static final String BY_PATH =
            "Or name a folder on this machine; that is quicker for a large one, and its logbooks and tables are followed.";
    static final String LEAVE_OUT = "Count none of these rides: see what changes";

    static final String RIDES = "Rides";
    static final String ALL_RIDES = "All rides: by bike, chain, month or road";
    static final String SHOW = "Show these rides";

    static final String MEASURE_TITLE = "How a chain is measured";
    static final String MEASURE =
            "Pull the chain tight. Lay the ruler along it and read from one edge of a pin to the same edge of the pin 24"
                    + " pitches on (8 with a calliper): 24 × 12.7 = 304.8 mm when new. Three places, none over the quick"
                    + " link. Keep fingers clear of teeth and spokes.";

    static final String NOTE = "Note something";
    static final String SEE = "See what changes";
    static final String TREATED_NOW = "Treated now: see what changes";
    static final String NOTE_HERE = "When it is done, note it here";
    static final String WILL = "Not written yet";
    static final String NO_FIGURE = "No figure moves by it.";
    static final String DO_IT = "Do it";
    static final String OTHERWISE = "Say it otherwise";
    static final String LEAVE = "Leave it, back to the page";
    static final String DONE = "Written.";
    static final String TAKE_BACK = "Take it back";
    static final String END = "End: stop serving this page";

    /** Of files that were not sent. */
    public static String tooLarge(List<String> names, int most) {
        return "too large to be taken in here, over " + (most >> 20) + " MB: " + String.join(", ", names)
                + "; name it by its folder in place of that";
    }

    /** The way to the form that does what was said to be typed. */
    static String here(String title) {
        return "Do it here: " + title.substring(0, 1).toLowerCase(Locale.ROOT) + title.substring(1);
    }

    static String listed(int most) {
        return "The first " + most + " are shown; a month or a bike makes them fewer.";
    }

    private ServedWords() {}
}
