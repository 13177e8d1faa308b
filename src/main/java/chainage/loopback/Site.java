package chainage.loopback;

/** What is shown. It is asked by one thread at a time. */
public interface Site {
    /** Answers what came through all checks. */
    Reply reply(Ask ask);

    /** The document that a browser sees when its key was taken; it leads on to {@code ./} by itself. */
    String entered();

    /** The document for whoever is turned away. */
    String refused(TurnedAway why);
}
