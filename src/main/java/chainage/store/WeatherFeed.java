package chainage.store;

import chainage.weather.Observation;
import java.util.function.Consumer;

/** Where observations come from, one after the other, so that no more than one is held at a time. */
public interface WeatherFeed<X extends Exception> {
    /** Name of the file, for the log. */
    String source();

    /** Hands out every observation; when it throws, none is kept. */
    void pour(Consumer<Observation> sink) throws X;
}
