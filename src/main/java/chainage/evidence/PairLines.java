package chainage.evidence;

import chainage.ledger.Cleaning;
import chainage.ledger.Method;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Two power meters' rides as a line of JSON. */
final class PairLines {
    /** The field that tells such a line from a treatment's. */
    static final String PAIRED = "paired";

    private static final Set<String> FIELDS = Set.of("rider", PAIRED);
    private static final Set<String> RIDE =
            Set.of("method", "product", "cleaning", "used", "per_mu", "missing", "error");

    /** Our guess: somebody who tests a chain every day for years has fewer. */
    private static final int MOST_RIDES = 2_000;

    /** No chain takes more, and meters are not further off each other. */
    private static final double MOST_MISSING = 20;

    private PairLines() {}

    static Map<String, Object> fields(PairEvidence pair, int rider) {
        Map<String, Object> fields = Fields.of(rider);
        fields.put(PAIRED, pair.rides().stream().map(PairLines::fields).toList());
        return fields;
    }

    static Map<String, Object> fields(PairEvidence.Ride ride) {
        Map<String, Object> fields = new LinkedHashMap<>();
        Fields.product(fields, ride.method(), ride.product());
        fields.put("cleaning", ride.cleaning().word());
        fields.put("used", ride.used());
        fields.put("per_mu", ride.perMu());
        fields.put("missing", ride.missing());
        fields.put("error", ride.error());
        return fields;
    }

    /**
     * Reads a line.
     *
     * @throws IllegalArgumentException when it says what cannot be
     */
    static PairEvidence parse(Fields fields) {
        fields.only(FIELDS);
        List<PairEvidence.Ride> rides = fields.rows(PAIRED, MOST_RIDES).stream()
                .map(r -> ride(r.only(RIDE)))
                .toList();
        if (rides.size() < PairEvidence.LEAST_RIDES) {
            throw new IllegalArgumentException(
                    PAIRED + " has " + rides.size() + "; it must have " + PairEvidence.LEAST_RIDES + " or more");
        }
        return new PairEvidence(rides);
    }

    private static PairEvidence.Ride ride(Fields row) {
        Method method = row.treatedMethod();
        String product = row.product();
        Cleaning cleaning = row.cleaning();
        return new PairEvidence.Ride(
                method,
                product,
                cleaning,
                row.number("used", 0, PairEvidence.MOST_USED),
                row.number("per_mu", 0.01, 1),
                row.number("missing", -MOST_MISSING, MOST_MISSING),
                row.number("error", 0.01, 10));
    }
}
