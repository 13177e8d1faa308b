package chainage.evidence;

import chainage.ledger.Cleaning;
import chainage.ledger.Method;
import chainage.treatment.Life;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** A treatment as a line of JSON, and what lines of all kinds have in common. */
final class EvidenceLines {
    private static final Set<String> FIELDS =
            Set.of("rider", "method", "product", "cleaning", "load", "km", "last_ride_km", "end");
    private static final List<String> ENDS = List.of("noisy", "silent", "quiet", "running");
    private static final List<Life.End> MEANT =
            List.of(Life.End.NOISY, Life.End.RENEWED, Life.End.QUIET, Life.End.RUNNING);
    private static final int MOST_RIDERS = 100_000;

    private EvidenceLines() {}

    /** The word of an end. */
    static String word(Life.End end) {
        return ENDS.get(MEANT.indexOf(end));
    }

    /** Without a rider. */
    static String line(TreatmentEvidence t) {
        return write(fields(t, 0));
    }

    /** Without a rider. */
    static String line(ChainEvidence chain) {
        return write(ChainLines.fields(chain, 0));
    }

    /** Without a rider. */
    static String line(PairEvidence pair) {
        return write(PairLines.fields(pair, 0));
    }

    /** A part of a line. */
    static String line(PairEvidence.Ride ride) {
        return write(PairLines.fields(ride));
    }

    static Map<String, Object> fields(TreatmentEvidence t, int rider) {
        Map<String, Object> fields = Fields.of(rider);
        Fields.product(fields, t.method(), t.product());
        fields.put("cleaning", t.cleaning().word());
        fields.put("load", t.load());
        fields.put("km", t.km().words());
        if (t.end() == Life.End.NOISY) {
            fields.put("last_ride_km", t.last().words());
        }
        fields.put("end", word(t.end()));
        return fields;
    }

    static String write(Map<String, Object> fields) {
        try {
            return JSON.std.asString(fields);
        } catch (IOException e) {
            throw new AssertionError("plain maps can always be written", e);
        }
    }

    /**
     * The fields of a line.
     *
     * @throws IllegalArgumentException when it is no JSON object
     */
    static Map<String, Object> object(String line) {
        try (JsonParser parser = JSON.std.createParser(line)) {
            parser.enable(JsonParser.Feature.STRICT_DUPLICATE_DETECTION);
            Map<String, Object> fields = JSON.std.mapFrom(parser);
            if (fields == null || parser.nextToken() != null) {
                throw new IllegalArgumentException("it is no JSON object alone");
            }
            return fields;
        } catch (IOException e) {
            throw new IllegalArgumentException("it is no JSON object", e);
        }
    }

    /**
     * A line that was read.
     *
     * @param rider number within the file; 0 where none is told
     * @param treatment null for a line of another kind, as all that follow
     */
    record Parsed(
            int rider,
            @Nullable TreatmentEvidence treatment,
            @Nullable ChainEvidence chain,
            @Nullable PairEvidence pair) {}

    static Parsed parse(String line) {
        return parse(object(line));
    }

    /**
     * Reads a line.
     *
     * @throws IllegalArgumentException when it says what cannot be, with what and how to mend it
     */
    static Parsed parse(Map<String, Object> fields) {
        Fields line = new Fields(fields);
        int rider = line.whole("rider", MOST_RIDERS);
        if (line.has(ChainLines.READINGS)) {
            return new Parsed(rider, null, ChainLines.parse(line), null);
        }
        return line.has(PairLines.PAIRED)
                ? new Parsed(rider, null, null, PairLines.parse(line))
                : new Parsed(rider, treatment(line.only(FIELDS)), null, null);
    }

    private static TreatmentEvidence treatment(Fields line) {
        Method method = line.treatedMethod();
        String product = line.product();
        Cleaning cleaning = line.cleaning();
        double load = line.number("load", 0, 100);
        Life.End end = MEANT.get(line.word("end", ENDS));
        RoadKilometres km = line.roads("km");
        line.demand(km.total() > 0, "km", "kilometres by road, at least " + RoadKilometres.STEP);
        boolean noisy = end == Life.End.NOISY;
        line.demand(
                noisy == line.has("last_ride_km"),
                "last_ride_km",
                "the ride in which it was heard, and only of a treatment that was");
        RoadKilometres last = noisy ? line.roads("last_ride_km") : RoadKilometres.NONE;
        if (!last.within(km)) {
            throw new IllegalArgumentException("last_ride_km is more than km on some road");
        }
        return new TreatmentEvidence(method, product, cleaning, load, km, last, end);
    }
}
