package chainage.bench;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.Locale;

/** GPX and TCX rides with one point a second, no two alike, as text. All positions are in open ocean. */
final class XmlRideMaker {
    private static final long FIRST_START =
            Instant.parse("2024-01-01T00:00:00Z").getEpochSecond();

    private XmlRideMaker() {}

    /** A track with height, time, power, cadence, pulse and temperature. */
    static byte[] gpx(int number, long afterSeconds, int seconds) {
        StringBuilder text = new StringBuilder("""
                <?xml version="1.0" encoding="UTF-8"?>
                <gpx xmlns="http://www.topografix.com/GPX/1/1" version="1.1" creator="invented">
                <trk><name>Ride</name><type>cycling</type><trkseg>
                """);
        each(
                number,
                afterSeconds,
                seconds,
                (at, north, metres, spread) -> text.append(String.format(
                        Locale.ROOT,
                        "<trkpt lat=\"%.7f\" lon=\"%.7f\"><ele>%.1f</ele><time>%s</time><extensions><power>%d</power>"
                                + "<atemp>18</atemp><hr>%d</hr><cad>%d</cad></extensions></trkpt>%n",
                        0.1676 + north,
                        -30 + number * 1e-7,
                        120 + spread / 5.0,
                        at,
                        120 + spread / 2,
                        125 + spread / 16,
                        80 + spread / 20)));
        return text.append("</trkseg></trk></gpx>\n").toString().getBytes(StandardCharsets.UTF_8);
    }

    /** An activity of one lap with place, height, distance, pulse, cadence, speed and power. */
    static byte[] tcx(int number, long afterSeconds, int seconds) {
        Instant start = Instant.ofEpochSecond(FIRST_START + afterSeconds);
        StringBuilder text = new StringBuilder(String.format(
                Locale.ROOT,
                "<?xml version=\"1.0\" encoding=\"UTF-8\"?>%n<TrainingCenterDatabase><Activities>"
                        + "<Activity Sport=\"Biking\"><Id>%s</Id><Lap StartTime=\"%s\">"
                        + "<TotalTimeSeconds>%d</TotalTimeSeconds><Track>%n",
                start,
                start,
                seconds));
        each(
                number,
                afterSeconds,
                seconds,
                (at, north, metres, spread) -> text.append(String.format(
                        Locale.ROOT,
                        "<Trackpoint><Time>%s</Time><Position><LatitudeDegrees>%.7f</LatitudeDegrees><LongitudeDegrees>%.7f"
                                + "</LongitudeDegrees></Position><AltitudeMeters>%.1f</AltitudeMeters><DistanceMeters>%.2f"
                                + "</DistanceMeters><HeartRateBpm><Value>%d</Value></HeartRateBpm><Cadence>%d</Cadence>"
                                + "<Extensions><TPX><Speed>%.3f</Speed><Watts>%d</Watts></TPX></Extensions></Trackpoint>%n",
                        at,
                        0.1676 + north,
                        -30 + number * 1e-7,
                        120 + spread / 5.0,
                        metres,
                        125 + spread / 16,
                        80 + spread / 20,
                        7.5 + spread / 256.0,
                        120 + spread / 2)));
        return text.append("</Track></Lap></Activity></Activities></TrainingCenterDatabase>\n")
                .toString()
                .getBytes(StandardCharsets.UTF_8);
    }

    private interface Point {
        void at(Instant at, double degreesNorth, double metres, int spread);
    }

    private static void each(int number, long afterSeconds, int seconds, Point point) {
        double metres = 0;
        int noise = number * 7919 + 17;
        for (int second = 0; second <= seconds; second++) {
            noise = noise * 1_103_515_245 + 12_345;
            int spread = noise >>> 24;
            metres += second == 0 ? 0 : 7.5 + spread / 256.0;
            point.at(Instant.ofEpochSecond(FIRST_START + afterSeconds + second), metres / 110_574, metres, spread);
        }
    }
}
