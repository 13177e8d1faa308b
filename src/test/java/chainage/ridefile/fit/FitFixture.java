package chainage.ridefile.fit;

import com.garmin.fit.BufferEncoder;
import com.garmin.fit.CRC;
import com.garmin.fit.DateTime;
import com.garmin.fit.DeviceInfoMesg;
import com.garmin.fit.Event;
import com.garmin.fit.EventMesg;
import com.garmin.fit.EventType;
import com.garmin.fit.File;
import com.garmin.fit.FileIdMesg;
import com.garmin.fit.Fit;
import com.garmin.fit.Mesg;
import com.garmin.fit.RecordMesg;
import com.garmin.fit.SessionMesg;
import com.garmin.fit.SourceType;
import com.garmin.fit.Sport;
import com.garmin.fit.SubSport;
import java.io.ByteArrayOutputStream;
import java.time.Instant;
import java.util.function.Consumer;

/** Writes small FIT files with the SDK's encoder; what the encoder cannot write comes from {@link Raw}. */
final class FitFixture {
    static final Instant START = Instant.parse("2024-05-04T08:00:00Z");
    static final Instant LATEST = Instant.parse("2026-01-01T00:00:00Z");

    private final BufferEncoder out = new BufferEncoder(Fit.ProtocolVersion.V2_0);

    FitFixture() {
        out.open();
    }

    static FitFixture activity() {
        return new FitFixture().fileId(File.ACTIVITY);
    }

    static DateTime time(Instant at) {
        return new DateTime(at.getEpochSecond() - 631_065_600L);
    }

    FitFixture write(Mesg m) {
        out.write(m);
        return this;
    }

    FitFixture fileId(File type) {
        FileIdMesg id = new FileIdMesg();
        id.setType(type);
        id.setTimeCreated(time(START));
        return write(id);
    }

    /** One record a second: 8 m each from {@code odometer}, 200 W, 90 turns a minute. */
    FitFixture records(Instant from, int count, double odometer) {
        for (int i = 0; i < count; i++) {
            RecordMesg r = new RecordMesg();
            r.setTimestamp(time(from.plusSeconds(i)));
            r.setDistance((float) (odometer + 8 * i));
            r.setSpeed(8f);
            r.setPower(200);
            r.setCadence((short) 90);
            write(r);
        }
        return this;
    }

    FitFixture record(Instant at, Consumer<RecordMesg> fields) {
        RecordMesg r = new RecordMesg();
        r.setTimestamp(time(at));
        fields.accept(r);
        return write(r);
    }

    FitFixture session(Instant from, double seconds, double metres, Sport sport, SubSport subSport) {
        return session(from, seconds, metres, sport, s -> s.setSubSport(subSport));
    }

    FitFixture session(Instant from, double seconds, double metres, Sport sport, Consumer<SessionMesg> more) {
        SessionMesg s = new SessionMesg();
        s.setStartTime(time(from));
        s.setTimestamp(time(from.plusSeconds((long) seconds)));
        s.setTotalElapsedTime((float) seconds);
        s.setTotalTimerTime((float) seconds);
        s.setTotalDistance((float) metres);
        s.setSport(sport);
        more.accept(s);
        return write(s);
    }

    FitFixture device(int index, int type, SourceType source, Consumer<DeviceInfoMesg> more) {
        DeviceInfoMesg d = new DeviceInfoMesg();
        d.setTimestamp(time(START));
        d.setDeviceIndex((short) index);
        d.setDeviceType((short) type);
        d.setSourceType(source);
        more.accept(d);
        return write(d);
    }

    FitFixture shift(Instant at, int position, int ring, int cog) {
        EventMesg e = new EventMesg();
        e.setTimestamp(time(at));
        e.setEvent(Event.REAR_GEAR_CHANGE);
        e.setEventType(EventType.MARKER);
        // The profile packs both positions and both teeth into one number, rear first.
        e.setData((long) cog << 8 | (long) position << 16 | (long) ring << 24 | 3);
        return write(e);
    }

    byte[] bytes() {
        return out.close();
    }

    /** A plain ten-minute ride: 600 records, 4,792 m. */
    static byte[] tenMinutes() {
        return activity()
                .device(0, 1, SourceType.LOCAL, d -> d.setSerialNumber(1234567L))
                .records(START, 600, 0)
                .session(START, 600, 4800, Sport.CYCLING, SubSport.ROAD)
                .bytes();
    }

    /** Messages written byte by byte, as the protocol describes them. */
    static final class Raw {
        private final ByteArrayOutputStream data = new ByteArrayOutputStream();

        /** A definition: fields as number, size, base type. */
        Raw define(int local, boolean bigEndian, int global, int... fields) {
            bytes(0x40 | local, 0, bigEndian ? 1 : 0);
            whole(global, 2, bigEndian);
            bytes(fields.length / 3);
            bytes(fields);
            return this;
        }

        Raw bytes(int... values) {
            for (int v : values) {
                data.write(v);
            }
            return this;
        }

        Raw whole(long value, int size, boolean bigEndian) {
            for (int i = 0; i < size; i++) {
                data.write((int) (value >>> (8 * (bigEndian ? size - 1 - i : i))));
            }
            return this;
        }

        byte[] file() {
            byte[] body = data.toByteArray();
            ByteArrayOutputStream file = new ByteArrayOutputStream();
            file.writeBytes(new byte[] {12, 0x10, 0, 0});
            for (int i = 0; i < 4; i++) {
                file.write(body.length >>> (8 * i));
            }
            file.writeBytes(new byte[] {'.', 'F', 'I', 'T'});
            file.writeBytes(body);
            int crc = 0;
            for (byte b : file.toByteArray()) {
                crc = CRC.get16(crc, b);
            }
            file.write(crc);
            file.write(crc >>> 8);
            return file.toByteArray();
        }
    }
}
