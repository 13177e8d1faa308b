package chainage.ridefile.fit;

import static chainage.ridefile.fit.FitFixture.LATEST;
import static chainage.ridefile.fit.FitFixture.START;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.ride.Ride;
import chainage.ride.Ride.Activity.Kind;
import chainage.ride.Ride.MetresFrom;
import chainage.ridefile.Decoded;
import chainage.ridefile.RideFileException;
import chainage.ridefile.RideFiles;
import com.garmin.fit.ActivityMesg;
import com.garmin.fit.DeveloperDataIdMesg;
import com.garmin.fit.DeveloperField;
import com.garmin.fit.FieldDescriptionMesg;
import com.garmin.fit.FitBaseType;
import com.garmin.fit.LapMesg;
import com.garmin.fit.RecordMesg;
import com.garmin.fit.SourceType;
import com.garmin.fit.Sport;
import com.garmin.fit.SportMesg;
import com.garmin.fit.SubSport;
import com.garmin.fit.WeatherConditionsMesg;
import com.garmin.fit.WeatherReport;
import com.garmin.fit.WeatherStatus;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Field numbers, base types and layouts written by hand here are those of the FIT protocol and profile. */
class FitReaderTest {
    private static Decoded decode(byte[] content) throws RideFileException {
        return RideFiles.decode(content, LATEST);
    }

    private static Ride only(byte[] content) throws RideFileException {
        Decoded decoded = decode(content);
        assertEquals(1, decoded.activities().size(), decoded.passed().toString());
        return decoded.activities().get(0);
    }

    @Test
    void plainRide() throws RideFileException {
        Ride ride = only(FitFixture.tenMinutes());
        assertEquals(START, ride.start());
        assertEquals(START.plusSeconds(600), ride.end());
        assertEquals(new Ride.Distance(4800, MetresFrom.DEVICE_TOTAL), ride.distance());
        assertEquals(new Ride.Activity("cycling", "road", Kind.CYCLING, false), ride.activity());
        assertEquals(200, ride.effort().watts(), 1e-9);
        assertEquals(8, ride.effort().medianSpeed(), 0.06);
        assertEquals(600, ride.effort().samples());
        assertEquals(List.of(new Ride.Device("head_unit", "1234567")), ride.devices());
        assertEquals(599 * 1.5, ride.pedalling().revolutions(), 1e-6);
        assertEquals(List.of(), ride.remarks());
        assertNull(ride.salvaged());
    }

    @Test
    void withoutSessionTheRecordsSayAll() throws RideFileException {
        SportMesg sport = new SportMesg();
        sport.setSport(Sport.CYCLING);
        sport.setSubSport(SubSport.GRAVEL_CYCLING);
        Ride ride =
                only(FitFixture.activity().write(sport).records(START, 301, 0).bytes());
        assertEquals(new Ride.Distance(2400, MetresFrom.DEVICE_ODOMETER), ride.distance());
        assertEquals(300, ride.elapsedSeconds());
        assertEquals(300, ride.movingSeconds());
        assertEquals("gravel_cycling", ride.activity().subSport());
        assertEquals(Kind.CYCLING, ride.activity().kind());
        assertTrue(
                ride.remarks().contains("no session summary: built from the records"),
                ride.remarks().toString());
    }

