package chainage.ride;

import static chainage.TestRides.ride;
import static org.junit.jupiter.api.Assertions.assertEquals;

import chainage.TestRides;
import chainage.quantity.LocalClock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Offsets of zones are those of the IANA time-zone data, through the JDK. */
class LocalTimesTest {
    private static final ZoneId LISBON = ZoneId.of("Europe/Lisbon");

    private static LocalClock clock(TestRides... rides) {
        return LocalTimes.of(
                Arrays.stream(rides)
                        .map(TestRides::filed)
                        .sorted(FiledRide.BY_START)
                        .toList(),
                LocalClock.of(LISBON));
    }

    @Test
    void aRideBegunAtHalfPastMidnightLocalTimeOnTheFirstIsOfThatMonth() {
        TestRides r = ride("a", "2026-08-31T15:30:00Z", 40).local("+09:00");
        LocalClock clock = clock(r);
        assertEquals(LocalDate.parse("2026-09-01"), clock.day(r.start()));
        assertEquals(LocalDateTime.parse("2026-09-01T00:30"), clock.time(r.start()));
        assertEquals(LocalDate.parse("2026-08-31"), LocalClock.of(LISBON).day(r.start()));
    }

    /** Tokyo and Sapporo are 830 km apart, Tokyo and Yokohama 30; Lisbon is far. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
            # a ride without offset    | days after one at +09:00 in Tokyo | lat   | lon    | offset
            the next day, near         |   1                               | 35.4  | 139.6  | +09:00
            a week before, near        |  -7                               | 35.4  | 139.6  | +09:00
            too long ago               |  31                               | 35.4  | 139.6  | +01:00
            the next day, far          |   1                               | 38.7  |  -9.1  | +01:00
            too far                    |   1                               | 43.1  | 141.3  | +01:00
            the next day, no place     |   1                               |       |        | +09:00
            a week later, no place     |   7                               |       |        | +01:00
            """)
    void elseTheNearestRideInTimeAndPlaceTells(
            String title, int days, @Nullable Double lat, @Nullable Double lon, String offset) {
        TestRides there =
                ride("there", "2026-08-10T02:00:00Z", 40).local("+09:00").at(35.7, 139.7);
        TestRides r = ride("r", there.start().plusSeconds(86_400L * days).toString(), 40);
        TestRides placed = lat == null || lon == null ? r : r.at(lat, lon);
        LocalClock clock = clock(there, placed);
        assertEquals(offset, clock.offset(placed.start()).getId(), title);
        LocalClock.Told told = Objects.requireNonNull(clock.told(placed.start()));
        assertEquals(offset.equals("+09:00") ? there.id() : placed.id(), told.as());
    }

    /** Clocks were put forward in Lisbon on 29 March 2026: a winter ride at home tells nothing against the zone. */
    @Test
    void atHomeTheZoneKnowsWhenClocksAreChanged() {
        TestRides winter = ride("w", "2026-03-27T10:00:00Z", 40).local("+00:00");
        TestRides summer = ride("s", "2026-03-29T10:00:00Z", 40);
        assertEquals("+01:00", clock(winter, summer).offset(summer.start()).getId());
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource({
        "2026-08-12, 2026-08-11T15:00:00Z", // within three days of a ride in Japan
        "2026-08-14, 2026-08-13T23:00:00Z", // beyond them: Lisbon's summer
        "2026-01-01, 2026-01-01T00:00:00Z",
    })
    void aBareDateIsTheLocalDayOfWhereTheRiderWas(String day, String start) {
        LocalClock clock = clock(ride("there", "2026-08-10T02:00:00Z", 40).local("+09:00"));
        assertEquals(Instant.parse(start), clock.start(LocalDate.parse(day)));
    }
}
