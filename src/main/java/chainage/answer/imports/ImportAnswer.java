package chainage.answer.imports;

import chainage.analysis.Analysis;
import chainage.analysis.Nearest;
import chainage.answer.DryRun;
import chainage.answer.NextStep;
import chainage.answer.Reasons;
import chainage.answer.due.Advice;
import chainage.answer.things.FileTrouble;
import chainage.attribution.AttributedRide;
import chainage.attribution.AttributedRide.Verdict;
import chainage.attribution.Overlap;
import chainage.importer.Outcome;
import chainage.quantity.ContentDigest;
import chainage.quantity.PlainText;
import chainage.quantity.RideKey;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Json;
import chainage.render.Out;
import chainage.render.Unit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * What an import did.
 *
 * @param lines one a file or archive entry, in order
 * @param troubles what did not become rides as it should, whole files or parts of them, in order
 * @param metres of rides that are new and counted
 * @param chainMetres the same as they count for chains
 * @param counting how many rides are new and counted
 * @param guessed how many new rides only their speed makes rides
 * @param overlaps pairs of rides of one bike at one time that both count, new ones among them
 * @param folders side by side, that may be a rider's or a bike's each, when no rule says so
 * @param refusedParts parts of imported files that were refused
 * @param refusedBefore files that an earlier import refused and that are still there unchanged
 * @param logbooks what was read of each
 * @param tables what was read of each
 * @param dryRun whether nothing was written
 * @param now what follows from the facts after it
 */
