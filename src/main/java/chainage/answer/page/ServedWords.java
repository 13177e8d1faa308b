package chainage.answer.page;

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
    static final String SEVERAL = "Several with a semicolon between.";
    static final String END = "End: stop serving this page";

    private ServedWords() {}
}
