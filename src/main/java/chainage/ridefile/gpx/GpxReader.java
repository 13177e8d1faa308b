package chainage.ridefile.gpx;

import chainage.ride.Ride;
import chainage.ride.RideFold;
import chainage.ride.Sample;
import chainage.ride.SportWords;
import chainage.ridefile.Draft;
import chainage.ridefile.Findings;
import chainage.ridefile.Stated;
import chainage.ridefile.XmlDocument;
import chainage.ridefile.xml.Values;
import chainage.ridefile.xml.XmlBrokenException;
import chainage.ridefile.xml.XmlReader;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Reads one GPX document. Every track is one activity; a gap between its segments is not ridden. */
public final class GpxReader extends XmlDocument {
    private int routes;
    private int waypoints;
    private String fileName = "";
    private String fileNotes = "";
    private String fileKeywords = "";
    private @Nullable Track open;

    /** A reader of the document whose root {@code in} has entered. */
    public GpxReader(XmlReader in, Findings findings) {
        super(in, findings);
    }

    @Override
    protected void document() throws XmlBrokenException {
        int root = in.depth();
        while (in.nextChild(root)) {
            switch (in.name()) {
                case "trk" -> track();
                case "rte" -> routes++;
                case "wpt" -> waypoints++;
                case "metadata" -> {
                    int metadata = in.depth();
                    while (in.nextChild(metadata)) {
                        fileText();
                    }
                }
                default -> fileText();
            }
        }
        if (findings.isEmpty()) {
            findings.pass(0, false, "no tracks (routes: " + routes + ", waypoints: " + waypoints + ")", "");
        }
    }

    /** Name, description and keywords stand in the metadata, or, in GPX 1.0, in the root. */
    private void fileText() throws XmlBrokenException {
        switch (in.name()) {
            case "name" -> fileName = in.text();
            case "desc" -> fileNotes = in.text();
            case "keywords" -> fileKeywords = in.text();
            default -> {
                // Author, bounds, links: nothing about a ride.
            }
        }
    }

    @Override
    protected boolean salvage(String broken) {
        Track track = open;
        if (track == null || track.fold.totals().timed() == 0) {
            return false;
        }
        track.salvaged = broken + ": kept " + track.points + " points of this track";
        track.close();
        return true;
    }

    private void track() throws XmlBrokenException {
        Track track = new Track(activities++);
        open = track;
        track.read();
        track.close();
        open = null;
    }

    /** One track while it is read. */
    private final class Track {
        private final int place;
        private final Values values = new Values();
        private final RideFold fold = RideFold.pacedByPositions();
        private String name = "";
        private String notes = "";
        private String type = "";
        private boolean joined;
        private int points;
        private @Nullable String salvaged;

        Track(int place) {
            this.place = place;
        }

        void read() throws XmlBrokenException {
            int depth = in.depth();
            while (in.nextChild(depth)) {
                switch (in.name()) {
                    case "trkseg" -> segment();
                    case "name" -> name = in.text();
                    case "desc", "cmt" -> notes = (notes + " " + in.text()).strip();
                    case "type" -> type = in.text();
                    default -> {
                        // Source, number, links and the track's own extensions: display and origin.
                    }
                }
            }
        }

        private void segment() throws XmlBrokenException {
            int depth = in.depth();
            joined = false;
            while (in.nextChild(depth)) {
                if (in.name().equals("trkpt")) {
                    point();
                }
            }
        }

        private void point() throws XmlBrokenException {
            double latitude = values.number(in.attribute("lat"));
            double longitude = values.number(in.attribute("lon"));
            long millis = Sample.NO_TIME;
            double altitude = Double.NaN;
            double speed = Double.NaN;
            double watts = Double.NaN;
            double cadence = Double.NaN;
            double celsius = Double.NaN;
            boolean ownSpeed = false;
            int depth = in.depth();
            while (in.nextBelow(depth)) {
                // Extensions may hold a time, a height or a speed of something else.
                boolean own = in.depth() == depth + 1;
                switch (in.name()) {
                    case "time" -> millis = own ? values.millis(in.text()) : millis;
                    case "ele" -> altitude = own ? values.number(in.text()) : altitude;
                    case "speed" -> {
                        speed = own || !ownSpeed ? values.number(in.text()) : speed;
                        ownSpeed |= own;
                    }
                    case "power", "watts", "powerinwatts" -> watts = values.number(in.text());
                    case "cad", "cadence" -> cadence = values.number(in.text());
                    case "atemp", "temp", "temperature" -> celsius = values.number(in.text());
                    default -> {
                        // Heart rate, satellites, course and whatever makers add.
                    }
                }
            }
            points++;
            fold.add(new Sample(
                    millis, latitude, longitude, Double.NaN, speed, watts, cadence, celsius, altitude, joined));
            joined = true;
        }

        void close() {
            List<String> remarks = new ArrayList<>();
            RideFold.Totals totals = fold.totals();
            if (totals.timed() > 0 && totals.timed() < points) {
                remarks.add("points without a readable time: " + (points - totals.timed()) + " of " + points);
            }
            if (totals.backwards() > 0) {
                remarks.add("steps back in time: " + totals.backwards());
            }
            values.remark(remarks);
            findings.add(new Draft(
                    place,
                    Stated.NOTHING,
                    fold,
                    SportWords.activity(type),
                    List.of(),
                    List.of(),
                    new Ride.Labels(name.isEmpty() ? fileName : name, (fileNotes + " " + notes).strip(), fileKeywords),
                    remarks,
                    values.unreadable(),
                    values.unreadableTimes(),
                    false,
                    salvaged,
                    values.offset()));
        }
    }
}
