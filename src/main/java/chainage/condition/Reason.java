package chainage.condition;

import chainage.weather.FilmReason;

/** What a word on the road rests on. */
public sealed interface Reason {
    /** Said in full, such as {@code weather in the file: light rain}. */
    record Words(String text) implements Reason {}

    /** Salt on the road, which also rusts a chain; said in full. */
    record Salt(String text) implements Reason {}

    /** The water film by the weather records. */
    record Film(FilmReason film) implements Reason {}
}
