package chainage.answer.imports;

import chainage.analysis.WeatherReach;
import chainage.answer.ChangeAnswer;
import chainage.answer.DryRun;
import chainage.attribution.AttributedRide;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Json;
import chainage.render.Out;
import chainage.render.Unit;
import chainage.weather.Place;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.function.ToLongFunction;
import org.jspecify.annotations.Nullable;

/**
 * What files of weather records brought.
 *
 * @param files in the order in which they were named
 * @param changes what they moved, a line each
 * @param reach what the new records speak for; null where nothing is new
 * @param placed false where the records were given no place
 * @param dryRun whether nothing was written
 */
public record WeatherAnswer(
        List<Read> files,
        List<String> changes,
        @Nullable WeatherReach reach,
        boolean placed,
        boolean dryRun,
        Formatter format)
        implements Answer {
    /**
     * A file.
     *
     * @param read lines that tell something
     * @param kept records in them
     * @param bad lines that cannot be used
     * @param added records that were new
     * @param entry the fact that holds them; null when nothing was new
     */
    public record Read(
            String file,
            long read,
            long kept,
            long bad,
            long added,
            @Nullable Long entry) {}

    private static final Columns<Read> FILES = Columns.of(
            Column.<Read>name("file", "as it was named", Read::file),
            Column.<Read>count("read", "lines that tell something", Read::read),
            Column.<Read>count("kept", "records in them", Read::kept),
            Column.<Read>count("bad", "lines that cannot be used", Read::bad),
            Column.<Read>count("added", "records that were new", Read::added),
            Column.<Read>count("entry", "the fact that holds them; null when nothing was new", Read::entry));

    /** What scripts get. */
    public static final Columns<WeatherAnswer> FIELDS = Columns.of(
            Column.<WeatherAnswer, Read>rows("files", "as they were named", FILES, WeatherAnswer::files),
            Column.<WeatherAnswer>list("changes", "what they moved, before → after", WeatherAnswer::changes),
            Column.<WeatherAnswer>count(
                    "rides", "outdoors that count; null where nothing is new", a -> count(a, WeatherReach::rides)),
            Column.<WeatherAnswer>count(
                    "reached", "of them, that the new records hold for", a -> count(a, WeatherReach::reached)),
            Column.<WeatherAnswer>figure(
                    "nearest",
                    Unit.METRES,
                    0,
                    "from a station to the nearest ride in the records' time; null where there is none",
                    a -> a.reach() == null ? Double.NaN : a.reach().metres()),
            Column.<WeatherAnswer>truth("dry_run", "whether nothing was written", WeatherAnswer::dryRun));

    /** True when no line had to be left out. */
    public boolean whole() {
        return files.stream().allMatch(f -> f.bad() == 0);
    }

    private static @Nullable Long count(WeatherAnswer a, ToLongFunction<WeatherReach> part) {
        return a.reach() == null ? null : part.applyAsLong(a.reach());
    }

    /** What the records speak for, a line each. */
    private List<String> reachLines() {
        if (reach == null || reach.rides() == 0) {
            return List.of();
        }
        List<String> lines = new ArrayList<>();
        String of = " of " + Formatter.count(reach.rides(), "ride", "rides") + " outdoors";
        AttributedRide nearest = reach.nearest();
        if (reach.reached() > 0) {
            lines.add("They hold for " + reach.reached() + of
                    + (nearest == null ? "." : "; the nearest is " + format.leftWhole(reach.metres()) + " off."));
        } else if (nearest != null) {
            lines.add("They hold for none" + of + ": the nearest in their time, "
                    + format.date(nearest.filed().ride().start()) + ", is " + format.leftWhole(reach.metres())
                    + " off.");
        } else {
            lines.add("They hold for none" + of + ".");
        }
        Place swapped = reach.swapped();
        if (swapped != null) {
            lines.add("With latitude and longitude changed over it would be " + format.leftWhole(reach.swappedMetres())
                    + ". If they were swapped, take this back and give --station " + swapped.text() + ".");
        }
        return lines;
    }

    private List<Long> entries() {
        return files.stream().map(Read::entry).filter(Objects::nonNull).toList();
    }

    @Override
    public Json json() {
        return FIELDS.json(this);
    }

    @Override
    public void print(Out out) {
        DryRun.head(dryRun, out);
        for (Read f : files) {
            out.whole(f.file() + ": " + Formatter.count(f.kept(), "record", "records") + " read, "
                    + f.added() + " new"
                    + (f.bad() > 0 ? ", " + Formatter.count(f.bad(), "line", "lines") + " left out" : ""));
        }
        changes.forEach(line -> out.line(2, line));
        reachLines().forEach(out::line);
        if (!entries().isEmpty()) {
            if (!placed) {
                out.hint("No place was given, so these records hold wherever you ride; to say where:"
                        + " --station LAT,LON");
            }
            out.hint(ChangeAnswer.undo(entries()));
        }
    }
}
