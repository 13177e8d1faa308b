package chainage.cli;

import chainage.attribution.AttributedRide;
import java.nio.file.Files;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** The next command to type, for a rider who is not there yet. */
final class Guide {
    /** So many bikes are named; more would bury the next step. */
    private static final int BIKES = 3;

    private Guide() {}

    /** What comes next while nothing can be answered. */
    static String next(Desk desk, Picture picture) {
        if (picture.rides().isEmpty() && picture.ledger().bikes().isEmpty()) {
            return (Files.exists(desk.ledgerPath())
                            ? "Nothing here yet."
                            : "There is no ledger at "
                                    + Words.safe(desk.ledgerPath().toString()) + " yet.")
                    + System.lineSeparator() + "Import your rides: chainage import FOLDER" + System.lineSeparator()
                    + "Or see an invented season first: chainage demo";
        }
        if (picture.ledger().bikes().isEmpty()) {
            return "No bike yet. Add one: chainage bike add NAME";
        }
        if (picture.ledger().chains().isEmpty()) {
            return "No chain yet. Add one: chainage chain add NAME";
        }
        return "No chain in use. Add one: chainage chain add NAME";
    }

    /** How to give rides without a chain theirs: a line for each bike with a gap, the longest first. */
    static List<String> attribute(Picture picture, Words words) {
        List<AttributedRide> bare = picture.exposures().unattributed();
        List<String> lines = new ArrayList<>();
        if (picture.ledger().bikes().isEmpty()) {
            lines.add("Next: chainage bike add NAME");
            return lines;
        }
        List<AttributedRide> noBike =
                bare.stream().filter(r -> r.bike() == null).toList();
        if (!noBike.isEmpty()) {
            lines.add(Words.count(noBike.size(), "ride is", "rides are") + " on no bike. Next: chainage assign "
                    + noBike.get(0).id() + " --bike NAME, or a rule for many: chainage assign --help");
        }
        if (picture.ledger().chains().isEmpty()) {
            lines.add("Next: chainage chain add NAME");
            return lines;
        }
        Map<String, List<AttributedRide>> byBike = new TreeMap<>();
        for (AttributedRide r : bare) {
            String bike = r.bike();
            if (bike != null) {
                byBike.computeIfAbsent(bike, b -> new ArrayList<>()).add(r);
            }
        }
        byBike.entrySet().stream()
                .sorted(Comparator.comparing(e -> -e.getValue().size()))
                .limit(BIKES)
                .forEach(e -> lines.add(gap(picture, e.getKey(), e.getValue(), words)));
        if (bare.size() > 1 && !picture.ledger().chains().isEmpty()) {
            lines.add("All of them: chainage rides --unattributed");
        }
        return lines;
    }

    private static String gap(Picture picture, String bike, List<AttributedRide> rides, Words words) {
        Instant first = rides.get(0).filed().ride().start();
        double metres =
                rides.stream().mapToDouble(picture.exposures()::metresOf).sum();
        String until = picture.facts().installations().stream()
                .filter(i -> i.bike().equals(bike) && i.interval().from().isAfter(first))
                .findFirst()
                .map(i -> " --until \"" + words.time(i.interval().from()) + "\"")
                .orElse("");
        return Words.safe(bike) + ": " + Words.count(rides.size(), "ride", "rides") + ", " + words.distance(metres)
                + ", without a chain. Next: chainage install CHAIN " + Words.typed(Words.safe(bike)) + " --on "
                + words.date(first) + until;
    }
}
