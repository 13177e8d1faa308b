package chainage.ridefile.tcx;

import chainage.ridefile.Findings;
import chainage.ridefile.XmlDocument;
import chainage.ridefile.xml.XmlBrokenException;
import chainage.ridefile.xml.XmlReader;
import org.jspecify.annotations.Nullable;

/** Reads one TCX document: its activities in order, those of a multisport session among them. */
public final class TcxReader extends XmlDocument {
    private int courses;
    private int workouts;
    private @Nullable TcxActivity open;

    /** A reader of the document whose root {@code in} has entered. */
    public TcxReader(XmlReader in, Findings findings) {
        super(in, findings);
    }

    @Override
    protected void document() throws XmlBrokenException {
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

    @Override
    protected boolean salvage(String broken) {
        TcxActivity activity = open;
        if (activity == null || !activity.dated()) {
            return false;
        }
        findings.add(activity.draft(broken + ": kept " + activity.points() + " trackpoints of this activity"));
        return true;
    }
}
