package chainage.ridefile.xml;

/** XML that cannot be read on. What came before it stands. */
public final class XmlBrokenException extends Exception {
    private static final long serialVersionUID = 1L;

    private final String why;
    private final int line;
    private final boolean torn;

    XmlBrokenException(String why, int line, boolean torn, Throwable cause) {
        super(why + " at line " + line, cause);
        this.why = why;
        this.line = line;
        this.torn = torn;
    }

    XmlBrokenException(String why, int line) {
        super(why + " at line " + line);
        this.why = why;
        this.line = line;
        this.torn = false;
    }

    /** What is wrong, a few words. */
    public String why() {
        return why;
    }

    /** Line, from 1. */
    public int line() {
        return line;
    }

    /** True when the text ends before its last element does. */
    public boolean torn() {
        return torn;
    }
}
