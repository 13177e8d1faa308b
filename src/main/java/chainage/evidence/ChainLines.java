package chainage.evidence;

import chainage.ledger.Method;
import chainage.ledger.Reading;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** A chain with its readings as a line of JSON. */
final class ChainLines {
    /** The field that tells such a line from a treatment's. */
    static final String READINGS = "readings";

    private static final Set<String> FIELDS = Set.of("rider", "used", READINGS);
    private static final Set<String> READING = Set.of("tool", "percent", "edge", "drops", "error", "ridden");
    private static final Set<String> RIDDEN = Set.of("method", "product", "load", "worn_off", "km");
    private static final List<Reading.Tool> TOOLS = List.of(Reading.Tool.values());
    private static final List<String> TOOL_WORDS =
            TOOLS.stream().map(Reading.Tool::word).toList();

    /** Our guess: more than a chain lives. */
    private static final int MOST_READINGS = 200;

    private static final int MOST_PRODUCTS = 50;
    private static final double LEAST_PERCENT = -1;
    private static final double MOST_PERCENT = 5;

    private ChainLines() {}

    static Map<String, Object> fields(ChainEvidence chain, int rider) {
        Map<String, Object> fields = Fields.of(rider);
        if (chain.used()) {
            fields.put("used", true);
        }
        fields.put(READINGS, chain.readings().stream().map(ChainLines::fields).toList());
        return fields;
    }

    private static Map<String, Object> fields(ReadingEvidence read) {
        Map<String, Object> fields = new LinkedHashMap<>();
        if (read.reading() instanceof Reading.Gauge g) {
            fields.put("edge", g.edgePercent());
            fields.put("drops", g.drops());
        } else if (read.reading() instanceof Reading.Elongation e) {
            fields.put("tool", e.tool().word());
            fields.put("percent", e.percent());
        }
        fields.put("error", read.reading().errorPercent());
        fields.put("ridden", read.ridden().stream().map(ChainLines::fields).toList());
        return fields;
    }

    private static Map<String, Object> fields(ReadingEvidence.Ridden ridden) {
        Map<String, Object> fields = new LinkedHashMap<>();
        Fields.product(fields, ridden.method(), ridden.product());
        fields.put("load", ridden.load());
        if (ridden.wornOff() > 0) {
            fields.put("worn_off", ridden.wornOff());
        }
        fields.put("km", ridden.km().words());
        return fields;
    }

    /**
     * Reads a line.
     *
     * @throws IllegalArgumentException when it says what cannot be
     */
    static ChainEvidence parse(Fields fields) {
        fields.only(FIELDS);
        boolean used = fields.has("used") && fields.truth("used");
        List<ReadingEvidence> readings = new ArrayList<>();
        int last = 0;
        for (Fields row : fields.rows(READINGS, MOST_READINGS)) {
            ReadingEvidence read = reading(row.only(READING));
            if (read.total() < last) {
                throw new IllegalArgumentException("a reading follows one with more kilometres before it");
            }
            last = read.total();
            readings.add(read);
        }
        if (last < ChainEvidence.LEAST_APART) {
            throw new IllegalArgumentException("its last reading has " + last + " kilometres before it; it must have "
                    + ChainEvidence.LEAST_APART + " or more");
        }
        return new ChainEvidence(used, readings);
    }

    private static ReadingEvidence reading(Fields row) {
        double error = row.number("error", 0.01, 1);
        Reading reading = row.has("edge")
                ? ReadingEvidence.edge(row.number("edge", LEAST_PERCENT, MOST_PERCENT), row.truth("drops"), error)
                : ReadingEvidence.length(
                        row.number("percent", LEAST_PERCENT, MOST_PERCENT),
                        TOOLS.get(row.word("tool", TOOL_WORDS)),
                        error);
        row.demand(row.has("edge") != (row.has("percent") || row.has("tool")), "edge", "alone, or left out");
        row.demand(row.has("edge") == row.has("drops"), "drops", "there where an edge is");
        boolean fresh = row.fields().get("ridden") instanceof List<?> none && none.isEmpty();
        return new ReadingEvidence(
                reading,
                fresh
                        ? List.of()
                        : row.rows("ridden", MOST_PRODUCTS).stream()
                                .map(r -> ridden(r.only(RIDDEN)))
                                .toList());
    }

    private static ReadingEvidence.Ridden ridden(Fields row) {
        Method method = row.method();
        RoadKilometres km = row.roads("km");
        row.demand(km.total() > 0, "km", "kilometres by road, at least " + RoadKilometres.STEP);
        double off = row.has("worn_off") ? row.number("worn_off", 0, 1) : 0;
        return new ReadingEvidence.Ridden(method, row.product(), row.number("load", 0, 100), off, km);
    }
}
