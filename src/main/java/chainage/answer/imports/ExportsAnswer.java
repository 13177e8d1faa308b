package chainage.answer.imports;

import chainage.answer.DryRun;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Json;
import chainage.render.Out;
import java.util.List;

/**
 * What exports brought in.
 *
 * @param exports in the order in which they were named
 * @param dryRun whether nothing was written
 */
public record ExportsAnswer(List<Brought> exports, boolean dryRun) implements Answer {
    public ExportsAnswer {
        exports = List.copyOf(exports);
    }

    /** What one brought: facts and rides, new and known. */
    public record Brought(String file, long entries, long entriesKnown, long rides, long ridesKnown) {
        private String told(boolean dryRun) {
            String known = and(entriesKnown, ridesKnown);
            if (entries + rides == 0) {
                return "nothing new; " + known + " known";
            }
            return and(entries, rides)
                    + (dryRun ? " would be brought in" : " brought in")
                    + (entriesKnown + ridesKnown == 0 ? "" : "; " + known + " known");
        }

        private static String and(long facts, long rides) {
            return Formatter.count(facts, "fact", "facts") + " and " + Formatter.count(rides, "ride", "rides");
        }
    }

    /** What scripts get. */
    public static final Columns<ExportsAnswer> FIELDS = Columns.of(
            Column.<ExportsAnswer, Brought>rows(
                    "exports",
                    "in the order in which they were named",
                    Columns.of(
                            Column.<Brought>name("file", "as it was named", Brought::file),
                            Column.<Brought>count("entries", "facts that are new", Brought::entries),
                            Column.<Brought>count("entries_known", "facts that were known", Brought::entriesKnown),
                            Column.<Brought>count("rides", "that are new", Brought::rides),
                            Column.<Brought>count("rides_known", "that were known", Brought::ridesKnown)),
                    ExportsAnswer::exports),
            Column.<ExportsAnswer>truth("dry_run", "whether nothing was written", ExportsAnswer::dryRun));

    @Override
    public Json json() {
        return FIELDS.json(this);
    }

    @Override
    public void print(Out out) {
        DryRun.head(dryRun, out);
        exports.forEach(e -> out.line(e.file() + ": " + e.told(dryRun)));
    }
}
