package chainage.ridefile.fit;

import chainage.ride.Sample;
import chainage.ridefile.Findings;
import chainage.ridefile.RideFileException;
import com.garmin.fit.MesgNum;
import java.util.ArrayList;
import java.util.List;

/** Reads a FIT file: finds its parts, decodes each by itself, and hands every session on. */
public final class FitReader {
    private static final String MEND = "copy it from the device again, or export it again";

    private FitReader() {}

    /**
     * The positions, heights and distances of all records, in order; of activities and of courses.
     *
     * @throws RideFileException when a part breaks: half a course would be taken for the whole
     */
    public static List<Sample> points(byte[] content) throws RideFileException {
        List<Sample> points = new ArrayList<>();
        for (FitParts.Part part : FitParts.of(content)) {
            String broken = PartDecoder.run(content, part, m -> {
                if (m.kind() == MesgNum.RECORD) {
                    points.add(RecordReader.sample(m, !points.isEmpty()));
                }
            });
            if (broken != null) {
                throw new RideFileException(broken, MEND, false);
            }
        }
        return points;
    }

    /** True when the content begins as a FIT file does. */
    public static boolean claims(byte[] content) {
        return FitParts.headerAt(content, 0);
    }

    /** True when the content bears the mark of FIT, be its header sound or not. */
    public static boolean marked(byte[] head) {
        return FitParts.markAt(head, 0);
    }

    /**
     * Reads all parts into {@code findings}.
     *
     * @throws RideFileException when not one of them holds anything
     */
    public static void read(byte[] content, Findings findings) throws RideFileException {
        int session = 0;
        boolean torn = false;
        String broken = "";
        List<PartMessages> empty = new ArrayList<>();
        List<FitParts.Part> parts = FitParts.of(content);
        for (FitParts.Part part : parts) {
            PartMessages messages = PartDecoder.decode(content, part);
            torn |= messages.torn();
            if (messages.isActivity()) {
                session = Sessions.settle(content, part, messages, session, findings);
            } else if (messages.broken() != null && messages.otherType().isEmpty()) {
                broken = broken.isEmpty() ? messages.broken() : broken;
            } else {
                empty.add(messages);
            }
        }
        for (PartMessages messages : empty) {
            // A part without a file id continues the one before it: heart-rate data of a strap, for example.
            if (!messages.otherType().isEmpty() || findings.isEmpty()) {
                findings.pass(session++, false, messages.describe(), "");
            }
        }
        int strangers = FitParts.strangers(content, parts);
        if (strangers > 0 && !findings.isEmpty()) {
            findings.pass(session++, true, strangers + " bytes between or behind the parts are no FIT data", MEND);
        }
        if (!broken.isEmpty()) {
            if (findings.isEmpty()) {
                throw new RideFileException(broken + ", before any dated record", MEND, torn);
            }
            findings.pass(session, true, broken + ", before any dated record of this part", MEND);
        }
    }
}
