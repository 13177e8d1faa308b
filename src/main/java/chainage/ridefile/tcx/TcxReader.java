package chainage.ridefile.tcx;

import chainage.ridefile.Findings;
import chainage.ridefile.RideFileException;
import chainage.ridefile.xml.XmlBrokenException;
import chainage.ridefile.xml.XmlReader;
import org.jspecify.annotations.Nullable;

/** Reads one TCX document: its activities in order, those of a multisport session among them. */
public final class TcxReader {
    private static final String MEND = "export it again";

    private final XmlReader in;
    private final Findings findings;
    private int activities;
    private int courses;
    private int workouts;
    private @Nullable TcxActivity open;

    private TcxReader(XmlReader in, Findings findings) {
        this.in = in;
        this.findings = findings;
    }

    /**
     * Reads the document whose root {@code in} has entered.
     *
     * @throws RideFileException when the XML breaks before anything usable
     */
    public static void read(XmlReader in, Findings findings) throws RideFileException {
        TcxReader reader = new TcxReader(in, findings);
        try {
            reader.document();
        } catch (XmlBrokenException e) {
            reader.salvage(e);
        }
    }

    private void document() throws XmlBrokenException {
        int root = in.depth();
        while (in.nextChild(root)) {
            switch (in.name()) {
                case "courses" -> courses += count("course");
                case "workouts" -> workouts += count("workout");
                case "activity" -> activity();
                default -> {
                    int list = in.depth();
                    while (in.nextBelow(list)) {
                        if (in.name().equals("activity")) {
                            activity();
                        }
                    }
                }
            }
        }
        if (findings.isEmpty()) {
            String what = courses + workouts == 0
                    ? "no activities in the file"
                    : "no activities (courses: " + courses + ", workouts: " + workouts + ")";
            findings.pass(0, false, what, "");
        }
    }

    private int count(String name) throws XmlBrokenException {
        int list = in.depth();
        int count = 0;
        while (in.nextChild(list)) {
            count += in.name().equals(name) ? 1 : 0;
        }
        return count;
    }

    private void activity() throws XmlBrokenException {
        TcxActivity activity = new TcxActivity(in, activities++);
        open = activity;
        activity.read();
        findings.add(activity.draft(null));
        open = null;
    }

    private void salvage(XmlBrokenException e) throws RideFileException {
        String broken = e.why() + " at line " + e.line();
        TcxActivity activity = open;
        if (activity != null && activity.dated()) {
            findings.add(activity.draft(broken + ": kept " + activity.points() + " trackpoints of this activity"));
        } else if (findings.isEmpty()) {
            throw new RideFileException(broken + ", before any dated trackpoint", MEND, e.torn());
        } else {
            findings.pass(activities, true, broken + ", what follows is lost", MEND);
        }
    }
}
