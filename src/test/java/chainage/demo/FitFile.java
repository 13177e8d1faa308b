package chainage.demo;

import chainage.demo.Trip.Moment;
import chainage.demo.Trip.Pause;
import chainage.demo.Trip.Shift;
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
import com.garmin.fit.LapMesg;
import com.garmin.fit.LapTrigger;
import com.garmin.fit.Manufacturer;
import com.garmin.fit.RecordMesg;
import com.garmin.fit.SessionMesg;
import com.garmin.fit.SourceType;
import com.garmin.fit.Sport;
import com.garmin.fit.SubSport;
import com.garmin.fit.WeatherConditionsMesg;
import com.garmin.fit.WeatherReport;
import com.garmin.fit.WeatherStatus;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;

/** A FIT activity of one or several legs, encoded by the FIT SDK. */
final class FitFile {
    private static final long FIT_EPOCH_SECOND = 631_065_600L;
    private static final double SEMICIRCLES_PER_DEGREE = 2147483648.0 / 180;
    private static final int WEATHER_EVERY_SECONDS = 1800;

    private final BufferEncoder encoder = new BufferEncoder(Fit.ProtocolVersion.V2_0);
    private final List<LapMesg> laps = new ArrayList<>();
    private final List<SessionMesg> sessions = new ArrayList<>();
    private final Instant created;
    private final ZoneOffset offset;
    private double timerSeconds;
    private long last;

    /**
     * A sensor that takes part.
     *
     * @param antType device type number of the FIT profile
     */
    record Sensor(int antType, long serial) {}

    /**
     * One leg of an activity.
     *
     * @param start first instant
     * @param sport of the leg
     * @param subSport of the leg
     * @param trip how it went
     * @param senses what is recorded besides place and speed
     */
    record Leg(Instant start, Sport sport, SubSport subSport, Trip trip, Senses senses) {}

    /**
     * What a device hears and how often it writes.
     *
     * @param gears from electronic shifting
     * @param positions false indoors
     * @param everySeconds mean spacing of records
     */
    record Senses(boolean watts, boolean cadence, boolean gears, boolean positions, int everySeconds) {
        static final Senses WATCH = new Senses(false, false, false, true, 8);
    }

    FitFile(Instant created, long headUnitSerial, List<Sensor> sensors) {
        this(created, headUnitSerial, sensors, ZoneOffset.UTC);
    }

    /**
     * A file.
     *
     * @param offset of the clocks where it was recorded
     */
    FitFile(Instant created, long headUnitSerial, List<Sensor> sensors, ZoneOffset offset) {
        this.created = created;
        this.offset = offset;
        encoder.open();
        FileIdMesg id = new FileIdMesg();
        id.setType(com.garmin.fit.File.ACTIVITY);
        id.setManufacturer(Manufacturer.DEVELOPMENT);
        id.setProduct(1);
        id.setSerialNumber(headUnitSerial);
        id.setTimeCreated(time(created));
        encoder.write(id);
        device(0, 0, headUnitSerial, SourceType.LOCAL);
        int index = 1;
        for (Sensor sensor : sensors) {
            device(index++, sensor.antType(), sensor.serial(), SourceType.ANTPLUS);
        }
        last = fitSecond(created);
    }

    /** Appends a leg; legs follow each other in time. */
    void leg(Leg leg, String sky) {
        Trip trip = leg.trip();
        Random random =
                new Random(leg.start().getEpochSecond() * 31 + leg.senses().everySeconds());
        timer(leg.start(), EventType.START);
        int next = 0;
        int shift = 0;
        for (int second = 0; second <= trip.seconds(); second++) {
            Instant now = leg.start().plusSeconds(second);
            if (second % WEATHER_EVERY_SECONDS == 0) {
                weather(sky, now, second, trip);
            }
            for (; shift < trip.shifts().size() && trip.shifts().get(shift).second() <= second; shift++) {
                if (leg.senses().gears()) {
                    gear(now, trip.shifts().get(shift));
                }
            }
            for (Pause pause : trip.pauses()) {
                if (pause.from() == second) {
                    timer(now, EventType.STOP_ALL);
                } else if (pause.to() == second) {
                    timer(now, EventType.START);
                    next = second;
                }
            }
            if (!trip.paused(second) && (second >= next || second == trip.seconds())) {
                record(now, trip.moments().get(second), leg.senses());
                next = second + leg.senses().everySeconds() - 1 + random.nextInt(3);
            }
        }
        timer(leg.start().plusSeconds(trip.seconds()), EventType.STOP_ALL);
        summarise(leg);
    }

    /** Closes the activity and returns the file. */
    byte[] close() {
        laps.forEach(encoder::write);
        sessions.forEach(encoder::write);
        ActivityMesg activity = new ActivityMesg();
        activity.setTimestamp(new DateTime(last));
        activity.setTotalTimerTime((float) timerSeconds);
        activity.setNumSessions(sessions.size());
        activity.setType(sessions.size() > 1 ? Activity.AUTO_MULTI_SPORT : Activity.MANUAL);
        activity.setEvent(Event.ACTIVITY);
        activity.setEventType(EventType.STOP);
        activity.setLocalTimestamp(last + offset.getTotalSeconds());
        encoder.write(activity);
        return encoder.close();
    }

