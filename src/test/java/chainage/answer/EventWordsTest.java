package chainage.answer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import chainage.ledger.Event;
import chainage.ledger.RandomEvents;
import chainage.render.Formatter;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class EventWordsTest {
    static Stream<Class<?>> types() {
        return Arrays.stream(Event.class.getPermittedSubclasses());
    }

    @ParameterizedTest
    @MethodSource("types")
    void everyTypeOfFactHasWords(Class<?> type) {
        for (long seed = 0; seed < 50; seed++) {
            assertFalse(words(new RandomEvents(new Random(seed)).of(type)).isBlank());
        }
    }

    /** What is said anew of one thing is told, whatever it is. */
    @Test
    void everyFieldOfADescriptionHasWords() {
        for (long seed = 0; seed < 50; seed++) {
            Event.Changed said = (Event.Changed) new RandomEvents(new Random(seed)).of(Event.Changed.class);
            said.said().forEach((field, value) -> {
                Event.Changed one = new Event.Changed(said.what(), said.name(), Map.of(field, value));
                boolean nothing = value.equals(0) || value.equals(List.of());
                assertEquals(nothing, words(one).equals(said.what().word() + " " + said.name()), field + " " + value);
            });
        }
    }

    private static String words(Event event) {
        return EventWords.of(event, new Formatter(false, ZoneOffset.UTC));
    }
}
