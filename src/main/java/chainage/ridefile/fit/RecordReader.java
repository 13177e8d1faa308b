package chainage.ridefile.fit;

import chainage.ride.RideFold;
import chainage.ride.Sample;
import com.garmin.fit.Event;
import com.garmin.fit.EventMesg;
import com.garmin.fit.EventType;
import com.garmin.fit.RecordMesg;

/**
 * Turns record and event messages into samples and shifts.
 *
 * <p>Speed, altitude and distance also come packed into other fields; the SDK unpacks them, which is why its expansion
 * of components stays on. Gear events need it too: their teeth are packed into one number.
 */
final class RecordReader {
    /** No crankset has more rings. A gear event with a higher position was written before the shifter was known. */
    private static final int MOST_RINGS = 3;

    private final RideFold fold;
    private boolean paused;

    RecordReader(RideFold fold) {
        this.fold = fold;
    }

    void record(Message m) {
        fold.add(sample(m, !paused));
        paused = false;
    }

    /** One record message as a sample. */
    static Sample sample(Message m, boolean joined) {
        return new Sample(
                MessageValues.millis(m, RecordMesg.TimestampFieldNum),
                MessageValues.degrees(m, RecordMesg.PositionLatFieldNum),
                MessageValues.degrees(m, RecordMesg.PositionLongFieldNum),
                m.number(RecordMesg.DistanceFieldNum),
                MessageValues.number(m, RecordMesg.EnhancedSpeedFieldNum, RecordMesg.SpeedFieldNum),
                m.number(RecordMesg.PowerFieldNum),
                m.number(RecordMesg.CadenceFieldNum),
                m.number(RecordMesg.TemperatureFieldNum),
                MessageValues.number(m, RecordMesg.EnhancedAltitudeFieldNum, RecordMesg.AltitudeFieldNum),
                joined);
    }

    void event(Message m) {
        Event event = Event.getByValue((short) m.whole(EventMesg.EventFieldNum));
        if (event == Event.TIMER) {
            EventType type = EventType.getByValue((short) m.whole(EventMesg.EventTypeFieldNum));
            paused |= type == EventType.STOP
                    || type == EventType.STOP_ALL
                    || type == EventType.STOP_DISABLE
                    || type == EventType.STOP_DISABLE_ALL;
        } else if (event == Event.FRONT_GEAR_CHANGE || event == Event.REAR_GEAR_CHANGE) {
            long position = m.whole(EventMesg.FrontGearNumFieldNum);
            long ring = position > MOST_RINGS ? 0 : m.whole(EventMesg.FrontGearFieldNum);
            fold.shift((int) ring, (int) m.whole(EventMesg.RearGearFieldNum));
        }
    }
}