    private void device(int index, int antType, long serial, SourceType source) {
        DeviceInfoMesg device = new DeviceInfoMesg();
        device.setTimestamp(time(created));
        device.setDeviceIndex((short) index);
        device.setManufacturer(Manufacturer.DEVELOPMENT);
        device.setProduct(index + 1);
        device.setSerialNumber(serial);
        if (antType > 0) {
            device.setDeviceType((short) antType);
        }
        device.setSourceType(source);
        encoder.write(device);
    }

    private void timer(Instant at, EventType type) {
        EventMesg event = new EventMesg();
        event.setTimestamp(time(at));
        event.setEvent(Event.TIMER);
        event.setEventType(type);
        event.setData(0L);
        event.setEventGroup((short) 0);
        encoder.write(event);
    }

    /** Both gears in one number, eight bits each, as the profile's gear-change data has them. */
    private void gear(Instant at, Shift shift) {
        EventMesg event = new EventMesg();
        event.setTimestamp(time(at));
        event.setEvent(shift.front() ? Event.FRONT_GEAR_CHANGE : Event.REAR_GEAR_CHANGE);
        event.setEventType(EventType.MARKER);
        long packed = shift.cogNumber() | shift.cog() << 8 | shift.ringNumber() << 16 | (long) shift.ring() << 24;
        event.setData(packed);
        encoder.write(event);
    }

    private void record(Instant at, Moment moment, Senses senses) {
        RecordMesg record = new RecordMesg();
        record.setTimestamp(time(at));
        if (senses.positions()) {
            record.setPositionLat((int) Math.round(moment.latitude() * SEMICIRCLES_PER_DEGREE));
            record.setPositionLong((int) Math.round(moment.longitude() * SEMICIRCLES_PER_DEGREE));
            record.setAltitude((float) moment.altitudeMetres());
        }
        record.setDistance((float) moment.metres());
        record.setSpeed((float) moment.speed());
        if (senses.watts()) {
            record.setPower(moment.watts());
        }
        if (senses.cadence()) {
            record.setCadence((short) moment.cadence());
        }
        record.setTemperature((byte) moment.celsius());
        encoder.write(record);
        last = fitSecond(at);
    }

    private void weather(String sky, Instant at, int second, Trip trip) {
        if (sky.equals("none")) {
            return;
        }
        boolean forecast = sky.equals("forecast");
        String[] skies = forecast ? new String[] {"partly_cloudy"} : sky.split(">", -1);
        int half = second * 2 < trip.seconds() ? 0 : skies.length - 1;
        boolean wet = skies[half].contains("rain");
        report(at, WeatherReport.CURRENT, skies[half], trip, wet ? 94 : 58);
        if (forecast && second == 0) {
            report(at.plusSeconds(3600), WeatherReport.HOURLY_FORECAST, "rain", trip, 90);
            report(at.plusSeconds(7200), WeatherReport.HOURLY_FORECAST, "heavy_rain", trip, 95);
        }
    }

    private void report(Instant at, WeatherReport kind, String condition, Trip trip, int humidityPercent) {
        WeatherConditionsMesg weather = new WeatherConditionsMesg();
        weather.setTimestamp(time(at));
        weather.setWeatherReport(kind);
        weather.setTemperature((byte) Math.round(trip.meanCelsius()));
        weather.setCondition(WeatherStatus.valueOf(condition.toUpperCase(Locale.ROOT)));
        weather.setRelativeHumidity((short) humidityPercent);
        weather.setObservedAtTime(time(at));
        encoder.write(weather);
    }

    private void summarise(Leg leg) {
        Trip trip = leg.trip();
        DateTime end = time(leg.start().plusSeconds(trip.seconds()));
        LapMesg lap = new LapMesg();
        lap.setMessageIndex(laps.size());
        lap.setTimestamp(end);
        lap.setStartTime(time(leg.start()));
        lap.setTotalElapsedTime((float) trip.seconds());
        lap.setTotalTimerTime((float) trip.timerSeconds());
        lap.setTotalDistance((float) trip.metres());
        lap.setEvent(Event.LAP);
        lap.setEventType(EventType.STOP);
        lap.setLapTrigger(LapTrigger.SESSION_END);
        lap.setSport(leg.sport());
        laps.add(lap);

        SessionMesg session = new SessionMesg();
        session.setMessageIndex(sessions.size());
        session.setTimestamp(end);
        session.setStartTime(time(leg.start()));
        session.setTotalElapsedTime((float) trip.seconds());
        session.setTotalTimerTime((float) trip.timerSeconds());
        session.setTotalDistance((float) trip.metres());
        session.setSport(leg.sport());
        session.setSubSport(leg.subSport());
        session.setFirstLapIndex(laps.size() - 1);
        session.setNumLaps(1);
        session.setAvgSpeed((float) (trip.metres() / Math.max(1, trip.timerSeconds())));
        session.setMaxSpeed((float) trip.fastest());
        session.setAvgTemperature((byte) Math.round(trip.meanCelsius()));
        session.setTotalAscent((int) Math.round(trip.ascentMetres()));
        if (leg.senses().watts()) {
            session.setAvgPower((int) Math.round(trip.meanWatts()));
        }
        if (leg.senses().cadence()) {
            session.setTotalCycles(Math.round(trip.turns()));
        }
        session.setEvent(Event.SESSION);
        session.setEventType(EventType.STOP);
        sessions.add(session);
        timerSeconds += trip.timerSeconds();
    }

    private static DateTime time(Instant at) {
        return new DateTime(fitSecond(at));
    }

    private static long fitSecond(Instant at) {
        return at.getEpochSecond() - FIT_EPOCH_SECOND;
    }
}
