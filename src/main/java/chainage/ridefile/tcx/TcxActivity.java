package chainage.ridefile.tcx;

import chainage.ride.Ride;
import chainage.ride.Ride.Activity.Kind;
import chainage.ride.RideFold;
import chainage.ride.Sample;
import chainage.ride.SportWords;
import chainage.ridefile.Draft;
import chainage.ridefile.Stated;
import chainage.ridefile.xml.Values;
import chainage.ridefile.xml.XmlBrokenException;
import chainage.ridefile.xml.XmlReader;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** One TCX activity while it is read: laps with their own totals, and trackpoints. */
final class TcxActivity {
    /** A new lap's track that begins this soon after the last point goes on from it; later it follows a pause (our guess). */
    private static final long LAP_GAP_MILLIS = 60_000;

    /** Farther apart, a lap and its trackpoints are of different days (our guess). */
    private static final double DAY_SECONDS = 20 * 3600.0;

    private final XmlReader in;
    private final int place;
    private final Values values = new Values();
    private final RideFold fold = new RideFold();
    private final Set<Ride.Device> devices = new LinkedHashSet<>();
    private String sport = "";
    private String notes = "";
    private long id = Sample.NO_TIME;
    private long lapStart = Sample.NO_TIME;
    private long lastMillis = Sample.NO_TIME;
    private double lapMetres = Double.NaN;
    private double lapSeconds = Double.NaN;
    private int unmeasuredLaps;
    private boolean firstTrack;
    private int points;

    TcxActivity(XmlReader in, int place) {
        this.in = in;
        this.place = place;
    }

    void read() throws XmlBrokenException {
        sport = in.attribute("sport");
        int depth = in.depth();
        while (in.nextChild(depth)) {
            switch (in.name()) {
                case "id" -> id = values.millis(in.text());
                case "lap" -> lap();
                case "notes" -> notes = (notes + " " + in.text()).strip();
                case "creator" -> creator();
                default -> {
                    // Training plans and extensions say nothing about a chain.
                }
            }
        }
    }

    boolean dated() {
        return lapStart != Sample.NO_TIME
                || id != Sample.NO_TIME
                || fold.totals().timed() > 0;
    }

    int points() {
        return points;
    }

    private void creator() throws XmlBrokenException {
        int depth = in.depth();
        while (in.nextChild(depth)) {
            if (in.name().equals("unitid")) {
                double serial = values.number(in.text());
                if (serial > 0 && serial < 0xFFFF_FFFFL) {
                    devices.add(new Ride.Device("head_unit", Long.toString((long) serial)));
                }
            }
        }
    }

    private void lap() throws XmlBrokenException {
        long start = values.millis(in.attribute("starttime"));
        lapStart = lapStart == Sample.NO_TIME ? start : lapStart;
        firstTrack = true;
        boolean measured = false;
        int depth = in.depth();
        while (in.nextChild(depth)) {
            switch (in.name()) {
                case "totaltimeseconds" -> lapSeconds = plus(lapSeconds, values.number(in.text()));
                case "distancemeters" -> {
                    double metres = values.number(in.text());
                    measured |= !Double.isNaN(metres);
                    lapMetres = plus(lapMetres, metres);
                }
                case "track" -> track();
                case "notes" -> notes = (notes + " " + in.text()).strip();
                default -> {
                    // Means and maxima of the lap; the trackpoints say it better.
                }
            }
        }
        unmeasuredLaps += measured ? 0 : 1;
    }

    private static double plus(double sum, double value) {
        return Double.isNaN(value) ? sum : Double.isNaN(sum) ? value : sum + value;
    }

    private void track() throws XmlBrokenException {
        int depth = in.depth();
        boolean first = true;
        while (in.nextChild(depth)) {
            if (in.name().equals("trackpoint")) {
                trackpoint(first);
                first = false;
            }
        }
        firstTrack = false;
    }