public record ImportAnswer(
        List<Line> lines,
        List<FileTrouble> troubles,
        double metres,
        double chainMetres,
        int counting,
        int guessed,
        int overlaps,
        List<String> folders,
        int refusedParts,
        long refusedBefore,
        List<LogbookLines> logbooks,
        List<TableRead> tables,
        boolean dryRun,
        Analysis now,
        Formatter format)
        implements Answer {
    /** So many reasons are told apart in the summary; the rest are summed up. */
    private static final int REASONS = 6;

    /** What a file turned out to be; the words are a promise to scripts. */
    public enum Became {
        IMPORTED,
        SALVAGED,
        KNOWN,
        TWIN,
        NOT_RIDE,
        REFUSED;

        String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }

    /**
     * One file.
     *
     * @param file as the rider named it
     * @param reason may be empty
     * @param hint what to do; may be empty
     * @param rides ids of its rides
     */
    public record Line(String file, Became became, String reason, String hint, List<String> rides) {}

    private static final Columns<Line> LINES = Columns.of(
            Column.<Line>name("file", "as it was named", Line::file),
            Column.<Line>word(
                    "outcome",
                    "imported, salvaged, known, twin, not-ride or refused",
                    l -> l.became().word()),
            Column.<Line>word("reason", "may be empty", Line::reason),
            Column.<Line>word("mend", "what to do; may be empty", Line::hint),
            Column.<Line>list("ride_ids", "of its rides", Line::rides));

    /** What scripts get. */
    public static final Columns<ImportAnswer> FIELDS = Columns.of(
            Column.<ImportAnswer>count(
                    "files", "read, archives apart", a -> a.lines().size()),
            Column.<ImportAnswer>count("imported", "files with new rides", ImportAnswer::imported),
            counted("salvaged", "of them read up to a break", Became.SALVAGED),
            counted("known", "whose content was there already", Became.KNOWN),
            counted("twins", "whose rides repeat others", Became.TWIN),
            counted("not_rides", "that hold something else", Became.NOT_RIDE),
            counted("refused", "that could not be read", Became.REFUSED),
            Column.<ImportAnswer>figure("metres", Unit.METRES, 1, "of new rides that count", ImportAnswer::metres),
            Column.<ImportAnswer, Line>rows("outcomes", "one a file, in order", LINES, ImportAnswer::lines),
            Column.<ImportAnswer>count(
                    "overlaps", "pairs of rides of one bike at one time that both count", ImportAnswer::overlaps),
            Column.<ImportAnswer>list("folders", "that may be a rider's or a bike's each", ImportAnswer::folders),
            Column.<ImportAnswer, LogbookLines>rows(
                    "logbooks", "one each, in order", LogbookLines.FIELDS, ImportAnswer::logbooks),
            Column.<ImportAnswer, TableRead>rows(
                    "tables", "that tell of rides, one each", TableRead.FIELDS, ImportAnswer::tables),
            Column.<ImportAnswer>truth("dry_run", "whether nothing was written", ImportAnswer::dryRun));

    private static Column<ImportAnswer> counted(String key, String meaning, Became became) {
        return Column.count(key, meaning, a -> a.count(became));
    }

    /**
     * Joins outcomes with the verdicts on their rides: only now is it known which are twins and which are no rides.
     *
     * @param roots what the rider named
     * @param rides whose verdicts are told: all; none where nothing is new, and no one asks what was there already
     * @param all the analysis with every ride in it
     * @param now the analysis of the present
     */
    public static ImportAnswer of(
            List<String> roots,
            List<Outcome> outcomes,
            List<AttributedRide> rides,
            Analysis all,
            Analysis now,
            long refusedBefore,
            List<LogbookLines> logbooks,
            List<TableRead> tables,
            boolean dryRun,
            Formatter format) {
        Map<RideKey, AttributedRide> verdicts = new HashMap<>();
        Map<ContentDigest, List<String>> idsOf = new HashMap<>();
        for (AttributedRide r : rides) {
            RideKey key = r.filed().ride().key();
            verdicts.put(key, r);
            idsOf.computeIfAbsent(key.digest(), k -> new ArrayList<>()).add(r.id());
        }
        List<Line> lines = new ArrayList<>();
        List<FileTrouble> troubles = new ArrayList<>();
        List<AttributedRide> counted = new ArrayList<>();
        int refusedParts = 0;
        for (Outcome o : outcomes) {
            if (o.kind() == Outcome.Kind.ARCHIVE || o.kind() == Outcome.Kind.LOGBOOK) {
                continue;
            }
            ContentDigest digest = o.digest();
            List<String> ids = digest == null ? List.of() : idsOf.getOrDefault(digest, List.of());
            refusedParts += o.refusedParts();
            List<AttributedRide> brought = o.keys().stream()
                    .map(verdicts::get)
                    .filter(Objects::nonNull)
                    .toList();
            Line line = line(o, brought, ids, format);
            lines.add(line);
            if (line.became() == Became.REFUSED || line.became() == Became.SALVAGED) {
                troubles.add(new FileTrouble(line.file(), line.reason(), line.hint()));
            } else if (o.refusedParts() > 0) {
                // What became of the rest may have put the reason out of the line.
                troubles.add(new FileTrouble(o.file(), o.reason(), o.hint()));
            }
            brought.stream().filter(AttributedRide::counted).forEach(counted::add);
        }
        logbooks.forEach(l -> troubles.addAll(l.troubles()));
        tables.forEach(t -> troubles.addAll(t.troubles()));
        return new ImportAnswer(
                List.copyOf(lines),
                List.copyOf(troubles),
                counted.stream()
                        .mapToDouble(r -> r.filed().ride().distance().metres())
                        .sum(),
                counted.stream().mapToDouble(r -> all.exposures().metresOf(r)).sum(),
                counted.size(),
                (int) counted.stream().filter(AttributedRide::guessed).count(),
                overlaps(all, counted),
                RiderFolders.of(
                        roots,
                        outcomes.stream()
                                .filter(o -> !o.keys().isEmpty())
                                .map(Outcome::file)
                                .toList(),
                        counted),
                refusedParts,
                refusedBefore,
                List.copyOf(logbooks),
                List.copyOf(tables),
                dryRun,
                now,
                format);
    }

    /** The same with what an import just before it did: of files that were handed over in several portions. */
    public ImportAnswer after(ImportAnswer earlier) {
        return new ImportAnswer(
                joined(earlier.lines, lines),
                joined(earlier.troubles, troubles),
                earlier.metres + metres,
                earlier.chainMetres + chainMetres,
                earlier.counting + counting,
                earlier.guessed + guessed,
                earlier.overlaps + overlaps,
                joined(earlier.folders, folders).stream().distinct().toList(),
                earlier.refusedParts + refusedParts,
                refusedBefore,
                joined(earlier.logbooks, logbooks),
                joined(earlier.tables, tables),
                dryRun,
                now,
                format);
    }

    private static <T> List<T> joined(List<T> first, List<T> second) {
        return Stream.concat(first.stream(), second.stream()).toList();
    }

    /** What could not be read of each file, by its name, in order; nothing of one that was read whole. */
    public Map<String, List<FileTrouble>> unread() {
        Map<String, List<FileTrouble>> unread = new LinkedHashMap<>();
        lines.forEach(l -> unread.put(
                l.file(),
                troubles.stream().filter(t -> t.file().equals(l.file())).toList()));
        logbooks.forEach(l -> unread.put(l.file(), l.unread()));
        return unread;
    }

    /** Numbers of the facts that its logbooks and tables stated. */
    public List<Long> entries() {
        return Stream.concat(
                        logbooks.stream().flatMap(l -> l.entries().stream()),
                        tables.stream().flatMap(t -> t.entries().stream()))
                .toList();
    }

    /** Ids of the rides that are new. */
    public List<String> rides() {
        return lines.stream()
                .filter(l -> l.became() == Became.IMPORTED || l.became() == Became.SALVAGED)
                .flatMap(l -> l.rides().stream())
                .distinct()
                .toList();
    }

    /** Pairs of rides of one bike at one time, at least one of which was brought in, that the rider has not looked at. */
    private static int overlaps(Analysis all, List<AttributedRide> counted) {
        if (counted.isEmpty()) {
            return 0;
        }
        Set<String> brought = counted.stream().map(AttributedRide::id).collect(Collectors.toSet());
        return (int) Overlap.of(all.ledger(), all.rides()).stream()
                .filter(o -> !o.stated()
                        && (brought.contains(o.first().id())
                                || brought.contains(o.second().id())))
                .count();
    }

    private static Line line(Outcome o, List<AttributedRide> rides, List<String> ids, Formatter format) {
        Became became = switch (o.kind()) {
            case IMPORTED -> Became.IMPORTED;
            case SALVAGED -> Became.SALVAGED;
            case KNOWN -> Became.KNOWN;
            case NOT_RIDE -> Became.NOT_RIDE;
            case REFUSED, ARCHIVE, LOGBOOK -> Became.REFUSED;
        };
        if (became != Became.IMPORTED && became != Became.SALVAGED) {
            return new Line(o.file(), became, o.reason(), o.hint(), ids);
        }
        AttributedRide counted =
                rides.stream().filter(AttributedRide::counted).findFirst().orElse(null);
        if (counted != null) {
            List<String> reasons = new ArrayList<>();
            if (!o.reason().isEmpty()) {
                reasons.add(o.reason());
            }
            rides.stream()
                    .flatMap(r -> r.filed().ride().remarks().stream())
                    .distinct()
                    .forEach(reasons::add);
            if (counted.guessed()) {
                reasons.add(Reasons.of(counted.because(), format));
            }
            return new Line(o.file(), became, String.join("; ", reasons), o.hint(), ids);
        }
        for (AttributedRide r : rides) {
            if (r.verdict() == Verdict.TWIN) {
                return new Line(o.file(), Became.TWIN, Reasons.of(r.because(), format), "", ids);
            }
        }
        String because = rides.isEmpty() ? o.reason() : Reasons.of(rides.get(0).because(), format);
        return new Line(o.file(), Became.NOT_RIDE, because, "", ids);
    }

    private int count(Became became) {
        return (int) lines.stream().filter(l -> l.became() == became).count();
    }

    private int imported() {
        return count(Became.IMPORTED) + count(Became.SALVAGED);
    }

    /** True when a file or a part of one was refused. */
    public boolean refused() {
        return count(Became.REFUSED) + refusedParts > 0
                || logbooks.stream().anyMatch(l -> !l.troubles().isEmpty())
                || tables.stream().anyMatch(t -> !t.troubles().isEmpty());
    }

    @Override
    public Json json() {
        return FIELDS.json(this);
    }

    @Override
    public void print(Out out) {
        DryRun.head(dryRun, out);
        if (!lines.isEmpty() || (logbooks.isEmpty() && tables.isEmpty())) {
            out.line(figures());
        }
        if (lines.size() > 1 && lines.stream().allMatch(l -> l.became() == Became.NOT_RIDE)) {
            out.line("Nothing was brought in: no file of these is a bike ride.");
        }
        noRides(out);
        logbooks.forEach(l -> l.print(out, dryRun));
        tables.forEach(t -> t.print(out, dryRun));
        if (guessed > 0) {
            out.line(Formatter.count(guessed, "ride states", "rides state") + " no sport and "
                    + (guessed == 1 ? "counts" : "count") + " by speed; to look them over: chainage rides --guessed");
        }
        if (overlaps > 0) {
            out.line(Formatter.count(overlaps, "pair of rides", "pairs of rides") + " of one bike "
                    + (overlaps == 1 ? "overlaps" : "overlap") + ", and both count: chainage check");
        }
        if (!folders.isEmpty()) {
            String from = "Rides came from the folders " + String.join(", ", folders)
                    + ". If each is a rider's or a bike's, say so";
            if (now.ledger().bikes().isEmpty()) {
                out.hint(from + " once there are bikes: chainage assign --path " + PlainText.typed(folders.get(0))
                        + " --bike BIKE");
            } else {
                out.line(from + "; else what was ridden at one time counts once:");
                RiderFolders.rules(folders).forEach(line -> out.hint("  " + line));
            }
        }
        if (refusedBefore > 0) {
            out.line(Formatter.count(refusedBefore, "file was", "files were") + " refused earlier: chainage refused");
        }
        Nearest.of(now.standings()).ifPresent(n -> {
            Advice advice = new Advice(now, format);
            out.advice(advice.sentence(n.chain()), n.chain().due());
            out.lines(advice.beforeNextRide(n.chain()));
        });
        NextStep.unattributed(now, format, out);
    }

    private String figures() {
        List<String> figures = new ArrayList<>();
        add(
                figures,
                imported(),
                "imported (" + (counting == imported() ? "" : Formatter.count(counting, "ride", "rides") + ", ")
                        + format.distance(chainMetres) + ")");
        add(
                figures,
                count(Became.SALVAGED),
                "of them cut off (what could be read of " + (count(Became.SALVAGED) == 1 ? "it" : "them") + " counts)");
        add(figures, count(Became.TWIN), count(Became.TWIN) == 1 ? "duplicate" : "duplicates");
        add(figures, count(Became.KNOWN), "known");
        add(figures, count(Became.NOT_RIDE), count(Became.NOT_RIDE) == 1 ? "not a bike ride" : "not bike rides");
        add(figures, count(Became.REFUSED), "refused");
        return Formatter.count(lines.size(), "file", "files")
                + (figures.isEmpty() ? "." : ": " + String.join(", ", figures) + ".");
    }

    private static void add(List<String> figures, int n, String what) {
        if (n > 0) {
            figures.add(n + " " + what);
        }
    }

    /** What is no ride, by reason, the most frequent first. */
    private void noRides(Out out) {
        Map<String, Integer> reasons = new TreeMap<>();
        lines.stream()
                .filter(l -> l.became() == Became.NOT_RIDE)
                .forEach(l -> reasons.merge(l.reason(), 1, Integer::sum));
        if (reasons.isEmpty()) {
            return;
        }
        List<String> parts = new ArrayList<>();
        reasons.entrySet().stream()
                .sorted(Map.Entry.<String, Integer>comparingByValue().reversed())
                .limit(REASONS)
                .forEach(e -> parts.add(e.getValue() + " × " + e.getKey()));
        if (reasons.size() > REASONS) {
            parts.add("and " + (reasons.size() - REASONS) + " other reasons (chainage rides --all --why)");
        }
        out.line("Not bike rides: " + String.join("; ", parts) + ".");
    }
}
