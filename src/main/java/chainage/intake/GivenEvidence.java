package chainage.intake;

import chainage.analysis.Analysis;
import chainage.evidence.RiderEvidence;
import chainage.meter.RidePair;
import chainage.typed.CliError;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** What riders' chains have shown, as it is given to others. */
public final class GivenEvidence {
    private GivenEvidence() {}

    /**
     * A piece for each rider that has something to show.
     *
     * @param riders for each rider the bikes, parted by commas; empty where all are one rider's
     * @param named whether products' names are told
     * @param least products with fewer treatments are left out
     * @param others whether what others gave is passed on
     */
    public static List<RiderEvidence> of(Analysis all, List<String> riders, boolean named, int least, boolean others) {
        List<RiderEvidence> written = new ArrayList<>();
        for (Set<String> bikes : bikes(all, riders)) {
            Analysis part = all.about(bikes);
            written.add(RiderEvidence.of(
                    part.ledger(), part.exposures(), paired(part, bikes), part.factors(), named, least));
        }
        if (others) {
            all.others().riders().stream()
                    .filter(r -> r.again() == null)
                    .map(r -> named ? r.evidence() : r.evidence().unnamed())
                    .forEach(written::add);
        }
        written.removeIf(RiderEvidence::isEmpty);
        return written;
    }

    /** What meters show together is learnt of all bikes, but each ride is one rider's. */
    private static List<RidePair> paired(Analysis part, Set<String> bikes) {
        return part.pairs().rides().stream()
                .filter(p -> bikes.isEmpty() || bikes.contains(p.ride().bike()))
                .toList();
    }

    private static List<Set<String>> bikes(Analysis all, List<String> riders) {
        if (riders.isEmpty()) {
            return List.of(Set.of());
        }
        Set<String> known = new HashSet<>();
        List<Set<String>> groups = new ArrayList<>();
        for (String typed : riders) {
            Set<String> group = new HashSet<>();
            for (String bike :
                    Arrays.stream(typed.split(",")).map(String::strip).toList()) {
                if (!all.ledger().bikes().containsKey(bike)) {
                    throw CliError.usage("there is no bike \"" + bike + "\"", "chainage bike lists them");
                }
                if (!known.add(bike)) {
                    throw CliError.usage("bike " + bike + " is named twice", "a bike is one rider's");
                }
                group.add(bike);
            }
            groups.add(group);
        }
        return groups;
    }
}
