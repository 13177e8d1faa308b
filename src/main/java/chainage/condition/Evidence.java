package chainage.condition;

import java.util.Locale;

/** Kinds of evidence on the road, strongest first. */
public enum Evidence {
    FLAG("your tag"),
    RECORDS("weather records"),
    FILE("weather in the file"),
    WORDS("words in titles and names"),
    SPORT("kind of ride"),
    NOTHING("nothing: taken as dry and clean");

    private final String words;

    Evidence(String words) {
        this.words = words;
    }

    /** Lower-case name, for scripts. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** As a rider reads it. */
    public String words() {
        return words;
    }
}
