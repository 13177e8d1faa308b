package chainage.evidence;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;

/**
 * A file of evidence: a line that says what it is, then a line a treatment. Several files one behind the other are one
 * file too, with the riders of all.
 */
public final class EvidenceFile {
    private static final String FORMAT = "chain evidence";
    private static final int VERSION = 1;

    /** Treatments of one rider; our guess. Somebody who treats a chain a day for a lifetime has fewer. */
    private static final int MOST_TREATMENTS = 20_000;

    private static final int NAMED_BAD_LINES = 10;

    private EvidenceFile() {}

    /** The text of a file; riders in the order of their letters, each with a number that tells nothing else. */
    public static String text(List<RiderEvidence> riders) {
        Map<String, Object> head = new LinkedHashMap<>();
        head.put("format", FORMAT);
        head.put("version", VERSION);
        head.put("distance", "km");
        StringBuilder text = new StringBuilder(EvidenceLines.write(head)).append('\n');
        int number = 0;
        for (RiderEvidence rider : riders.stream()
                .sorted(Comparator.comparing(RiderEvidence::text))
                .toList()) {
            number++;
            for (TreatmentEvidence t : rider.treatments()) {
                text.append(EvidenceLines.write(EvidenceLines.fields(t, number)))
                        .append('\n');
            }
        }
        return text.toString();
    }

    /**
     * Reads a file.
     *
     * @return its riders, each with at least one treatment
     * @throws EvidenceException when a line cannot be, or the file is another; all such lines are named, or the first few
     */
    public static List<RiderEvidence> read(Iterator<String> lines) throws EvidenceException {
        List<RiderEvidence> riders = new ArrayList<>();
        Map<Integer, List<TreatmentEvidence>> part = new TreeMap<>();
        Map<Integer, Map<String, String>> methods = new HashMap<>();
        List<EvidenceException.BadLine> bad = new ArrayList<>();
        long number = 0;
        boolean headed = false;
        while (lines.hasNext()) {
            String line = lines.next();
            number++;
            if (line.isBlank()) {
                continue;
            }
            try {
                Map<String, Object> fields = EvidenceLines.object(line);
                if (fields.containsKey("format")) {
                    head(fields);
                    headed = true;
                    end(part, riders);
                    methods.clear();
                } else if (!headed) {
                    break;
                } else {
                    take(EvidenceLines.parse(fields), part, methods);
                }
            } catch (IllegalArgumentException e) {
                if (!headed) {
                    break;
                }
                bad.add(new EvidenceException.BadLine(number, String.valueOf(e.getMessage())));
                if (bad.size() >= NAMED_BAD_LINES) {
                    break;
                }
            }
        }
        if (!headed) {
            throw new EvidenceException(
                    List.of(
                            new EvidenceException.BadLine(
                                    Math.max(1, number),
                                    "it is no file of evidence of a version that is known here (chainage explain evidence shows one)")));
        }
        end(part, riders);
        if (bad.isEmpty() && riders.isEmpty()) {
            bad.add(new EvidenceException.BadLine(Math.max(1, number), "no treatment follows"));
        }
        if (!bad.isEmpty()) {
            throw new EvidenceException(bad);
        }
        return List.copyOf(riders);
    }

    private static void head(Map<String, Object> fields) {
        if (!Objects.equals(fields.get("format"), FORMAT)
                || !Objects.equals(fields.get("version"), VERSION)
                || !Objects.equals(fields.get("distance"), "km")) {
            throw new IllegalArgumentException("it begins a file of another format, version or unit");
        }
    }

    private static void take(
            EvidenceLines.Parsed line,
            Map<Integer, List<TreatmentEvidence>> part,
            Map<Integer, Map<String, String>> methods) {
        TreatmentEvidence t = line.treatment();
        if (t.product() != null) {
            String method = methods.computeIfAbsent(line.rider(), r -> new HashMap<>())
                    .computeIfAbsent(
                            ProductWord.of(t.product()), w -> t.method().word());
            if (!method.equals(t.method().word())) {
                throw new IllegalArgumentException("the product was of the method " + method + " before");
            }
        }
        List<TreatmentEvidence> of = part.computeIfAbsent(line.rider(), r -> new ArrayList<>());
        if (of.size() >= MOST_TREATMENTS) {
            throw new IllegalArgumentException("one rider has more than " + MOST_TREATMENTS + " treatments");
        }
        of.add(t);
    }

    private static void end(Map<Integer, List<TreatmentEvidence>> part, List<RiderEvidence> riders) {
        part.values().forEach(treatments -> riders.add(new RiderEvidence(treatments)));
        part.clear();
    }
}
