package chainage.weather;

/** A text that cannot be read at all: what is wrong, and how to mend it. */
public final class WeatherException extends Exception {
    private static final long serialVersionUID = 1L;

    private final String what;
    private final String hint;

    WeatherException(String what, String hint) {
        super(what + "; " + hint);
        this.what = what;
        this.hint = hint;
    }

    public String what() {
        return what;
    }

    public String hint() {
        return hint;
    }
}
