package chainage.ridefile.fit;

import chainage.ride.Ride;
import chainage.ride.RideFold;
import com.garmin.fit.ActivityMesg;
import com.garmin.fit.File;
import com.garmin.fit.FileIdMesg;
import com.garmin.fit.LapMesg;
import com.garmin.fit.MesgNum;
import com.garmin.fit.RecordMesg;
import com.garmin.fit.SportMesg;
import com.garmin.fit.WorkoutMesg;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** What one part of a FIT file says: summaries, devices, weather, and all records folded into one activity. */
final class PartMessages implements Message.Listener {
    private static final int MOST_SESSIONS = 1000;

    // Seconds. Zones lie between UTC-12 and UTC+14 (IANA time-zone data); the two stamps may be a few apart (our
    // guess).
    private static final long QUARTER = 900;
    private static final long CLOCK = 30;
    private static final long WESTERNMOST = -12 * 3600;
    private static final long EASTERNMOST = 14 * 3600;

    private final RideFold fold = new RideFold();
    private final RecordReader records = new RecordReader(fold);
    private final DeviceList devices = new DeviceList();
    private final DeviceWeather weather = new DeviceWeather();
    private final List<SessionFacts> sessions = new ArrayList<>();
    private int messages;
    private int recordCount;
    private int datedRecords;
    private @Nullable File type;
    private boolean typeStated;
    private long typeNumber;
    private Sports.Stated sport = Sports.Stated.NOTHING;
    private Sports.Stated lapSport = Sports.Stated.NOTHING;
    private String sportName = "";
    private String workout = "";
    private String workoutNotes = "";
    private final List<String> remarks = new ArrayList<>();
    private @Nullable String broken;
    private boolean torn;
    private @Nullable ZoneOffset offset;
    private final Laps laps = new Laps();

    @Override
    public void on(Message m) {
        messages++;
        switch (m.kind()) {
            case MesgNum.RECORD -> {
                recordCount++;
                datedRecords += m.whole(RecordMesg.TimestampFieldNum) >= 0 ? 1 : 0;
                records.record(m);
            }
            case MesgNum.EVENT -> records.event(m);
            case MesgNum.SESSION -> {
                if (sessions.size() < MOST_SESSIONS) {
                    sessions.add(SessionFacts.of(m));
                }
            }
            case MesgNum.ACTIVITY -> offset = offset == null ? offset(m) : offset;
            case MesgNum.DEVICE_INFO -> devices.add(m);
            case MesgNum.WEATHER_CONDITIONS -> weather.add(m);
            case MesgNum.FILE_ID -> fileId(m);
            case MesgNum.LAP -> {
                lapSport = lapSport.or(Sports.stated(m, LapMesg.SportFieldNum, LapMesg.SubSportFieldNum));
                laps.add(m);
            }
            case MesgNum.SPORT -> {
                sport = sport.or(Sports.stated(m, SportMesg.SportFieldNum, SportMesg.SubSportFieldNum));
                sportName = sportName.isEmpty() ? m.text(SportMesg.NameFieldNum) : sportName;
            }
            case MesgNum.WORKOUT -> {
                workout = workout.isEmpty() ? m.text(WorkoutMesg.WktNameFieldNum) : workout;
                workoutNotes = workoutNotes.isEmpty() ? m.text(WorkoutMesg.WktDescriptionFieldNum) : workoutNotes;
            }
            default -> {
                // Zones, settings, heart-beat intervals and the many others say nothing about a chain.
            }
        }
    }

    /**
     * How far the local time is from UTC: the profile's "timestamp epoch expressed in local time". Zones are whole
     * quarters of an hour apart; what is not, is a clock that was not set, and says nothing.
     */
    private static @Nullable ZoneOffset offset(Message m) {
        long local = m.whole(ActivityMesg.LocalTimestampFieldNum);
        long utc = m.whole(ActivityMesg.TimestampFieldNum);
        if (local < 0 || utc < 0) {
            return null;
        }
        long quarters = Math.round((local - utc) / (double) QUARTER);
        boolean zone = Math.abs(local - utc - quarters * QUARTER) <= CLOCK
                && quarters * QUARTER >= WESTERNMOST
                && quarters * QUARTER <= EASTERNMOST;
        return zone ? ZoneOffset.ofTotalSeconds((int) (quarters * QUARTER)) : null;
    }

    /** The local time's offset from UTC; null where the part states none. */
    @Nullable
    ZoneOffset offset() {
        return offset;
    }

    private void fileId(Message m) {
        if (!typeStated) {
            long number = m.whole(FileIdMesg.TypeFieldNum);
            typeStated = number >= 0;
            typeNumber = number;
            type = number >= 0 ? File.getByValue((short) number) : null;
        }
    }

    void remark(String remark) {
        remarks.add(remark);
    }

    /** What the decoding had to decide. */
    List<String> remarks() {
        return remarks;
    }

    void ended(@Nullable String how, boolean early) {
        broken = how;
        torn = early;
    }

    /** What broke the part; null for a whole one. */
    @Nullable
    String broken() {
        return broken;
    }

    boolean torn() {
        return torn;
    }

    /** True when the part is, or may be, an activity and holds a session, a lap or a time ridden through. */
    boolean isActivity() {
        return otherType().isEmpty() && (!sessions.isEmpty() || datedRecords > 1 || laps.ridden());
    }

    /** The part's kind where it states one and it is no activity; else empty. */
    String otherType() {
        if (!typeStated || type == File.ACTIVITY) {
            return "";
        }
        String word = MessageValues.word(type);
        return word.isEmpty() ? Long.toString(typeNumber) : word;
    }

    /** What the part is when it is no activity. */
    String describe() {
        return otherType().isEmpty()
                ? "a FIT file without a session or dated records (" + messages + " messages)"
                : "a FIT file of type " + otherType().replace('_', ' ') + ", no activity";
    }

    RideFold fold() {
        return fold;
    }

    List<SessionFacts> sessions() {
        return sessions;
    }

    int records() {
        return recordCount;
    }

    /** True when the records span a time. */
    boolean timed() {
        return datedRecords > 1;
    }

    Laps laps() {
        return laps;
    }

    /** The sport of a session that states none itself. */
    Sports.Stated sport() {
        return sport.or(lapSport);
    }

    List<Ride.Device> devices() {
        return devices.list();
    }

    List<Ride.WeatherReport> weather() {
        return weather.list();
    }

    /** Workout name and description, and the names of the sport profile. */
    Ride.Labels labels(String profileName) {
        String names = profileName.isEmpty() || profileName.equals(sportName)
                ? sportName
                : (profileName + " " + sportName).strip();
        return new Ride.Labels(workout, workoutNotes, names);
    }
}
