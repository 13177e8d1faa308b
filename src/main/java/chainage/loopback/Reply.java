package chainage.loopback;

/** What a browser is answered with. */
public sealed interface Reply {
    /**
     * A document.
     *
     * @param status of HTTP
     */
    record Document(int status, String html) implements Reply {}

    /** Another of our pages to go to: its place and what follows it, such as {@code ?done=3}. */
    record Onward(String place) implements Reply {}

    /** A last document; nothing is served after it. */
    record Last(String html) implements Reply {}
}
