package chainage.weather;

/** A text that cannot be read at all: what is wrong, and how to mend it. */
public final class WeatherException extends Exception {
    private static final long serialVersionUID = 1L;

    private final String what;
    private final String mend;

    WeatherException(String what, String mend) {
        super(what + "; " + mend);
        this.what = what;
        this.mend = mend;
    }

    public String what() {
        return what;
    }

    public String mend() {
        return mend;
    }
}
