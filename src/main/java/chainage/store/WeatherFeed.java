package chainage.store;

import chainage.weather.Observation;
import java.util.List;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/** Where observations come from, one after the other, so that no more than one is held at a time. */
public interface WeatherFeed<X extends Exception> {
    /** Name of the file, for the log. */
    String source();

    /** Where the rider said that the station is; null where nothing was said. */
    default @Nullable String place() {
        return null;
    }

    /** Names of columns that the rider gave; null for none. */
    default @Nullable List<String> columns() {
        return null;
    }

    /** Hands out every observation; when it throws, none is kept. */
    void pour(Consumer<Observation> sink) throws X;
}
