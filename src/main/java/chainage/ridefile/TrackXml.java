package chainage.ridefile;

import chainage.ride.Sample;
import chainage.ridefile.xml.Values;
import chainage.ridefile.xml.XmlBrokenException;
import chainage.ridefile.xml.XmlReader;
import java.util.ArrayList;
import java.util.List;

/** Collects the points of a GPX track or route, or of a TCX course or activity, times or none. */
final class TrackXml {
    private final XmlReader in;
    private final Values values = new Values();
    private final List<Sample> track = new ArrayList<>();
    private final List<Sample> route = new ArrayList<>();
    private boolean joined;

    TrackXml(XmlReader in) {
        this.in = in;
    }

    /** All points in order; those of routes where there is no track. */
    List<Sample> read() throws XmlBrokenException {
        int root = in.depth();
        while (in.nextBelow(root)) {
            switch (in.name()) {
                case "trkseg", "rte", "course", "activity" -> joined = false;
                case "trkpt" -> point(track);
                case "rtept" -> point(route);
                case "trackpoint" -> trackpoint();
                default -> {
                    // Names, times, waypoints, laps: nothing about the road.
                }
            }
        }
        return track.isEmpty() ? route : track;
    }

    private void point(List<Sample> to) throws XmlBrokenException {
        double latitude = values.number(in.attribute("lat"));
        double longitude = values.number(in.attribute("lon"));
        double height = Double.NaN;
        int depth = in.depth();
        while (in.nextBelow(depth)) {
            height = in.name().equals("ele") && in.depth() == depth + 1 ? values.number(in.text()) : height;
        }
        add(to, latitude, longitude, Double.NaN, height);
    }

    private void trackpoint() throws XmlBrokenException {
        double latitude = Double.NaN;
        double longitude = Double.NaN;
        double metres = Double.NaN;
        double height = Double.NaN;
        int depth = in.depth();
        while (in.nextBelow(depth)) {
            switch (in.name()) {
                case "latitudedegrees" -> latitude = values.number(in.text());
                case "longitudedegrees" -> longitude = values.number(in.text());
                case "altitudemeters" -> height = values.number(in.text());
                case "distancemeters" -> metres = values.number(in.text());
                default -> {
                    // Time, heart rate, speed.
                }
            }
        }
        add(track, latitude, longitude, metres, height);
    }

    private void add(List<Sample> to, double latitude, double longitude, double metres, double height) {
        to.add(new Sample(
                Sample.NO_TIME,
                latitude,
                longitude,
                metres,
                Double.NaN,
                Double.NaN,
                Double.NaN,
                Double.NaN,
                height,
                joined));
        joined = true;
    }
}
