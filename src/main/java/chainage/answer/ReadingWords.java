package chainage.answer;

import chainage.ledger.Reading;
import chainage.render.Formatter;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Collectors;

/** Readings in words. */
public final class ReadingWords {
    public static final Comparator<Reading.Gauge> BY_EDGE = Comparator.comparingDouble(Reading.Gauge::stated);
    /** Places that differ by more than this many errors of one value are not one length; our choice. */
    private static final double UNEVEN = 3;

    private ReadingWords() {}

    /** In a few words, for lists. */
    public static String of(Reading reading) {
        if (reading instanceof Reading.Elongation e) {
            return "elongation " + Formatter.elongation(e.percent()) + " % by "
                    + e.tool().word() + " over " + e.pitches() + " pitches"
                    + (e.places() == 1 ? "" : " at " + e.places() + " places");
        }
        if (reading instanceof Reading.Gauge g) {
            return "gauge " + Formatter.number(g.stated()) + " % " + (g.drops() ? "drops in" : "stays out");
        }
        throw new AssertionError(reading);
    }

    /** How what was read became what is said, one step a line; nothing where both are the same. */
    public static List<String> arithmetic(Reading reading) {
        List<String> lines = new ArrayList<>();
        if (reading instanceof Reading.Elongation e) {
            boolean lengths = e.unit() == Reading.Unit.MILLIMETRES;
            if (lengths || e.places() > 1 || e.playMillimetres() != null) {
                double mean = e.stated().stream()
                        .mapToDouble(Double::doubleValue)
                        .average()
                        .orElseThrow();
                String said = figure(mean, e.unit());
                lines.add((e.places() == 1
                                ? ""
                                : "mean of "
                                        + e.stated().stream()
                                                .map(v -> figure(v, e.unit()))
                                                .collect(Collectors.joining(", "))
                                        + ": ")
                        + (lengths ? said + " / (" + e.pitches() + " × 12.7 mm) − 1" : said)
                        + (e.playMillimetres() == null
                                ? ""
                                : " − " + Formatter.number(e.playMillimetres()) + " mm / (" + e.pitches()
                                        + " × 12.7 mm)")
                        + (lengths || e.playMillimetres() != null
                                ? " = " + Formatter.fixed(e.percent(), 3) + " %"
                                : ""));
            }
            double one = e.statedError() == null ? e.tool().errorPercent(e.pitches()) : e.statedError();
            if (e.places() > 1 || e.statedError() != null || e.playMillimetres() != null) {
                lines.add("standard error " + Formatter.fixed(e.errorPercent(), 3) + " %"
                        + (e.places() > 1
                                ? ", with " + Formatter.fixed(e.spreadPercent(), 3) + " % between the places"
                                : ""));
            }
            if (e.spreadPercent() > UNEVEN * one) {
                lines.add("the places differ more than the tool errs; look for stiff or damaged links");
            }
        } else if (reading instanceof Reading.Gauge g && g.playMillimetres() != null) {
            lines.add(Formatter.number(g.stated()) + " % − " + Formatter.number(g.playMillimetres()) + " mm / ("
                    + g.pitches() + " × 12.7 mm) = " + Formatter.fixed(g.edgePercent(), 3) + " %"
                    + " of elongation");
        }
        return lines;
    }

    private static String figure(double value, Reading.Unit unit) {
        return Formatter.number(value) + (unit == Reading.Unit.MILLIMETRES ? " mm" : " %");
    }
}
