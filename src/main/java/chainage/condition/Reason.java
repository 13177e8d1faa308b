package chainage.condition;

import chainage.ride.Ride;
import chainage.weather.FilmReason;
import java.util.List;

/** What a word on the road rests on. */
public sealed interface Reason {
    /** Nothing says otherwise. */
    record Nothing() implements Reason {}

    /** The rider's tag. */
    record Tag() implements Reason {}

    /** The kind of ride that the file names. */
    record Kind(Ride.Activity activity) implements Reason {}

    /** Weather in the file, in its own words, each once. */
    record Weather(List<String> words) implements Reason {
        public Weather {
            words = List.copyOf(words);
        }
    }

    /** A word in a title or a name. */
    record Word(RoadWords.Finding finding) implements Reason {}

    /** Snow or ice by the weather records, where the rider's rule says that such roads are salted. */
    record SaltedByRule() implements Reason {}

    /** The water film by the weather records. */
    record Film(FilmReason film) implements Reason {}

    /** Whether it tells of salt, which also rusts a chain. */
    default boolean salt() {
        return this instanceof SaltedByRule
                || (this instanceof Word w && w.finding().meaning() == RoadWords.Meaning.SALTED);
    }
}
