package chainage.cli;

import chainage.analysis.Analysis;
import chainage.attribution.AttributedRide;
import chainage.attribution.AttributedRide.Verdict;
import chainage.importer.Outcome;
import chainage.quantity.ContentDigest;
import chainage.quantity.RideKey;
import chainage.render.Formatter;
import chainage.render.Json;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;

/**
 * What an import did, file by file.
 *
 * @param lines one a file or archive entry, in order
 * @param troubles what did not become rides as it should, whole files or parts of them, in order
 * @param metres of rides that are new and counted
 * @param chainMetres the same as they count for chains
 * @param guessed how many new rides only their speed makes rides
 * @param refusedParts parts of imported files that were refused
 */
record ImportReport(
        List<Line> lines, List<Line> troubles, double metres, double chainMetres, int guessed, int refusedParts) {
    /** So many reasons are told apart in the summary; the rest are summed up. */
    private static final int REASONS = 6;

    /**
     * One file.
     *
     * @param file as the rider named it
     * @param outcome a word of the script contract
     * @param reason may be empty
     * @param mend may be empty
     * @param rides ids of its rides
     */
    record Line(String file, String outcome, String reason, String mend, List<String> rides) {}

    /**
     * Joins outcomes with the verdicts on their rides: only now is it known which are twins and which are no rides.
     *
     * @param all the analysis with every ride in it
     */
    static ImportReport of(List<Outcome> outcomes, Analysis all) {
        Map<RideKey, AttributedRide> verdicts = new HashMap<>();
        Map<ContentDigest, List<String>> idsOf = new HashMap<>();
        for (AttributedRide r : all.rides()) {
            RideKey key = r.filed().ride().key();
            verdicts.put(key, r);
            idsOf.computeIfAbsent(key.digest(), k -> new ArrayList<>()).add(r.id());
        }
        List<Line> lines = new ArrayList<>();
        List<Line> troubles = new ArrayList<>();
        double metres = 0;
        double chainMetres = 0;
        int guessed = 0;
        int refusedParts = 0;
        for (Outcome o : outcomes) {
            if (o.kind() == Outcome.Kind.ARCHIVE) {
                continue;
            }
            ContentDigest digest = o.digest();
            List<String> ids = digest == null ? List.of() : idsOf.getOrDefault(digest, List.of());
            refusedParts += o.refusedParts();
            List<AttributedRide> rides = o.keys().stream()
                    .map(verdicts::get)
                    .filter(Objects::nonNull)
                    .toList();
            Line line = line(o, rides, ids);
            lines.add(line);
            if (line.outcome().equals("refused") || line.outcome().equals("salvaged")) {
                troubles.add(line);
            } else if (o.refusedParts() > 0) {
                // What became of the rest may have put the reason out of the line.
                troubles.add(new Line(o.file(), line.outcome(), o.reason(), o.mend(), ids));
            }
            guessed += (int) rides.stream().filter(RidesCommand::isGuessed).count();
            chainMetres += rides.stream()
                    .filter(AttributedRide::counted)
                    .mapToDouble(all.exposures()::metresOf)
                    .sum();
            metres += rides.stream()
                    .filter(AttributedRide::counted)
                    .mapToDouble(r -> r.filed().ride().distance().metres())
                    .sum();
        }
        return new ImportReport(List.copyOf(lines), List.copyOf(troubles), metres, chainMetres, guessed, refusedParts);
    }

    private static Line line(Outcome o, List<AttributedRide> rides, List<String> ids) {
        if (o.kind() != Outcome.Kind.IMPORTED && o.kind() != Outcome.Kind.SALVAGED) {
            String word = switch (o.kind()) {
                case KNOWN -> "known";
                case NOT_RIDE -> "not-ride";
                default -> "refused";
            };
            return new Line(o.file(), word, o.reason(), o.mend(), ids);
        }
        List<String> reasons = new ArrayList<>();
        if (!o.reason().isEmpty()) {
            reasons.add(o.reason());
        }
        rides.stream()
                .flatMap(r -> r.filed().ride().remarks().stream())
                .distinct()
                .forEach(reasons::add);
        AttributedRide counted =
                rides.stream().filter(AttributedRide::counted).findFirst().orElse(null);
        if (counted != null) {
            if (counted.guessed()) {
                reasons.add(counted.because());
            }
            return new Line(
                    o.file(),
                    o.kind() == Outcome.Kind.SALVAGED ? "salvaged" : "imported",
                    String.join("; ", reasons),
                    o.mend(),
                    ids);
        }
        AttributedRide twin = rides.stream()
                .filter(r -> r.verdict() == Verdict.TWIN)
                .findFirst()
                .orElse(null);
        if (twin != null) {
            return new Line(o.file(), "twin", twin.because(), "", ids);
        }
        String because = rides.isEmpty() ? o.reason() : rides.get(0).because();
        return new Line(o.file(), "not-ride", because, "", ids);
    }

    int count(String outcome) {
        return (int) lines.stream().filter(l -> l.outcome().equals(outcome)).count();
    }

    /** The contract of {@code import --json}. */
    Json json() {
        List<Json> outcomes = new ArrayList<>();
        for (Line l : lines) {
            outcomes.add(new Json()
                    .put("file", l.file())
                    .put("outcome", l.outcome())
                    .put("reason", l.reason())
                    .put("mend", l.mend())
                    .put("ride_ids", l.rides()));
        }
        return new Json()
                .put("files", lines.size())
                .put("imported", count("imported") + count("salvaged"))
                .put("salvaged", count("salvaged"))
                .put("known", count("known"))
                .put("twins", count("twin"))
                .put("not_rides", count("not-ride"))
                .put("refused", count("refused"))
                .number("metres", metres, 1)
                .put("outcomes", outcomes);
    }

    /** For people: one sentence of figures, then the not-rides by reason. */
    List<String> sentences(Formatter format) {
        List<String> figures = new ArrayList<>();
        add(figures, count("imported") + count("salvaged"), "imported (" + format.distance(chainMetres) + ")");
        add(figures, count("salvaged"), "of them salvaged");
        add(figures, count("twin"), count("twin") == 1 ? "twin" : "twins");
        add(figures, count("known"), "known");
        add(figures, count("not-ride"), "no rides");
        add(figures, count("refused"), "refused");
        List<String> sentences = new ArrayList<>();
        sentences.add(Formatter.count(lines.size(), "file", "files")
                + (figures.isEmpty() ? "." : ": " + String.join(", ", figures) + "."));
        Map<String, Integer> reasons = new TreeMap<>();
        lines.stream()
                .filter(l -> l.outcome().equals("not-ride"))
                .forEach(l -> reasons.merge(l.reason(), 1, Integer::sum));
        if (!reasons.isEmpty()) {
            List<String> parts = new ArrayList<>();
            reasons.entrySet().stream()
                    .sorted(Map.Entry.<String, Integer>comparingByValue().reversed())
                    .limit(REASONS)
                    .forEach(e -> parts.add(e.getValue() + " × " + e.getKey()));
            if (reasons.size() > REASONS) {
                parts.add("and " + (reasons.size() - REASONS) + " other reasons (chainage rides --all --why)");
            }
            sentences.add("No rides: " + String.join("; ", parts) + ".");
        }
        if (guessed > 0) {
            sentences.add(Formatter.count(guessed, "ride states", "rides state")
                    + " no sport and " + (guessed == 1 ? "counts" : "count")
                    + " by speed; to look them over: chainage rides --guessed");
        }
        return sentences;
    }

    private static void add(List<String> figures, int n, String what) {
        if (n > 0) {
            figures.add(n + " " + what);
        }
    }
}
