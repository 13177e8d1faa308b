package chainage.store.row;

import chainage.ride.LateList;
import chainage.ride.Ride;
import java.io.IOException;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.ZoneOffset;
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
record RideEvidence(
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
    static RideEvidence of(String text, Instant start, Consumer<RuntimeException> later) {
        Builder read = new Builder();
        try (RowJson json = new RowJson(text)) {
            json.object(field -> read.take(field, json, start, later));
        } catch (IOException e) {
            throw new IllegalArgumentException("no JSON object: " + e.getMessage(), e);
        }
        return read.evidence();
    }

    /** What was read so far; fields without content are left out. */
    private static final class Builder {
        private List<Ride.Device> devices = List.of();
        private List<Ride.WeatherReport> weather = List.of();
        private Ride.Labels labels = UNLABELLED;
        private List<Ride.Waypoint> trace = List.of();
        private List<String> remarks = List.of();
        private @Nullable String salvaged;
        private @Nullable ZoneOffset offset;

        void take(String field, RowJson json, Instant start, Consumer<RuntimeException> later) throws IOException {
            switch (field) {
                case "devices" -> devices = json.rows(d -> new Ride.Device(d.text(), d.text()));
                case "weather" ->
                    weather = json.rows(w -> new Ride.WeatherReport(
                            start.plusMillis(w.whole()), w.whole() == 1, w.text(), w.real(), w.real()));
                case "labels" -> labels = json.row(w -> new Ride.Labels(w.text(), w.text(), w.text()));
                case "trace" -> {
                    String unread = json.unread();
                    trace = new LateList<>(() -> trace(unread, start, later));
                }
                case "remarks" -> remarks = json.texts();
                case "salvaged" -> salvaged = json.text();
                case "offset" -> offset = offset(json.count());
                default -> json.skip();
            }
        }

        RideEvidence evidence() {
            return new RideEvidence(devices, weather, labels, trace, remarks, salvaged, offset);
        }
    }

    private static List<Ride.Waypoint> trace(String text, Instant start, Consumer<RuntimeException> later) {
        try (RowJson json = new RowJson(text)) {
            return json.rows(p ->
                    RideBounds.within(new Ride.Waypoint(start.plusMillis(p.whole()), p.real(), p.real(), p.real())));
        } catch (IOException | IllegalArgumentException | DateTimeException | ArithmeticException e) {
            later.accept(new IllegalArgumentException("its track holds what cannot be", e));
            return List.of();
        }
    }

    private static ZoneOffset offset(int seconds) {
        if (Math.abs(seconds) > ZoneOffset.MAX.getTotalSeconds()) {
            throw new IllegalArgumentException("a local time " + seconds + " s from UTC");
        }
        return ZoneOffset.ofTotalSeconds(seconds);
    }
}