    @ParameterizedTest(name = "{0}/{1}")
    @CsvSource(textBlock = """
            CYCLING,   INDOOR_CYCLING,   CYCLING,  true
            CYCLING,   VIRTUAL_ACTIVITY, CYCLING,  true
            CYCLING,   SPIN,             CYCLING,  true
            CYCLING,   TRACK_CYCLING,    CYCLING,  false
            E_BIKING,  E_BIKE_MOUNTAIN,  CYCLING,  false
            GENERIC,   GENERIC,          UNSTATED, false
            RUNNING,   TREADMILL,        OTHER,    true
            TRANSITION, GENERIC,         OTHER,    false
            MOTORCYCLING, GENERIC,       OTHER,    false
            """)
    void sports(Sport sport, SubSport subSport, Kind kind, boolean indoor) throws RideFileException {
        Ride ride = only(FitFixture.activity()
                .records(START, 60, 0)
                .session(START, 60, 480, sport, subSport)
                .bytes());
        assertEquals(kind, ride.activity().kind());
        assertEquals(indoor, ride.activity().indoor());
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
            # case                 | summary first | leg 2 odometer
            summary behind, runs on  | false | 800
            summary first, runs on   | true  | 800
            summary behind, restarts | false | 8
            summary first, restarts  | true  | 8
            """)
    void eachSessionGetsItsRecords(String title, boolean first, double odometer) throws RideFileException {
        Instant leg2 = START.plusSeconds(101);
        FitFixture f = FitFixture.activity();
        if (first) {
            sessions(f, leg2);
        }
        f.records(START, 101, 0).records(leg2, 200, odometer);
        if (!first) {
            sessions(f, leg2);
        }
        Decoded decoded = decode(f.bytes());
        assertEquals(2, decoded.activities().size());
        Ride swim = decoded.activities().get(0);
        Ride ride = decoded.activities().get(1);
        assertEquals(Kind.OTHER, swim.activity().kind());
        assertEquals(101, swim.effort().samples());
        assertEquals(800, swim.distance().metres(), 1e-6);
        assertEquals(leg2, ride.start());
        assertEquals(200, ride.effort().samples());
        // 199 steps of 8 m, and the step into the leg where the count began again.
        assertEquals(199 * 8 + (odometer < 100 ? 8 : 0), ride.distance().metres(), 1e-3);
        assertEquals(1, ride.key().session());
    }

    private static void sessions(FitFixture f, Instant leg2) {
        // No distance in the summaries, so that the records must say it.
        f.session(START, 101, 0, Sport.SWIMMING, s -> s.setTotalDistance(null));
        f.session(leg2, 200, 0, Sport.CYCLING, s -> s.setTotalDistance(null));
    }

    @Test
    void recordsAfterAPauseLeftOutOfTheElapsedTimeStayInTheirSession() throws RideFileException {
        Instant late = START.plusSeconds(3000);
        Decoded decoded = decode(FitFixture.activity()
                .session(START, 100, 0, Sport.CYCLING, s -> s.setTotalDistance(null))
                .session(START.plusSeconds(4000), 100, 800, Sport.RUNNING, SubSport.GENERIC)
                .records(START, 100, 0)
                .records(late, 100, 792)
                .bytes());
        assertEquals(200, decoded.activities().get(0).effort().samples());
        assertEquals(792 + 99 * 8, decoded.activities().get(0).distance().metres(), 1e-3);
    }

    @Test
    void chainedActivitiesWithSettingsBetween() throws RideFileException {
        byte[] one = FitFixture.tenMinutes();
        byte[] settings = new FitFixture().fileId(com.garmin.fit.File.SETTINGS).bytes();
        byte[] two = FitFixture.activity()
                .records(START.plusSeconds(9000), 100, 0)
                .session(START.plusSeconds(9000), 100, 800, Sport.CYCLING, SubSport.GENERIC)
                .bytes();
        Decoded decoded = decode(join(one, settings, two));
        assertEquals(2, decoded.activities().size());
        assertEquals(4800, decoded.activities().get(0).distance().metres());
        assertEquals(800, decoded.activities().get(1).distance().metres());
        assertEquals(1, decoded.passed().size());
        assertEquals(
                "a FIT file of type settings, no activity",
                decoded.passed().get(0).what());
    }

    static byte[] join(byte[]... parts) {
        java.io.ByteArrayOutputStream all = new java.io.ByteArrayOutputStream();
        for (byte[] part : parts) {
            all.writeBytes(part);
        }
        return all.toByteArray();
    }

    @Test
    void bigEndianRecords() throws RideFileException {
        long t = START.getEpochSecond() - 631_065_600L;
        FitFixture.Raw raw = new FitFixture.Raw()
                .define(0, true, 20, 253, 4, 0x86, 5, 4, 0x86, 7, 2, 0x84)
                .define(1, true, 18, 2, 4, 0x86, 7, 4, 0x86, 9, 4, 0x86, 5, 1, 0x00);
        for (int i = 0; i < 50; i++) {
            raw.bytes(0).whole(t + i, 4, true).whole(700L * i, 4, true).whole(210, 2, true);
        }
        raw.bytes(1)
                .whole(t, 4, true)
                .whole(50_000, 4, true)
                .whole(34_300, 4, true)
                .bytes(2);
        Ride ride = only(raw.file());
        assertEquals(START, ride.start());
        assertEquals(343, ride.distance().metres(), 1e-9);
        assertEquals(50, ride.elapsedSeconds(), 1e-9);
        assertEquals(210, ride.effort().watts(), 1e-9);
        assertEquals("cycling", ride.activity().sport());
    }

    @Test
    void compressedTimestamps() throws RideFileException {
        // A multiple of 32, so that the five bits of the compressed header count on from it.
        Instant from = Instant.ofEpochSecond(START.getEpochSecond() / 32 * 32);
        long t = from.getEpochSecond() - 631_065_600L;
        long aligned = t - t % 32;
        FitFixture.Raw raw = new FitFixture.Raw()
                .define(0, false, 20, 253, 4, 0x86, 5, 4, 0x86)
                .define(1, false, 20, 5, 4, 0x86);
        raw.bytes(0).whole(aligned, 4, false).whole(0, 4, false);
        for (int i = 1; i <= 100; i++) {
            raw.bytes(0x80 | 1 << 5 | i % 32).whole(600L * i, 4, false);
        }
        Ride ride = only(raw.file());
        assertEquals(aligned + 631_065_600L, ride.start().getEpochSecond());
        assertEquals(100, ride.elapsedSeconds(), 1e-9);
        assertEquals(600, ride.distance().metres(), 1e-9);
    }

    @Test
    void speedAndDistancePackedTogether() throws RideFileException {
        long t = START.getEpochSecond() - 631_065_600L;
        FitFixture.Raw raw = new FitFixture.Raw().define(0, false, 20, 253, 4, 0x86, 8, 3, 0x0D);
        for (int i = 0; i < 300; i++) {
            // 12 bits of speed in 1/100 m/s, 12 bits of distance in 1/16 m that roll over at 256 m.
            int speed = 850;
            int distance = i * 8 * 16 & 0xFFF;
            raw.bytes(0).whole(t + i, 4, false).bytes(speed & 0xFF, speed >> 8 | (distance & 0xF) << 4, distance >> 4);
        }
        Ride ride = only(raw.file());
        assertEquals(299 * 8, ride.distance().metres(), 0.5);
        assertEquals(8.55, ride.effort().medianSpeed(), 0.1);
    }

    @Test
    void developerFieldsAreReadOver() throws RideFileException {
        DeveloperDataIdMesg id = new DeveloperDataIdMesg();
        id.setDeveloperDataIndex((short) 0);
        FieldDescriptionMesg field = new FieldDescriptionMesg();
        field.setDeveloperDataIndex((short) 0);
        field.setFieldDefinitionNumber((short) 0);
        field.setFitBaseTypeId(FitBaseType.SINT8);
        field.setFieldName(0, "grip");
        FitFixture f = FitFixture.activity().write(id).write(field);
        for (int i = 0; i < 60; i++) {
            RecordMesg r = new RecordMesg();
            r.setTimestamp(FitFixture.time(START.plusSeconds(i)));
            r.setDistance(5f * i);
            DeveloperField value = new DeveloperField(field, id);
            value.setValue((byte) i);
            r.addDeveloperField(value);
            f.write(r);
        }
        assertEquals(295, only(f.bytes()).distance().metres(), 1e-3);
    }

    @Test
    void devicesWithTypeAndSerial() throws RideFileException {
        Ride ride = only(FitFixture.activity()
                .device(0, 1, SourceType.LOCAL, d -> d.setSerialNumber(77L))
                .device(1, 11, SourceType.ANTPLUS, d -> d.setSerialNumber(4242L))
                .device(2, 34, SourceType.ANTPLUS, d -> d.setAntDeviceNumber(14001))
                .device(3, 123, SourceType.ANTPLUS, d -> d.setSerialNumber(0xFFFF_FFFFL))
                .device(4, 122, SourceType.ANTPLUS, d -> d.setSerialNumber(0L))
                .device(5, 1, SourceType.ANT, d -> d.setSerialNumber(4242L))
                .device(6, 120, SourceType.BLUETOOTH_LOW_ENERGY, d -> d.setSerialNumber(412L))
                .device(1, 11, SourceType.ANTPLUS, d -> d.setSerialNumber(4242L))
                .records(START, 60, 0)
                .device(2, 34, SourceType.ANTPLUS, d -> d.setSerialNumber(99L))
                .session(START, 60, 480, Sport.CYCLING, SubSport.ROAD)
                .bytes());
        assertEquals(
                List.of(
                        "head_unit:77",
                        "bike_power:4242",
                        "shifting:ant-14001",
                        "ant-type1:4242",
                        "bluetooth_low_energy-type120:412",
                        "shifting:99"),
                ride.devices().stream().map(Ride.Device::name).toList());
    }

    @Test
    void gearsByRingAndCogAndAnImpossibleRingPosition() throws RideFileException {
        Ride ride = only(FitFixture.activity()
                .records(START, 1, 0)
                .shift(START, 8, 21, 21)
                .records(START.plusSeconds(1), 50, 8)
                .shift(START.plusSeconds(50), 2, 50, 17)
                .records(START.plusSeconds(51), 100, 408)
                .session(START, 151, 1208, Sport.CYCLING, SubSport.ROAD)
                .bytes());
        // Before the ring is known: 8 m/s at 90 turns a minute is 5.33 m a turn, in the band from 5.25 to 5.5 m.
        List<chainage.ride.Pedalling.Row> rows = ride.pedalling().rows();
        assertEquals(2, rows.size(), rows.toString());
        assertEquals(5.375, rows.get(0).development(), 1e-9);
        assertEquals(50, rows.get(0).seconds(), 1e-9);
        assertEquals(50, rows.get(1).ring());
        assertEquals(17, rows.get(1).cog());
        assertEquals(100, rows.get(1).seconds(), 1e-9);
        assertEquals(20_000, rows.get(1).joules(), 1e-6);
        assertEquals(800, rows.get(1).metres(), 1e-3);
    }

    @Test
    void weatherAsGiven() throws RideFileException {
        WeatherConditionsMesg now = new WeatherConditionsMesg();
        now.setTimestamp(FitFixture.time(START.plusSeconds(30)));
        now.setObservedAtTime(FitFixture.time(START.minusSeconds(600)));
        now.setWeatherReport(WeatherReport.CURRENT);
        now.setCondition(WeatherStatus.LIGHT_RAIN);
        now.setTemperature((byte) 11);
        now.setRelativeHumidity((short) 92);
        WeatherConditionsMesg later = new WeatherConditionsMesg();
        later.setTimestamp(FitFixture.time(START.minusSeconds(900)));
        later.setWeatherReport(WeatherReport.HOURLY_FORECAST);
        later.setCondition(WeatherStatus.CLEAR);
        Ride ride = only(FitFixture.activity()
                .write(now)
                .write(later)
                .records(START, 60, 0)
                .session(START, 60, 480, Sport.CYCLING, SubSport.ROAD)
                .bytes());
        assertEquals(
                List.of(
                        new Ride.WeatherReport(START.minusSeconds(900), false, "clear", Double.NaN, Double.NaN),
                        new Ride.WeatherReport(START.minusSeconds(600), true, "light_rain", 11, 92)),
                ride.weather());
    }

    @Test
    void absurdPowerIsNoPower() throws RideFileException {
        FitFixture f = FitFixture.activity();
        for (int i = 0; i < 60; i++) {
            int watts = i % 2 == 0 ? 65_534 : 150;
            float metres = 6f * i;
            f.record(START.plusSeconds(i), r -> {
                r.setPower(watts);
                r.setDistance(metres);
            });
        }
        f.session(START, 60, 360, Sport.CYCLING, s -> s.setAvgPower(65_534));
        assertEquals(150, only(f.bytes()).effort().watts(), 1e-9);
    }

    @Test
    void meanPowerOfZeroWithoutAMeterIsNoPower() throws RideFileException {
        FitFixture f = FitFixture.activity().record(START, r -> r.setDistance(0f));
        f.record(START.plusSeconds(60), r -> r.setDistance(400f));
        f.session(START, 60, 400, Sport.CYCLING, s -> s.setAvgPower(0));
        assertTrue(Double.isNaN(only(f.bytes()).effort().watts()));
    }

    @Test
    void impossibleTotalFallsBackToTheOdometer() throws RideFileException {
        Ride ride = only(FitFixture.activity()
                .records(START, 101, 0)
                .session(START, 100, 10_000_000, Sport.CYCLING, SubSport.ROAD)
                .bytes());
        assertEquals(new Ride.Distance(800, MetresFrom.DEVICE_ODOMETER), ride.distance());
        assertTrue(
                ride.remarks().get(0).contains("10000000 m is impossible"),
                ride.remarks().toString());
    }

    @Test
    void impossibleTotalWithNothingBetterIsRefused() throws RideFileException {
        Decoded decoded = decode(FitFixture.activity()
                .session(START, 100, 10_000_000, Sport.CYCLING, SubSport.ROAD)
                .bytes());
        assertEquals(List.of(), decoded.activities());
        assertTrue(decoded.passed().get(0).refused());
        assertEquals(
                "an activity (cycling) with an impossible distance of 10000000 m",
                decoded.passed().get(0).what());
    }

    @ParameterizedTest(name = "{0} {1}")
    @CsvSource(textBlock = """
            1990-01-02T00:00:00Z, CYCLING, true
            1990-01-02T00:00:00Z, GENERIC, true
            1990-01-02T00:00:00Z, RUNNING, false
            2087-06-01T12:00:00Z, CYCLING, true
            2087-06-01T12:00:00Z, SWIMMING, false
            """)
    void impossibleDates(Instant start, Sport sport, boolean refused) throws RideFileException {
        Decoded decoded = decode(FitFixture.activity()
                .records(start, 60, 0)
                .session(start, 60, 480, sport, SubSport.GENERIC)
                .bytes());
        assertEquals(List.of(), decoded.activities());
        assertEquals(refused, decoded.passed().get(0).refused());
        assertTrue(
                decoded.passed().get(0).what().contains(start.toString()),
                decoded.passed().toString());
    }

    @Test
    void clockSetDuringTheRide() throws RideFileException {
        Instant wrong = START.minus(Duration.ofDays(8));
        Ride ride = only(FitFixture.activity()
                .records(wrong, 100, 0)
                .records(START.plusSeconds(100), 500, 800)
                .session(wrong, 600, 4800, Sport.CYCLING, SubSport.ROAD)
                .bytes());
        assertEquals(START, ride.start().plusSeconds(1));
        assertTrue(
                ride.remarks().get(0).startsWith("the clock was wrong at first"),
                ride.remarks().toString());
    }

    @Test
    void clockSetDuringARideWithoutASession() throws RideFileException {
        Ride ride = only(FitFixture.activity()
                .records(Instant.parse("1990-01-01T00:00:00Z"), 100, 0)
                .records(START, 500, 800)
                .bytes());
        // 99 s before the jump and 499 s after it; the jump itself has no length.
        assertEquals(START.minusSeconds(99), ride.start());
        assertEquals(598, ride.elapsedSeconds());
    }

    @Test
    void aRideDoesNotMoveLongerThanItLasts() throws RideFileException {
        Ride ride = only(FitFixture.activity()
                .records(START, 1000, 0)
                .session(START, 300, 2400, Sport.CYCLING, s -> s.setTotalTimerTime(null))
                .bytes());
        assertEquals(300, ride.movingSeconds());
    }

    @Test
    void withoutDistanceThePositionsCountButNotAcrossAPause() throws RideFileException {
        FitFixture f = FitFixture.activity();
        // The pause is spent on 28 m, few enough to be a step of one second.
        // 2^31 semicircles are 180 degrees; 1 degree of longitude on the equator is 111,319.49 m (geodesics.csv).
        int step = (int) Math.round(10 / 111_319.490793 / 180 * (1L << 31));
        for (int i = 0; i < 100; i++) {
            int east = 100_000_000 + i * step + (i < 50 ? 0 : 3_000);
            if (i == 50) {
                com.garmin.fit.EventMesg stop = new com.garmin.fit.EventMesg();
                stop.setTimestamp(FitFixture.time(START.plusSeconds(i)));
                stop.setEvent(com.garmin.fit.Event.TIMER);
                stop.setEventType(com.garmin.fit.EventType.STOP_ALL);
                f.write(stop);
            }
            f.record(START.plusSeconds(i), r -> {
                r.setPositionLat(0);
                r.setPositionLong(east);
            });
        }
        Ride ride = only(f.bytes());
        assertEquals(MetresFrom.POSITIONS, ride.distance().from());
        assertEquals(98 * 10, ride.distance().metres(), 0.5);
    }

    @Test
    void withoutAnythingElseTheSpeedCounts() throws RideFileException {
        FitFixture f = FitFixture.activity();
        for (int i = 0; i <= 100; i++) {
            f.record(START.plusSeconds(i), r -> r.setSpeed(7.5f));
        }
        assertEquals(new Ride.Distance(750, MetresFrom.SPEED), only(f.bytes()).distance());
    }

    @Test
    void ridePastMidnightWithALongPauseKeepsItsStart() throws RideFileException {
        Ride ride = only(FitFixture.activity()
                .records(START, 100, 0)
                .records(START.plus(Duration.ofHours(13)), 100, 800)
                .session(START, 200, 1600, Sport.CYCLING, SubSport.ROAD)
                .bytes());
        assertEquals(START, ride.start());
        assertEquals(200, ride.elapsedSeconds());
    }

    @Test
    void totalOfZeroIndoorsStaysZero() throws RideFileException {
        FitFixture f = FitFixture.activity();
        for (int i = 0; i < 120; i++) {
            f.record(START.plusSeconds(i), r -> r.setPower(180));
        }
        Ride ride = only(
                f.session(START, 120, 0, Sport.CYCLING, SubSport.INDOOR_CYCLING).bytes());
        assertEquals(new Ride.Distance(0, MetresFrom.DEVICE_TOTAL), ride.distance());
        assertEquals(180, ride.effort().watts(), 1e-9);
    }

    @Test
    void deviceTotalWinsOverShortRecordsAndSaysSo() throws RideFileException {
        Ride ride = only(FitFixture.activity()
                .records(START, 51, 0)
                .session(START, 4000, 32_000, Sport.CYCLING, SubSport.ROAD)
                .bytes());
        assertEquals(32_000, ride.distance().metres());
        assertEquals(List.of("device total 32000 m used; the samples count 400 m"), ride.remarks());
    }

    @Test
    void otherFileTypesAreNoErrors() throws RideFileException {
        Decoded decoded =
                decode(new FitFixture().fileId(com.garmin.fit.File.WORKOUT).bytes());
        assertEquals(List.of(), decoded.activities());
        assertEquals(
                List.of(new Decoded.Passed(0, false, "a FIT file of type workout, no activity", "")), decoded.passed());
    }

    private static LapMesg lap(Instant from, double seconds, double metres) {
        LapMesg lap = new LapMesg();
        lap.setTimestamp(FitFixture.time(from.plusSeconds((long) seconds)));
        lap.setStartTime(FitFixture.time(from));
        lap.setTotalElapsedTime((float) seconds);
        lap.setTotalTimerTime((float) seconds);
        lap.setTotalDistance((float) metres);
        lap.setSport(Sport.CYCLING);
        return lap;
    }

    @Test
    void lapsWithoutASessionAreARide() throws RideFileException {
        Ride ride = only(FitFixture.activity()
                .write(lap(START, 1800, 12_000))
                .write(lap(START.plusSeconds(1900), 1700, 13_000))
                .bytes());
        assertEquals(START, ride.start());
        assertEquals(3600, ride.elapsedSeconds());
        assertEquals(3500, ride.movingSeconds());
        assertEquals(new Ride.Distance(25_000, MetresFrom.DEVICE_TOTAL), ride.distance());
        assertEquals(Kind.CYCLING, ride.activity().kind());
        assertEquals(
                List.of(
                        "no session summary: built from the laps",
                        "no total and no odometer: the laps' 25000 m are used"),
                ride.remarks());
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', nullValues = "-", textBlock = """
            # case                             | session | odometer | laps  | positions | metres | from
            laps before nothing                | -       | 0        | 12000 | 0         | 12000  | DEVICE_TOTAL
            laps beside a total of nothing     | 0       | 0        | 12000 | 0         | 12000  | DEVICE_TOTAL
            laps before positions              | -       | 0        | 12000 | 14360     | 12000  | DEVICE_TOTAL
            laps that lack most of the way     | -       | 0        | 4000  | 14360     | 14360  | POSITIONS
            odometer before laps               | -       | 14360    | 4000  | 0         | 14360  | DEVICE_ODOMETER
            odometer before positions          | -       | 13000    | 0     | 14360     | 13000  | DEVICE_ODOMETER
            an odometer that stopped           | -       | 400      | 0     | 14360     | 14360  | POSITIONS
            total before all                   | 15000   | 400      | 4000  | 14360     | 15000  | DEVICE_TOTAL
            total, though the positions differ | 6000    | 6000     | 6000  | 14360     | 6000   | DEVICE_TOTAL
            """)
    void whichDistance(
            String title,
            Double session,
            double odometer,
            double laps,
            double positions,
            double metres,
            MetresFrom from)
            throws RideFileException {
        FitFixture fit = FitFixture.activity();
        // 360 records, 5 s apart, on the parallel of 10° north, where a degree of WGS84 is 109,639.4 m: pi/180 a
        // cos(10°) / sqrt(1 - e² sin²(10°)).
        for (int i = 0; i < 360; i++) {
            double share = i / 359.0;
            fit.record(START.plusSeconds(5L * i), r -> {
                r.setHeartRate((short) 120);
                if (odometer > 0) {
                    r.setDistance((float) Math.min(odometer, share * 14_360));
                }
                if (positions > 0) {
                    r.setPositionLat((int) (10 * 11_930_464.7));
                    r.setPositionLong((int) ((20 + share * positions / 109_639.4) * 11_930_464.7));
                }
            });
        }
        if (laps > 0) {
            fit.write(lap(START, 1795, laps));
        }
        if (session != null) {
            fit.session(START, 1795, session, Sport.CYCLING, SubSport.ROAD);
        }
        Ride ride = only(fit.bytes());
        assertEquals(from, ride.distance().from());
        assertEquals(metres, ride.distance().metres(), 20);
        assertEquals(1795, ride.elapsedSeconds());
        boolean gross = session != null && session == 6000;
        assertEquals(
                gross,
                ride.remarks().stream()
                        .anyMatch(r -> r.startsWith("device total 6000 m used; its positions make 143")));
        boolean stopped = from == MetresFrom.POSITIONS;
        assertEquals(stopped, ride.remarks().stream().anyMatch(r -> r.startsWith("only ")));
    }

    @Test
    void lapsAreDealtToTheirSessions() throws RideFileException {
        Instant second = START.plusSeconds(2000);
        Decoded decoded = decode(FitFixture.activity()
                .write(lap(START, 1800, 12_000))
                .write(lap(second, 900, 3_000))
                .write(lap(second.plusSeconds(900), 900, 4_000))
                .session(START, 1800, 0, Sport.CYCLING, SubSport.ROAD)
                .session(second, 1800, 0, Sport.CYCLING, SubSport.ROAD)
                .bytes());
        assertEquals(
                List.of(12_000.0, 7_000.0),
                decoded.activities().stream().map(r -> r.distance().metres()).toList());
    }

    @Test
    void aStatedTimeFarBelowTheRecordsIsNotBelieved() throws RideFileException {
        Ride ride = only(FitFixture.activity()
                .records(START, 1801, 0)
                .session(START, 1.8, 14_400, Sport.CYCLING, SubSport.ROAD)
                .bytes());
        assertEquals(1800, ride.elapsedSeconds());
        assertEquals(1800, ride.movingSeconds());
        assertEquals(14_400, ride.distance().metres());
        assertEquals(
                List.of("the file says that it took 2 s, its samples span 1800 s, which are used"), ride.remarks());
    }

    @Test
    void weatherThatDoesNotSayWhetherItIsAForecastIsTakenForOne() throws RideFileException {
        WeatherConditionsMesg weather = new WeatherConditionsMesg();
        weather.setTimestamp(FitFixture.time(START));
        weather.setCondition(WeatherStatus.RAIN);
        Ride ride =
                only(FitFixture.activity().write(weather).records(START, 60, 0).bytes());
        assertEquals(List.of(new Ride.WeatherReport(START, false, "rain", Double.NaN, Double.NaN)), ride.weather());
    }

    /** FIT profile, activity message: local_timestamp is the "timestamp epoch expressed in local time". */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', nullValues = "-", textBlock = """
            # case               | s ahead of UTC | offset
            Kathmandu            |  20700         | +05:45
            St John's, winter    | -12600         | -03:30
            UTC                  |      0         | +00:00
            stamps a few s apart |   7203         | +02:00
            no whole quarter     |   7300         | -
            a clock never set    | -1083000000    | -
            east of the last     |  54000         | -
            not stated           |      -         | -
            """)
    void theLocalTimeIsTheActivitys(String title, @Nullable Long ahead, @Nullable String offset) throws Exception {
        ActivityMesg m = new ActivityMesg();
        m.setTimestamp(FitFixture.time(FitFixture.START));
        if (ahead != null) {
            m.setLocalTimestamp(FitFixture.time(FitFixture.START).getTimestamp() + ahead);
        }
        byte[] content = FitFixture.activity()
                .records(FitFixture.START, 600, 0)
                .session(FitFixture.START, 600, 4800, Sport.CYCLING, SubSport.ROAD)
                .write(m)
                .bytes();
        Ride ride = RideFiles.decode(content, FitFixture.LATEST).activities().get(0);
        assertEquals(offset == null ? null : ZoneOffset.of(offset), ride.offset(), title);
    }
}
