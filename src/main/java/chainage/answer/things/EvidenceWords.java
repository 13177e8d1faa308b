package chainage.answer.things;

import chainage.analysis.Analysis;
import chainage.evidence.Marks;
import chainage.evidence.RiderEvidence;
import chainage.render.Formatter;
import java.util.ArrayList;
import java.util.List;

/** What is said of other riders' evidence. */
public final class EvidenceWords {
    private EvidenceWords() {}

    /** How much it is. */
    public static String told(List<RiderEvidence> riders) {
        int treatments = riders.stream().mapToInt(r -> r.treatments().size()).sum();
        int readings = riders.stream().mapToInt(RiderEvidence::readings).sum();
        int paired = riders.stream().mapToInt(RiderEvidence::paired).sum();
        return Formatter.count(riders.size(), "rider", "riders") + ", "
                + Formatter.count(treatments, "treatment", "treatments")
                + (readings == 0 ? "" : ", " + Formatter.count(readings, "reading", "readings"))
                + (paired == 0 ? "" : ", " + Formatter.count(paired, "paired ride", "paired rides"));
    }

    /**
     * What is brought in, and what of it was known.
     *
     * @param as the rider's word for where it comes from
     */
    public static List<String> brought(Analysis before, String as, List<RiderEvidence> riders) {
        List<String> said = new ArrayList<>();
        said.add(as + ": " + told(riders));
        Marks own = before.ownEvidence().marks();
        List<Marks> known = new ArrayList<>(
                before.others().riders().stream().map(r -> r.evidence().marks()).toList());
        int again = 0;
        int yours = 0;
        for (RiderEvidence r : riders) {
            Marks marks = r.marks();
            if (marks.isSameRider(own)) {
                yours++;
            } else if (known.stream().anyMatch(marks::isSameRider)) {
                again++;
            }
            known.add(marks);
        }
        if (yours > 0) {
            said.add("one shows what your own chains have shown, and is not counted again");
        }
        if (again > 0) {
            said.add(Formatter.count(again, "rider was", "riders were")
                    + " brought in before: of the two the one that shows more counts");
        }
        return said;
    }
}
