package chainage.ridefile.xml;

import static org.junit.jupiter.api.Assertions.assertEquals;

import chainage.ride.Sample;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class ValuesTest {
    private final Values values = new Values();

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', ignoreLeadingAndTrailingWhitespace = false, textBlock = """
            2024-05-04T08:00:00Z|2024-05-04T08:00:00Z
              2024-05-04T08:00:00Z  |2024-05-04T08:00:00Z
            2024-05-04T08:00:00|2024-05-04T08:00:00Z
            2024-05-04 08:00:00|2024-05-04T08:00:00Z
            2024-05-04t08:00:00z|2024-05-04T08:00:00Z
            2024-05-04T08:00Z|2024-05-04T08:00:00Z
            2024-05-04T08:00:00.5Z|2024-05-04T08:00:00.500Z
            2024-05-04T08:00:00.123456789012Z|2024-05-04T08:00:00.123Z
            2024-05-04T08:00:00,25Z|2024-05-04T08:00:00.250Z
            2024-05-04T08:00:00.Z|2024-05-04T08:00:00Z
            2024-05-04T10:00:00+02:00|2024-05-04T08:00:00Z
            2024-05-04T10:00:00+0200|2024-05-04T08:00:00Z
            2024-05-04T03:00:00 -05|2024-05-04T08:00:00Z
            2023-12-31T23:30:00-01:00|2024-01-01T00:30:00Z
            2024-05-04T24:00:00Z|2024-05-05T00:00:00Z
            2016-12-31T23:59:60Z|2017-01-01T00:00:00Z
            2024-02-29T00:00:00Z|2024-02-29T00:00:00Z
            2024-05-04|2024-05-04T00:00:00Z
            1901-12-13T20:45:52Z|1901-12-13T20:45:52Z
            """)
    void times(String text, Instant expected) {
        assertEquals(expected, Instant.ofEpochMilli(values.millis(text)));
        assertEquals(0, values.unreadableTimes());
    }

    /** The first that states one; UTC itself says nothing of the place. */
    @ParameterizedTest(name = "{0}, {1}")
    @CsvSource(delimiter = '|', nullValues = "-", textBlock = """
            2024-05-04T10:00:00+02:00 | 2024-05-04T10:00:00+03:00 | +02:00
            2024-05-04T10:00:00Z      | 2024-05-04T03:00:00 -05   | -05:00
            2024-05-04T10:00:00+05:45 | 2024-05-04T10:00:00Z      | +05:45
            2024-05-04T10:00:00Z      | 2024-05-04T10:00:00+00:00 | -
            2024-05-04T10:00:00       | yesterday                 | -
            """)
    void localTimes(String first, String second, @Nullable String offset) {
        values.millis(first);
        values.millis(second);
        assertEquals(offset == null ? null : ZoneOffset.of(offset), values.offset());
    }

    @ParameterizedTest(name = "{0}")
    @ValueSource(
            strings = {
                "yesterday",
                "2024",
                "2024-13-01T00:00:00Z",
                "2023-02-29T00:00:00Z",
                "2024-05-04T25:00:00Z",
                "2024-05-04T08:61:00Z",
                "2024-05-04T08:00:00+19:00",
                "2024-05-04T08:00:00Zulu",
                "2024-05-04T08:00:00+2",
                "2024-05-04T",
                "04/05/2024 08:00:00",
                "١٢٣٤-05-04T08:00:00Z"
            })
    void noTimes(String text) {
        assertEquals(Sample.NO_TIME, values.millis(text));
        assertEquals(1, values.unreadableTimes());
    }

    /** Checked against java.time, on times as it prints them. */
    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {11, 12, 13})
    void agreesWithJavaTime(long seed) {
        Random random = new Random(seed);
        for (int i = 0; i < 2000; i++) {
            Instant at = Instant.ofEpochMilli(random.nextLong(-2_000_000_000_000L, 4_000_000_000_000L));
            String text = OffsetDateTime.ofInstant(at, java.time.ZoneOffset.ofHoursMinutes(random.nextInt(14), 30))
                    .toString();
            assertEquals(at.toEpochMilli(), values.millis(text), text);
        }
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
            12.5   | 12.5
            -0.25  | -0.25
            +3     | 3
            1e3    | 1000
            12,5   | 12.5
            seven  | NaN
            NaN    | NaN
            Infinity | NaN
            0x10   | NaN
            1d     | NaN
            1.2.3  | NaN
            """)
    void numbers(String text, double expected) {
        assertEquals(expected, values.number(text));
        assertEquals(Double.isNaN(expected) ? 1 : 0, values.unreadable());
    }

    @Test
    void nothingIsNotUnreadable() {
        assertEquals(Double.NaN, values.number(""));
        assertEquals(Sample.NO_TIME, values.millis(" "));
        assertEquals(0, values.unreadable() + values.unreadableTimes());
    }
}
