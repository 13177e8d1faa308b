package chainage.demo;

import chainage.demo.Trip.Moment;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.Locale;
import java.util.Random;

/**
 * GPX 1.1 tracks and TCX activities as text. The TCX has no namespace, as some exports have none; power and cadence
 * in GPX stand as plain extension elements.
 */
final class XmlFiles {
    private static final String GPX_HEAD = """
            <?xml version="1.0" encoding="UTF-8"?>
            <gpx xmlns="http://www.topografix.com/GPX/1/1" version="1.1" creator="invented phone">
            """;

    private XmlFiles() {}

    /**
     * A track.
     *
     * @param type the sport as stated; empty to state none
     * @param everySeconds mean spacing of points
     */
    static byte[] gpx(Instant start, Trip trip, String name, String type, int everySeconds) {
        StringBuilder text = new StringBuilder(GPX_HEAD);
        text.append(line("<metadata><time>%s</time></metadata>", start));
        text.append("<trk>\n");
        if (!name.isEmpty()) {
            text.append(line("<name>%s</name>", escaped(name)));
        }
        if (!type.isEmpty()) {
            text.append(line("<type>%s</type>", type));
        }
        text.append("<trkseg>\n");
        Random random = new Random(start.getEpochSecond());
        int next = 0;
        boolean paused = false;
        for (int second = 0; second <= trip.seconds(); second++) {
            if (trip.paused(second)) {
                paused = true;
                continue;
            }
            if (paused) {
                text.append("</trkseg>\n<trkseg>\n");
                paused = false;
                next = second;
            }
            if (second >= next || second == trip.seconds()) {
                Moment m = trip.moments().get(second);
                text.append(line(
                        "<trkpt lat=\"%.6f\" lon=\"%.6f\"><ele>%.1f</ele><time>%s</time></trkpt>",
                        m.latitude(), m.longitude(), m.altitudeMetres(), start.plusSeconds(second)));
                next = second + everySeconds - 2 + random.nextInt(5);
            }
        }
        text.append("</trkseg>\n</trk>\n</gpx>\n");
        return text.toString().getBytes(StandardCharsets.UTF_8);
    }

    /** A way to ride one day: points without times. */
    static byte[] plannedRoute(Trip trip, String name) {
        StringBuilder text = new StringBuilder(GPX_HEAD);
        text.append(line("<rte><name>%s</name>", escaped(name)));
        for (int second = 0; second <= trip.seconds(); second += 60) {
            Moment m = trip.moments().get(second);
            text.append(line(
                    "<rtept lat=\"%.6f\" lon=\"%.6f\"><ele>%.1f</ele></rtept>",
                    m.latitude(), m.longitude(), m.altitudeMetres()));
        }
        text.append("</rte>\n</gpx>\n");
        return text.toString().getBytes(StandardCharsets.UTF_8);
    }

    /**
     * An activity of one lap for each 20 km.
     *
     * @param watts whether a power meter was heard
     */
    static byte[] tcx(Instant start, Trip trip, String notes, long serial, boolean watts, int everySeconds) {
        StringBuilder text =
                new StringBuilder("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<TrainingCenterDatabase>\n");
        text.append("<Activities>\n<Activity Sport=\"Biking\">\n");
        text.append(line("<Id>%s</Id>", start));
        Random random = new Random(start.getEpochSecond());
        int second = 0;
        while (second < trip.seconds()) {
            int from = second;
            double lapMetres = trip.moments().get(from).metres();
            while (second < trip.seconds() && trip.moments().get(second).metres() - lapMetres < 20_000) {
                second++;
            }
            lap(text, start, trip, from, second);
            int next = from;
            for (int i = from; i <= second; i++) {
                boolean edge = i == second && second == trip.seconds();
                if (!trip.paused(i) && ((i >= next && i < second) || edge)) {
                    point(text, start.plusSeconds(i), trip.moments().get(i), watts);
                    next = i + everySeconds - 2 + random.nextInt(5);
                }
            }
            text.append("</Track>\n</Lap>\n");
        }
        if (!notes.isEmpty()) {
            text.append(line("<Notes>%s</Notes>", escaped(notes)));
        }
        text.append(line(
                "<Creator><Name>invented computer</Name><UnitId>%d</UnitId><ProductID>1</ProductID></Creator>",
                serial));
        text.append("</Activity>\n</Activities>\n</TrainingCenterDatabase>\n");
        return text.toString().getBytes(StandardCharsets.UTF_8);
    }

    private static void lap(StringBuilder text, Instant start, Trip trip, int from, int to) {
        long running = java.util.stream.IntStream.range(from, to)
                .filter(i -> !trip.paused(i))
                .count();
        text.append(line("<Lap StartTime=\"%s\">", start.plusSeconds(from)));
        text.append(line("<TotalTimeSeconds>%d</TotalTimeSeconds>", running));
        text.append(line(
                "<DistanceMeters>%.2f</DistanceMeters>",
                trip.moments().get(to).metres() - trip.moments().get(from).metres()));
        text.append("<Calories>0</Calories><Intensity>Active</Intensity><TriggerMethod>Distance</TriggerMethod>\n");
        text.append("<Track>\n");
    }

    private static void point(StringBuilder text, Instant at, Moment m, boolean watts) {
        text.append(line(
                "<Trackpoint><Time>%s</Time><Position><LatitudeDegrees>%.6f</LatitudeDegrees>"
                        + "<LongitudeDegrees>%.6f</LongitudeDegrees></Position><AltitudeMeters>%.1f</AltitudeMeters>"
                        + "<DistanceMeters>%.1f</DistanceMeters><Cadence>%d</Cadence>%s</Trackpoint>",
                at,
                m.latitude(),
                m.longitude(),
                m.altitudeMetres(),
                m.metres(),
                m.cadence(),
                watts ? "<Extensions><TPX><Watts>" + m.watts() + "</Watts></TPX></Extensions>" : ""));
    }

    private static String line(String format, Object... values) {
        return String.format(Locale.ROOT, format, values) + "\n";
    }

    private static String escaped(String words) {
        return words.replace("&", "&amp;").replace("<", "&lt;");
    }
}
