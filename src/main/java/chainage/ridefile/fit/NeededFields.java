package chainage.ridefile.fit;

import static com.garmin.fit.Fit.BASE_TYPE_ENUM;
import static com.garmin.fit.Fit.BASE_TYPE_SINT32;
import static com.garmin.fit.Fit.BASE_TYPE_SINT8;
import static com.garmin.fit.Fit.BASE_TYPE_STRING;
import static com.garmin.fit.Fit.BASE_TYPE_UINT16;
import static com.garmin.fit.Fit.BASE_TYPE_UINT16Z;
import static com.garmin.fit.Fit.BASE_TYPE_UINT32;
import static com.garmin.fit.Fit.BASE_TYPE_UINT32Z;
import static com.garmin.fit.Fit.BASE_TYPE_UINT8;

import com.garmin.fit.ActivityMesg;
import com.garmin.fit.DeveloperDataIdMesg;
import com.garmin.fit.DeviceInfoMesg;
import com.garmin.fit.EventMesg;
import com.garmin.fit.FieldDescriptionMesg;
import com.garmin.fit.FileIdMesg;
import com.garmin.fit.HrMesg;
import com.garmin.fit.LapMesg;
import com.garmin.fit.MesgNum;
import com.garmin.fit.RecordMesg;
import com.garmin.fit.SessionMesg;
import com.garmin.fit.SportMesg;
import com.garmin.fit.WeatherConditionsMesg;
import com.garmin.fit.WorkoutMesg;
import java.util.HashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * The fields that a ride is made of, with base type, scale and offset as the SDK's profile has them: a test compares
 * every one. Written out, so that the hot path needs none of the profile's own objects.
 */
final class NeededFields {
    private static final Map<Integer, NeededFields> BY_MESSAGE = new HashMap<>();

    static {
        message(MesgNum.RECORD)
                .time(RecordMesg.TimestampFieldNum)
                .field(RecordMesg.PositionLatFieldNum, BASE_TYPE_SINT32)
                .field(RecordMesg.PositionLongFieldNum, BASE_TYPE_SINT32)
                .field(RecordMesg.DistanceFieldNum, BASE_TYPE_UINT32, 100, 0)
                .field(RecordMesg.EnhancedSpeedFieldNum, BASE_TYPE_UINT32, 1000, 0)
                .field(RecordMesg.SpeedFieldNum, BASE_TYPE_UINT16, 1000, 0)
                .field(RecordMesg.PowerFieldNum, BASE_TYPE_UINT16)
                .field(RecordMesg.CadenceFieldNum, BASE_TYPE_UINT8)
                .field(RecordMesg.TemperatureFieldNum, BASE_TYPE_SINT8)
                .field(RecordMesg.EnhancedAltitudeFieldNum, BASE_TYPE_UINT32, 5, 500)
                .field(RecordMesg.AltitudeFieldNum, BASE_TYPE_UINT16, 5, 500)
                // Speed and distance in one, counted on from message to message.
                .leaveToSdk(RecordMesg.CompressedSpeedDistanceFieldNum);
        message(MesgNum.EVENT)
                .time(EventMesg.TimestampFieldNum)
                .field(EventMesg.EventFieldNum, BASE_TYPE_ENUM)
                .field(EventMesg.EventTypeFieldNum, BASE_TYPE_ENUM)
                .field(EventMesg.DataFieldNum, BASE_TYPE_UINT32)
                .leaveToSdk(EventMesg.Data16FieldNum)
                .leaveToSdk(EventMesg.RearGearNumFieldNum)
                .leaveToSdk(EventMesg.RearGearFieldNum)
                .leaveToSdk(EventMesg.FrontGearNumFieldNum)
                .leaveToSdk(EventMesg.FrontGearFieldNum);
        message(MesgNum.SESSION)
                .time(SessionMesg.TimestampFieldNum)
                .time(SessionMesg.StartTimeFieldNum)
                .field(SessionMesg.TotalElapsedTimeFieldNum, BASE_TYPE_UINT32, 1000, 0)
                .field(SessionMesg.TotalTimerTimeFieldNum, BASE_TYPE_UINT32, 1000, 0)
                .field(SessionMesg.TotalDistanceFieldNum, BASE_TYPE_UINT32, 100, 0)
                .field(SessionMesg.AvgPowerFieldNum, BASE_TYPE_UINT16)
                .field(SessionMesg.TotalAscentFieldNum, BASE_TYPE_UINT16)
                .field(SessionMesg.SportFieldNum, BASE_TYPE_ENUM)
                .field(SessionMesg.SubSportFieldNum, BASE_TYPE_ENUM)
                .field(SessionMesg.SportProfileNameFieldNum, BASE_TYPE_STRING);
        message(MesgNum.LAP)
                .time(LapMesg.TimestampFieldNum)
                .time(LapMesg.StartTimeFieldNum)
                .field(LapMesg.TotalElapsedTimeFieldNum, BASE_TYPE_UINT32, 1000, 0)
                .field(LapMesg.TotalTimerTimeFieldNum, BASE_TYPE_UINT32, 1000, 0)
                .field(LapMesg.TotalDistanceFieldNum, BASE_TYPE_UINT32, 100, 0)
                .field(LapMesg.SportFieldNum, BASE_TYPE_ENUM)
                .field(LapMesg.SubSportFieldNum, BASE_TYPE_ENUM);
        message(MesgNum.SPORT)
                .field(SportMesg.SportFieldNum, BASE_TYPE_ENUM)
                .field(SportMesg.SubSportFieldNum, BASE_TYPE_ENUM)
                .field(SportMesg.NameFieldNum, BASE_TYPE_STRING);
        message(MesgNum.WORKOUT)
                .field(WorkoutMesg.WktNameFieldNum, BASE_TYPE_STRING)
                .field(WorkoutMesg.WktDescriptionFieldNum, BASE_TYPE_STRING);
        message(MesgNum.ACTIVITY).time(ActivityMesg.TimestampFieldNum).time(ActivityMesg.LocalTimestampFieldNum);
        message(MesgNum.FILE_ID).field(FileIdMesg.TypeFieldNum, BASE_TYPE_ENUM);
        message(MesgNum.DEVICE_INFO)
                .field(DeviceInfoMesg.DeviceIndexFieldNum, BASE_TYPE_UINT8)
                .field(DeviceInfoMesg.DeviceTypeFieldNum, BASE_TYPE_UINT8)
                .field(DeviceInfoMesg.SerialNumberFieldNum, BASE_TYPE_UINT32Z)
                .field(DeviceInfoMesg.AntDeviceNumberFieldNum, BASE_TYPE_UINT16Z)
                .field(DeviceInfoMesg.SourceTypeFieldNum, BASE_TYPE_ENUM);
        message(MesgNum.WEATHER_CONDITIONS)
                .time(WeatherConditionsMesg.TimestampFieldNum)
                .time(WeatherConditionsMesg.ObservedAtTimeFieldNum)
                .field(WeatherConditionsMesg.WeatherReportFieldNum, BASE_TYPE_ENUM)
                .field(WeatherConditionsMesg.ConditionFieldNum, BASE_TYPE_ENUM)
                .field(WeatherConditionsMesg.TemperatureFieldNum, BASE_TYPE_SINT8)
                .field(WeatherConditionsMesg.RelativeHumidityFieldNum, BASE_TYPE_UINT8);
        // The SDK breaks off where a developer's message does not say which developer or field it speaks of,
        message(MesgNum.DEVELOPER_DATA_ID).field(DeveloperDataIdMesg.DeveloperDataIndexFieldNum, BASE_TYPE_UINT8);
        message(MesgNum.FIELD_DESCRIPTION)
                .field(FieldDescriptionMesg.DeveloperDataIndexFieldNum, BASE_TYPE_UINT8)
                .field(FieldDescriptionMesg.FieldDefinitionNumberFieldNum, BASE_TYPE_UINT8);
        // and where a text stands in place of a count.
        message(MesgNum.RECORD)
                .unasked(RecordMesg.TotalCyclesFieldNum, BASE_TYPE_UINT32)
                .unasked(RecordMesg.AccumulatedPowerFieldNum, BASE_TYPE_UINT32);
        message(MesgNum.HR).unasked(HrMesg.EventTimestampFieldNum, BASE_TYPE_UINT32);
    }

