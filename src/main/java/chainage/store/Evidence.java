package chainage.store;

import chainage.ride.LateList;
import chainage.ride.Ride;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * What the evidence column of a ride's row says, in the order in which {@link RideRow} writes it.
 *
 * @param devices no two alike
 * @param weather by time
 * @param labels the file's own words
 * @param trace by time; read when it is first looked at, since it is most of the text and seldom asked for
 * @param remarks of the reader
 * @param salvaged null for a whole file
 * @param offset null where the file states none
 */
record Evidence(
        List<Ride.Device> devices,
        List<Ride.WeatherReport> weather,
        Ride.Labels labels,
        List<Ride.Waypoint> trace,
        List<String> remarks,
        @Nullable String salvaged,
        @Nullable ZoneOffset offset) {
    private static final Ride.Labels UNLABELLED = new Ride.Labels("", "", "");

    /**
     * Reads the column.
     *
     * @param start that its instants are counted from
     * @param later gets what is wrong with the trace when that is looked at; where it throws nothing, there is none
     */
    static Evidence of(String text, Instant start, Consumer<RuntimeException> later) {
        try {
            return quick(new QuickJson(text), start, later);
        } catch (QuickJson.Other e) {
            return any(Json.parse(text), start);
        }
    }

    /** Each field once and in our own order, those without content left out. */
    static Evidence quick(QuickJson text, Instant start, Consumer<RuntimeException> later) throws QuickJson.Other {
        List<Ride.Device> devices = List.of();
        List<Ride.WeatherReport> weather = List.of();
        Ride.Labels labels = UNLABELLED;
        List<Ride.Waypoint> trace = List.of();
        List<String> remarks = List.of();
        String salvaged = null;
        ZoneOffset offset = null;
        text.need('{');
        boolean more = !text.skip('}');
        if (more && text.field("devices")) {
            devices = text.rows(d -> new Ride.Device(d.string(), d.nextString()));
            more = next(text);
        }
        if (more && text.field("weather")) {
            weather = text.rows(w -> new Ride.WeatherReport(
                    start.plusMillis(w.whole()), w.nextInteger() == 1, w.nextString(), w.nextReal(), w.nextReal()));
            more = next(text);
        }
        if (more && text.field("labels")) {
            List<String> words = text.strings();
            if (words.size() != 3) {
                throw new QuickJson.Other();
            }
            labels = new Ride.Labels(words.get(0), words.get(1), words.get(2));
            more = next(text);
        }
        if (more && text.field("trace")) {
            QuickJson here = text.later(4);
            trace = new LateList<>(() -> trace(here, start, later));
            more = next(text);
        }
        if (more && text.field("remarks")) {
            remarks = text.strings();
            more = next(text);
        }
        if (more && text.field("salvaged")) {
            salvaged = text.string();
            more = next(text);
        }
        if (more && text.field("offset")) {
            offset = offset(text.integer());
            more = next(text);
        }
        if (more) {
            throw new QuickJson.Other();
        }
        text.end();
        return new Evidence(devices, weather, labels, trace, remarks, salvaged, offset);
    }

    /** True when another field comes; else the object is at its end. */
    private static boolean next(QuickJson text) throws QuickJson.Other {
        if (text.skip(',')) {
            return true;
        }
        text.need('}');
        return false;
    }

    private static List<Ride.Waypoint> trace(QuickJson text, Instant start, Consumer<RuntimeException> later) {
        try {
            return text.rows(p -> RideBounds.within(
                    new Ride.Waypoint(start.plusMillis(p.whole()), p.nextReal(), p.nextReal(), p.nextReal())));
        } catch (QuickJson.Other | IllegalArgumentException | DateTimeException | ArithmeticException e) {
            later.accept(new IllegalArgumentException("its track holds what cannot be", e));
            return List.of();
        }
    }

    /** Any JSON with these fields. */
    static Evidence any(Json evidence, Instant start) {
        List<String> labels = evidence.texts("labels");
        return new Evidence(
                devices(evidence),
                weather(evidence, start),
                labels.isEmpty() ? UNLABELLED : new Ride.Labels(labels.get(0), labels.get(1), labels.get(2)),
                trace(evidence, start),
                evidence.texts("remarks"),
                evidence.optionalText("salvaged"),
                offset(evidence));
    }

    private static @Nullable ZoneOffset offset(Json evidence) {
        Double seconds = evidence.optionalReal("offset");
        return seconds == null ? null : offset(seconds.intValue());
    }

    private static ZoneOffset offset(int seconds) {
        if (Math.abs(seconds) > ZoneOffset.MAX.getTotalSeconds()) {
            throw new IllegalArgumentException("a local time " + seconds + " s from UTC");
        }
        return ZoneOffset.ofTotalSeconds(seconds);
    }

    private static List<Ride.Device> devices(Json evidence) {
        List<Ride.Device> devices = new ArrayList<>();
        for (Object row : evidence.list("devices")) {
            List<?> d = (List<?>) row;
            devices.add(new Ride.Device((String) d.get(0), (String) d.get(1)));
        }
        return devices;
    }

    private static List<Ride.WeatherReport> weather(Json evidence, Instant start) {
        List<Ride.WeatherReport> reports = new ArrayList<>();
        for (Object row : evidence.list("weather")) {
            List<?> w = (List<?>) row;
            reports.add(new Ride.WeatherReport(
                    start.plusMillis(((Number) w.get(0)).longValue()),
                    ((Number) w.get(1)).intValue() == 1,
                    (String) w.get(2),
                    RideRow.real(w.get(3)),
                    RideRow.real(w.get(4))));
        }
        return reports;
    }

    private static List<Ride.Waypoint> trace(Json evidence, Instant start) {
        List<Ride.Waypoint> trace = new ArrayList<>();
        for (Object row : evidence.list("trace")) {
            List<?> p = (List<?>) row;
            trace.add(RideBounds.within(new Ride.Waypoint(
                    start.plusMillis(((Number) p.get(0)).longValue()),
                    RideRow.real(p.get(1)),
                    RideRow.real(p.get(2)),
                    RideRow.real(p.get(3)))));
        }
        return trace;
    }
}
