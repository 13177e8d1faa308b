package chainage.ridefile.fit;

import chainage.ride.Ride.Device;
import com.garmin.fit.AntplusDeviceType;
import com.garmin.fit.DeviceInfoMesg;
import com.garmin.fit.SourceType;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Devices and sensors of the device messages that can be told apart: type and serial, or type and radio number. */
final class DeviceList {
    /** The device that wrote the file. */
    private static final int CREATOR = 0;

    private static final long NO_SERIAL = 0xFFFF_FFFFL;
    /** Missing from the SDK's list; other decoders' profiles have it under this name. */
    private static final int RUNNING_FORM = 30;

    private static final int MOST = 200;

    private final Set<Device> devices = new LinkedHashSet<>();

    void add(Message m) {
        String type = type(m);
        String serial = serial(m);
        if (!type.isEmpty() && !serial.isEmpty() && devices.size() < MOST) {
            devices.add(new Device(type, serial));
        }
    }

    private static String serial(Message m) {
        long serial = m.whole(DeviceInfoMesg.SerialNumberFieldNum);
        if (serial > 0 && serial != NO_SERIAL) {
            return Long.toString(serial);
        }
        long radio = m.whole(DeviceInfoMesg.AntDeviceNumberFieldNum);
        return radio > 0 ? "ant-" + radio : "";
    }

    /**
     * The type's word. The number means different things by source, and the profile names only those of one radio
     * standard; others are named by source and number, so that they can still be told apart. Empty for a message that
     * says neither: after a break in the file such messages are rubbish.
     */
    private static String type(Message m) {
        if (m.whole(DeviceInfoMesg.DeviceIndexFieldNum) == CREATOR) {
            return "head_unit";
        }
        long number = m.whole(DeviceInfoMesg.DeviceTypeFieldNum);
        long source = m.whole(DeviceInfoMesg.SourceTypeFieldNum);
        if (number < 0) {
            return "";
        }
        SourceType from = source < 0 ? null : SourceType.getByValue((short) source);
        if (from == null || from == SourceType.ANTPLUS) {
            String known = antPlus(number);
            return known != null ? known : from == null ? "" : "antplus-type" + number;
        }
        return from == SourceType.INVALID ? "" : MessageValues.word(from) + "-type" + number;
    }

    private static @Nullable String antPlus(long number) {
        if (number == RUNNING_FORM) {
            return "running_form";
        }
        String name = AntplusDeviceType.getStringFromValue((short) number);
        return name == null || name.isEmpty() || name.equals("INVALID") ? null : name.toLowerCase(Locale.ROOT);
    }

    List<Device> list() {
        return List.copyOf(devices);
    }
}
