package chainage.bench;

import com.garmin.fit.Activity;
import com.garmin.fit.ActivityMesg;
import com.garmin.fit.BufferEncoder;
import com.garmin.fit.DateTime;
import com.garmin.fit.DeviceInfoMesg;
import com.garmin.fit.Event;
import com.garmin.fit.EventMesg;
import com.garmin.fit.EventType;
import com.garmin.fit.FileIdMesg;
import com.garmin.fit.Fit;
import com.garmin.fit.Manufacturer;
import com.garmin.fit.RecordMesg;
import com.garmin.fit.SessionMesg;
import com.garmin.fit.SourceType;
import com.garmin.fit.Sport;
import com.garmin.fit.SubSport;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import java.util.Locale;
import java.util.stream.IntStream;

/**
 * Writes folders of FIT rides, no two alike: one record a second with place, height, distance, speed, power, cadence,
 * pulse and temperature, the fields that a bike computer stores. All positions are in open ocean.
 */
public final class RideMaker {
    /** 2024-01-01T00:00:00Z in seconds since the epoch of FIT. */
    private static final long FIRST_START = 1_704_067_200L - 631_065_600L;
    /** Long past, so that no file looks as if it were still being written. */
    private static final FileTime WRITTEN = FileTime.from(Instant.parse("2026-01-01T00:00:00Z"));

    private static final int FILES_A_FOLDER = 100;

    private RideMaker() {}

    /** Makes one ride's content; the number makes it unlike all others. */
    public interface Maker {
        byte[] ride(int number, long afterSeconds, int seconds);
    }

    /**
     * Fills a folder.
     *
     * @param suffix of the files' names
     * @param spacingSeconds from one start to the next; more than {@code seconds}
     * @param seconds length of each
     * @return bytes written
     */
    public static long fill(Path folder, Maker maker, String suffix, int files, int spacingSeconds, int seconds)
            throws IOException {
        for (int i = 0; i < files; i += FILES_A_FOLDER) {
            Files.createDirectories(folder.resolve(folderName(i)));
        }
        return IntStream.range(0, files)
                .parallel()
                .mapToLong(i -> write(
                        folder.resolve(folderName(i)).resolve(String.format(Locale.ROOT, "%05d.%s", i, suffix)),
                        maker.ride(i, (long) i * spacingSeconds, seconds)))
                .sum();
    }

    private static String folderName(int file) {
        return String.format(Locale.ROOT, "%03d", file / FILES_A_FOLDER);
    }

    private static long write(Path file, byte[] content) {
        try {
            Files.write(file, content);
            Files.setLastModifiedTime(file, WRITTEN);
            return content.length;
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    /** One ride; the number makes it unlike all others. */
    public static byte[] ride(int number, long afterSeconds, int seconds) {
        long start = FIRST_START + afterSeconds;
        BufferEncoder encoder = new BufferEncoder(Fit.ProtocolVersion.V2_0);
        encoder.open();
        opening(encoder, start);
        RecordMesg record = new RecordMesg();
        double metres = 0;
        int noise = number * 7919 + 17;
        for (int second = 0; second <= seconds; second++) {
            noise = noise * 1_103_515_245 + 12_345;
            int spread = noise >>> 24;
            double speed = 7.5 + (number % 10) * 0.1 + spread / 256.0;
            metres += second == 0 ? 0 : speed;
            record.setTimestamp(new DateTime(start + second));
            record.setPositionLat(2_000_000 + (int) (metres * 107));
            record.setPositionLong(-358_000_000 + number);
            record.setAltitude(120f + spread / 5f);
            record.setDistance((float) metres);
            record.setSpeed((float) speed);
            record.setPower(120 + spread / 2);
            record.setCadence((short) (80 + spread / 20));
            record.setHeartRate((short) (125 + spread / 16));
            record.setTemperature((byte) 18);
            encoder.write(record);
        }
        closing(encoder, start, seconds, metres);
        return encoder.close();
    }

    private static void opening(BufferEncoder encoder, long start) {
        FileIdMesg id = new FileIdMesg();
        id.setType(com.garmin.fit.File.ACTIVITY);
        id.setManufacturer(Manufacturer.DEVELOPMENT);
        id.setProduct(1);
        id.setSerialNumber(70019999L);
        id.setTimeCreated(new DateTime(start));
        encoder.write(id);
        DeviceInfoMesg device = new DeviceInfoMesg();
        device.setTimestamp(new DateTime(start));
        device.setDeviceIndex((short) 1);
        device.setDeviceType(com.garmin.fit.AntplusDeviceType.BIKE_POWER);
        device.setSourceType(SourceType.ANTPLUS);
        device.setManufacturer(Manufacturer.DEVELOPMENT);
        device.setSerialNumber(31009999L);
        encoder.write(device);
        timer(encoder, start, EventType.START);
    }

    private static void closing(BufferEncoder encoder, long start, int seconds, double metres) {
        DateTime end = new DateTime(start + seconds);
        timer(encoder, start + seconds, EventType.STOP_ALL);
        SessionMesg session = new SessionMesg();
        session.setTimestamp(end);
        session.setStartTime(new DateTime(start));
        session.setTotalElapsedTime((float) seconds);
        session.setTotalTimerTime((float) seconds);
        session.setTotalDistance((float) metres);
        session.setSport(Sport.CYCLING);
        session.setSubSport(SubSport.ROAD);
        session.setEvent(Event.SESSION);
        session.setEventType(EventType.STOP);
        encoder.write(session);
        ActivityMesg activity = new ActivityMesg();
        activity.setTimestamp(end);
        activity.setTotalTimerTime((float) seconds);
        activity.setNumSessions(1);
        activity.setType(Activity.MANUAL);
        encoder.write(activity);
    }

    private static void timer(BufferEncoder encoder, long at, EventType type) {
        EventMesg event = new EventMesg();
        event.setTimestamp(new DateTime(at));
        event.setEvent(Event.TIMER);
        event.setEventType(type);
        encoder.write(event);
    }
}
