package chainage.ridefile.fit;

import chainage.ride.Ride.WeatherReport;
import com.garmin.fit.WeatherConditionsMesg;
import com.garmin.fit.WeatherStatus;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** Weather messages as the device stored them. */
final class DeviceWeather {
    /**
     * A message that does not say whether it is a report or a forecast is not taken for a report, since a forecast must
     * never count. Devices do say it: all 58 messages of the 13 files at hand that have any state a report.
     */
    private static final int CURRENT = 0;

    private static final int MOST = 2000;

    private final List<WeatherReport> reports = new ArrayList<>();

    void add(Message m) {
        Instant at = MessageValues.instant(m, WeatherConditionsMesg.ObservedAtTimeFieldNum);
        if (at == null) {
            at = MessageValues.instant(m, WeatherConditionsMesg.TimestampFieldNum);
        }
        if (at == null || reports.size() >= MOST) {
            return;
        }
        long condition = m.whole(WeatherConditionsMesg.ConditionFieldNum);
        double humidity = m.number(WeatherConditionsMesg.RelativeHumidityFieldNum);
        reports.add(new WeatherReport(
                at,
                m.whole(WeatherConditionsMesg.WeatherReportFieldNum) == CURRENT,
                condition < 0 ? "" : MessageValues.word(WeatherStatus.getByValue((short) condition)),
                m.number(WeatherConditionsMesg.TemperatureFieldNum),
                humidity >= 0 && humidity <= 100 ? humidity : Double.NaN));
    }

    List<WeatherReport> list() {
        List<WeatherReport> sorted = new ArrayList<>(reports);
        sorted.sort(Comparator.comparing(WeatherReport::at));
        return List.copyOf(sorted);
    }
}