    private final Map<Integer, Need> fields = new HashMap<>();

    private NeededFields() {}

    /**
     * How the profile has a field: its value is the raw number ÷ scale − offset.
     *
     * @param type base type by the protocol's number
     * @param use what for
     */
    record Need(int type, double scale, double offset, Use use) {}

    /** Why a field is in the list. */
    enum Use {
        /** Its value is asked for. */
        ASKED,
        /** Nobody asks for its value, but the part is for the SDK where it is not of its type. */
        UNASKED,
        /** The part is for the SDK where it has the field at all. */
        SDK
    }

    /** The needed fields of a kind of message; null when nothing of it is needed. */
    static @Nullable NeededFields of(int message) {
        return BY_MESSAGE.get(message);
    }

    static Map<Integer, NeededFields> all() {
        return Map.copyOf(BY_MESSAGE);
    }

    @Nullable
    Need need(int field) {
        return fields.get(field);
    }

    /** By number. */
    Map<Integer, Need> fields() {
        return Map.copyOf(fields);
    }

    private static NeededFields message(int number) {
        return BY_MESSAGE.computeIfAbsent(number, n -> new NeededFields());
    }

    private NeededFields time(int field) {
        return field(field, BASE_TYPE_UINT32);
    }

    private NeededFields field(int field, int type) {
        return field(field, type, 1, 0);
    }

    private NeededFields field(int field, int type, double scale, double offset) {
        fields.put(field, new Need(type, scale, offset, Use.ASKED));
        return this;
    }

    private NeededFields unasked(int field, int type) {
        fields.put(field, new Need(type, 1, 0, Use.UNASKED));
        return this;
    }

    private NeededFields leaveToSdk(int field) {
        fields.put(field, new Need(-1, 1, 0, Use.SDK));
        return this;
    }
}
