package chainage.render;

/**
 * How a text stands out on a terminal, by the sequences of ECMA-48, 8.3.117 (select graphic rendition). It carries no meaning
 * that the words do not.
 */
enum Ink {
    PLAIN(""),
    /** For what only leads to the rest, such as the heads of columns. */
    FAINT("2"),
    /** For what is to be done now. */
    LOUD("1;31");

    private static final char ESCAPE = '\u001b';

    private final String rendition;

    Ink(String rendition) {
        this.rendition = rendition;
    }

    /** The text in this ink, and plain behind it; as wide as without. */
    String on(String text) {
        return rendition.isEmpty() || text.isEmpty() ? text : ESCAPE + "[" + rendition + "m" + text + ESCAPE + "[0m";
    }
}
