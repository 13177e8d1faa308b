package chainage.typed;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import chainage.quantity.LocalClock;
import java.time.Instant;
import java.time.ZoneId;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class TypedMomentTest {
    private static final Instant NOW = Instant.parse("2026-03-29T09:00:00Z");

    @ParameterizedTest(name = "{0} in {1}")
    @CsvSource(delimiter = '|', textBlock = """
            # typed                     | zone              | instant
            2026-03-01                  | UTC               | 2026-03-01T00:00:00Z
            2026-03-01                  | Europe/Lisbon     | 2026-03-01T00:00:00Z
            2026-07-01                  | Europe/Lisbon     | 2026-06-30T23:00:00Z
            2026-03-01                  | Pacific/Auckland  | 2026-02-28T11:00:00Z
            2026-03-01 14:30            | UTC               | 2026-03-01T14:30:00Z
            2026-03-01T14:30            | America/Lima      | 2026-03-01T19:30:00Z
            2026-03-01T14:30:05Z        | America/Lima      | 2026-03-01T14:30:05Z
            2026-03-01T14:30+02:00      | UTC               | 2026-03-01T12:30:00Z
            2026-03-01t14:30z           | UTC               | 2026-03-01T14:30:00Z
            now                         | UTC               | 2026-03-29T09:00:00Z
            today                       | UTC               | 2026-03-29T00:00:00Z
            Yesterday                   | UTC               | 2026-03-28T00:00:00Z
            08:15                       | UTC               | 2026-03-29T08:15:00Z
            # clocks go forward at 01:00 UTC on 2026-03-29: 02:30 does not exist in Berlin
            2026-03-29 02:30            | Europe/Berlin     | 2026-03-29T01:30:00Z
            # midnight does not exist in Beirut on that day
            2026-03-29                  | Asia/Beirut       | 2026-03-28T22:00:00Z
            # 02:30 happens twice in Berlin on 2026-10-25: the first one
            2026-10-25 02:30            | Europe/Berlin     | 2026-10-25T00:30:00Z
            """)
    void readsWhatRidersType(String typed, String zone, Instant instant) {
        assertEquals(
                instant,
                TypedMoment.of(typed, NOW, LocalClock.of(ZoneId.of(zone))).instant());
    }

    @Test
    void onlyADateAloneIsBare() {
        assertEquals(
                true,
                TypedMoment.of("2026-03-01", NOW, LocalClock.of(ZoneId.of("UTC")))
                        .bareDate());
        assertEquals(
                true,
                TypedMoment.of("today", NOW, LocalClock.of(ZoneId.of("UTC"))).bareDate());
        assertEquals(
                false,
                TypedMoment.of("2026-03-01 00:00", NOW, LocalClock.of(ZoneId.of("UTC")))
                        .bareDate());
        assertEquals(
                false,
                TypedMoment.of("now", NOW, LocalClock.of(ZoneId.of("UTC"))).bareDate());
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "someday", "2026-02-30", "2026-13-01", "01.03.2026", "2026-03-01 25:00", "12"})
    void refusesTheRest(String typed) {
        assertThrows(CliError.class, () -> TypedMoment.of(typed, NOW, LocalClock.of(ZoneId.of("UTC"))));
    }
}