    private void trackpoint(boolean first) throws XmlBrokenException {
        long millis = Sample.NO_TIME;
        double latitude = Double.NaN;
        double longitude = Double.NaN;
        double altitude = Double.NaN;
        double metres = Double.NaN;
        double speed = Double.NaN;
        double watts = Double.NaN;
        double cadence = Double.NaN;
        int depth = in.depth();
        while (in.nextBelow(depth)) {
            switch (in.name()) {
                case "time" -> millis = own(depth) ? values.millis(in.text()) : millis;
                case "latitudedegrees" -> latitude = values.number(in.text());
                case "longitudedegrees" -> longitude = values.number(in.text());
                case "altitudemeters" -> altitude = own(depth) ? values.number(in.text()) : altitude;
                case "distancemeters" -> metres = own(depth) ? values.number(in.text()) : metres;
                case "speed" -> speed = values.number(in.text());
                case "watts" -> watts = values.number(in.text());
                case "cadence" -> cadence = values.number(in.text());
                case "runcadence" -> cadence = Double.isNaN(cadence) ? values.number(in.text()) : cadence;
                default -> {
                    // Heart rate and sensor state.
                }
            }
        }
        points++;
        boolean sameWay = !first || (firstTrack && soon(millis));
        fold.add(new Sample(
                millis,
                latitude,
                longitude,
                metres,
                speed,
                watts,
                cadence,
                Double.NaN,
                altitude,
                points > 1 && sameWay));
        lastMillis = millis == Sample.NO_TIME ? lastMillis : millis;
    }

    /** True for a child of the element at {@code parent}, not one of its extensions. */
    private boolean own(int parent) {
        return in.depth() == parent + 1;
    }

    private boolean soon(long millis) {
        return millis != Sample.NO_TIME
                && lastMillis != Sample.NO_TIME
                && Math.abs(millis - lastMillis) <= LAP_GAP_MILLIS;
    }

    Draft draft(@Nullable String salvaged) {
        List<String> remarks = new ArrayList<>();
        RideFold.Totals totals = fold.totals();
        long stated = lapStart != Sample.NO_TIME ? lapStart : id;
        values.remark(remarks);
        if (totals.backwards() > 0) {
            remarks.add("steps back in time: " + totals.backwards());
        }
        double metres = lapMetres;
        if (unmeasuredLaps > 0 && totals.odometerMetres() > lapMetres) {
            remarks.add("laps without a distance: " + unmeasuredLaps + "; the trackpoints' count is used");
            metres = Double.NaN;
        }
        return new Draft(
                place,
                new Stated(
                        stated == Sample.NO_TIME ? null : Instant.ofEpochMilli(stated),
                        elapsed(stated, totals, remarks),
                        lapSeconds,
                        metres,
                        Double.NaN,
                        Double.NaN,
                        Double.NaN),
                fold,
                activity(),
                List.copyOf(devices),
                List.of(),
                new Ride.Labels("", notes, ""),
                remarks,
                values.unreadable(),
                values.unreadableTimes(),
                false,
                salvaged,
                values.offset());
    }

    /**
     * Laps state the time that the recording ran, without pauses; the ride ends with its last trackpoint, unless the
     * trackpoints are of another day.
     */
    private double elapsed(long start, RideFold.Totals totals, List<String> remarks) {
        if (start == Sample.NO_TIME || totals.timed() == 0) {
            return lapSeconds;
        }
        double lead = (totals.firstMillis() - start) / 1000.0;
        if (Math.abs(lead) > DAY_SECONDS) {
            remarks.add("the first lap and the first trackpoint are " + Math.round(Math.abs(lead) / 86_400)
                    + " days apart; the lap's date is used");
            return lapSeconds;
        }
        double span = lead + totals.elapsedSeconds();
        return lapSeconds > span ? lapSeconds : span;
    }

    private Ride.Activity activity() {
        Ride.Activity activity = SportWords.activity(sport);
        // The schema's word for all that is neither running nor biking.
        return activity.sport().equals("other") ? new Ride.Activity(activity.sport(), "", Kind.OTHER, false) : activity;
    }
}
