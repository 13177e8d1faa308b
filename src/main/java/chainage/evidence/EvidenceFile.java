package chainage.evidence;

import chainage.ledger.Method;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * A file of evidence: a line that says what it is, then a line a treatment, a line a chain and a line two power meters.
 * Several files one behind the other are one file too, with the riders of all.
 */
public final class EvidenceFile {
    private static final String FORMAT = "chain evidence";
    private static final int VERSION = 3;

    /** Files of the first version have no chains, those of the second no power meters; all else is the same. */
    private static final Set<String> READ = Set.of("1", "2", String.valueOf(VERSION));

    /** Treatments of one rider; our guess. Somebody who treats a chain a day for a lifetime has fewer. */
    private static final int MOST_TREATMENTS = 20_000;

    /** Chains of one rider that were read; our guess. */
    private static final int MOST_CHAINS = 1_000;

    /** Pairs of power meters of one rider; our guess. */
    private static final int MOST_PAIRS = 100;

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
            for (ChainEvidence c : rider.chains()) {
                text.append(EvidenceLines.write(ChainLines.fields(c, number))).append('\n');
            }
            for (PairEvidence p : rider.pairs()) {
                text.append(EvidenceLines.write(PairLines.fields(p, number))).append('\n');
            }
        }
        return text.toString();
    }

    /**
     * Reads a file.
     *
     * @return its riders, each with at least one line
     * @throws EvidenceException when a line cannot be, or the file is another; all such lines are named, or the first few
     */
    public static List<RiderEvidence> read(Iterator<String> lines) throws EvidenceException {
        List<RiderEvidence> riders = new ArrayList<>();
        Map<Integer, Part> part = new TreeMap<>();
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
                } else if (!headed) {
                    break;
                } else {
                    EvidenceLines.Parsed parsed = EvidenceLines.parse(fields);
                    part.computeIfAbsent(parsed.rider(), r -> new Part()).take(parsed);
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
            bad.add(new EvidenceException.BadLine(
                    Math.max(1, number), "no treatment, no chain and no ride with two power meters follows"));
        }
        if (!bad.isEmpty()) {
            throw new EvidenceException(bad);
        }
        return List.copyOf(riders);
    }

    private static void head(Map<String, Object> fields) {
        if (!Objects.equals(fields.get("format"), FORMAT)
                || !READ.contains(String.valueOf(fields.get("version")))
                || !Objects.equals(fields.get("distance"), "km")) {
            throw new IllegalArgumentException("it begins a file of another format, version or unit");
        }
    }

    /** One rider's lines, as far as they were read. */
    private static final class Part {
        private final List<TreatmentEvidence> treatments = new ArrayList<>();
        private final List<ChainEvidence> chains = new ArrayList<>();
        private final List<PairEvidence> pairs = new ArrayList<>();
        private final Map<String, Method> methods = new HashMap<>();

        private void take(EvidenceLines.Parsed line) {
            TreatmentEvidence t = line.treatment();
            if (t != null) {
                one(t.product(), t.method());
                treatments.add(t);
            }
            ChainEvidence c = line.chain();
            if (c != null) {
                c.readings().stream().flatMap(r -> r.ridden().stream()).forEach(r -> one(r.product(), r.method()));
                chains.add(c);
            }
            PairEvidence p = line.pair();
            if (p != null) {
                p.rides().forEach(r -> one(r.product(), r.method()));
                pairs.add(p);
            }
            if (treatments.size() > MOST_TREATMENTS) {
                throw new IllegalArgumentException("one rider has more than " + MOST_TREATMENTS + " treatments");
            }
            if (chains.size() > MOST_CHAINS) {
                throw new IllegalArgumentException("one rider has more than " + MOST_CHAINS + " chains");
            }
            if (pairs.size() > MOST_PAIRS) {
                throw new IllegalArgumentException("one rider has more than " + MOST_PAIRS + " pairs of power meters");
            }
        }

        private void one(@Nullable String product, Method method) {
            if (product != null) {
                Method before = methods.putIfAbsent(ProductWord.of(product), method);
                if (before != null && before != method) {
                    throw new IllegalArgumentException("the product was of the method " + before.word() + " before");
                }
            }
        }
    }

    private static void end(Map<Integer, Part> part, List<RiderEvidence> riders) {
        part.values().forEach(p -> riders.add(new RiderEvidence(p.treatments, p.chains, p.pairs)));
        part.clear();
    }
}
