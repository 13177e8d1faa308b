package chainage.command;

import chainage.answer.ReadingWords;
import chainage.ledger.Reading;
import chainage.quantity.PlainText;
import chainage.render.Formatter;
import chainage.typed.CliError;
import chainage.typed.Guesses;
import chainage.typed.Lengths;
import chainage.typed.QuantityParser;
import chainage.typed.TypedNumber;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** How a reading was taken, as typed, and what is refused of it. */
public final class ReadingOptions {
    private static final double LEAST = -0.3;
    private static final double MOST = 3;

    private static final String INSIDE =
            "; if it was read between two rollers, by a calliper's inside jaws, add --inside";

    /** Roller diameter of chains 081 and 082 by the table of DIN 8187 and ISO 606, as bicycles' are. */
    private static final double ROLLER_MILLIMETRES = 7.75;

    private static final String GAUGE = "write stays-out when the edge does not drop in, drops-in when it does";

    @Option(
            names = "--length",
            paramLabel = "LENGTH",
            description = "length over the pitches, in mm, cm or in; once for each place")
    List<String> lengths = List.of();

    @Option(
            names = "--gauge",
            paramLabel = "EDGE",
            description = "a gauge's edge in per cent, such as 0.5; may be repeated")
    List<String> edges = List.of();

    @Option(
            names = "--tool",
            paramLabel = "ruler|calliper|gauge",
            description = "what it was read with (default: ruler)")
    @Nullable
    String tool;

    @Option(
            names = "--inside",
            description =
                    "the length is that between two rollers, by a calliper's inside jaws: a roller's 7.75 mm are added")
    boolean inside;

    @Option(
            names = "--pitches",
            paramLabel = "N",
            description = "pitches spanned (default: ruler 24, calliper and gauge 8)")
    @Nullable
    Integer pitches;

    @Option(
            names = "--error",
            paramLabel = "ERROR",
            description = "standard error of one value, in %% or mm (default: by the tool)")
    @Nullable
    String error;

    @Option(
            names = "--roller-play",
            paramLabel = "MM",
            description = "play of both rollers that the value has in it, to be taken off")
    @Nullable
    String play;

    /**
     * The readings that were typed, at least one.
     *
     * @param values what stands after the chain's name
     * @throws CliError when they cannot be, with the arithmetic that shows it
     */
    public List<Reading> readings(List<String> values) {
        Reading.Tool with = tool();
        int n = pitches != null ? pitches : with.usualPitches();
        if (n < 1 || n > 200) {
            throw CliError.usage("--pitches " + n + " cannot be", "give how many pitches were spanned, 1 to 200");
        }
        return edges.isEmpty() ? List.of(length(values, with, n)) : gauge(values, n);
    }

    /** What a length is taken to be read by, where nothing says it. */
    public Optional<String> taken(Reading reading) {
        return tool == null && !inside && reading instanceof Reading.Elongation e
                ? Optional.of("taken as read by " + e.tool().word() + " over " + e.pitches()
                        + " pitches (--tool says otherwise)")
                : Optional.empty();
    }

    private Reading.Tool tool() {
        String t = tool != null ? tool : !edges.isEmpty() ? "gauge" : inside ? "calliper" : "ruler";
        Reading.Tool found = Arrays.stream(Reading.Tool.values())
                .filter(x -> x.word().equals(t))
                .findFirst()
                .orElseThrow(() -> CliError.usage(
                        "\"" + t + "\" is no tool",
                        Guesses.hint(
                                Guesses.Of.TOOL,
                                t,
                                Arrays.stream(Reading.Tool.values())
                                        .map(Reading.Tool::word)
                                        .toList(),
                                "use --tool ruler, calliper or gauge")));
        if (!edges.isEmpty() && found != Reading.Tool.GAUGE) {
            throw CliError.usage(
                    "--gauge is not read by " + t, "leave out --tool, or give a value in place of --gauge");
        }
        return found;
    }

    private Reading length(List<String> values, Reading.Tool with, int n) {
        if (lengths.isEmpty() == values.isEmpty()) {
            throw CliError.usage(
                    values.isEmpty() ? "no reading is given" : "both a value and --length are given",
                    "write one such as 0.31%, --length 305.9mm or --gauge 0.5 stays-out");
        }
        if (inside && lengths.isEmpty()) {
            throw CliError.usage("--inside is said of a length", "give it such as --length 94.1mm --inside");
        }
        double fresh = n * Reading.PITCH_MILLIMETRES;
        List<Double> stated = new ArrayList<>();
        for (String typed : values) {
            stated.add(percent(typed, n));
        }
        for (String typed : lengths) {
            double mm = Lengths.millimetres("--length", typed) + (inside ? ROLLER_MILLIMETRES : 0);
            double percent = (mm / fresh - 1) * 100;
            if (percent < LEAST || percent > MOST) {
                throw CliError.usage(
                        "--length \"" + typed + "\" over " + n + " pitches cannot be: "
                                + Formatter.number(mm) + " mm / (" + n + " × 12.7 mm) − 1 = "
                                + Formatter.elongation(percent) + " %, not between -0.3 and 3 %",
                        "new, " + n + " pitches are " + Formatter.number(fresh) + " mm"
                                + (!inside && isInside(mm, n) ? INSIDE : fits(mm)));
            }
            stated.add(mm);
        }
        Double taken = play(n);
        Reading.Elongation e = new Reading.Elongation(
                stated, lengths.isEmpty() ? Reading.Unit.PERCENT : Reading.Unit.MILLIMETRES, with, n, error(n), taken);
        if (e.percent() < LEAST) {
            throw CliError.usage(
                    "--roller-play " + play + " leaves too little: "
                            + ReadingWords.arithmetic(e).get(0),
                    "give the play of a worn chain less that of a new one");
        }
        return e;
    }

    /** For how many pitches the length would do, if for any. */
    private static String fits(double millimetres) {
        long n = Math.round(millimetres / Reading.PITCH_MILLIMETRES);
        double percent = (millimetres / (n * Reading.PITCH_MILLIMETRES) - 1) * 100;
        return n >= 1 && n <= 200 && percent >= LEAST && percent <= MOST
                ? "; " + Formatter.number(millimetres) + " mm would do for " + n + " pitches"
                : "; count the pitches and look at the unit";
    }

    /** Whether a roller's width more makes it the length of so many pitches. */
    private static boolean isInside(double millimetres, int n) {
        double percent = ((millimetres + ROLLER_MILLIMETRES) / (n * Reading.PITCH_MILLIMETRES) - 1) * 100;
        return percent >= LEAST && percent <= MOST;
    }

    private static double percent(String typed, int n) {
        String what = "the elongation \"" + typed + "\"";
        double v;
        try {
            v = TypedNumber.of(typed.replace(" ", "").replace("%", ""));
        } catch (NumberFormatException e) {
            throw CliError.usage(
                    what + " is no number",
                    Lengths.isLength(typed)
                            ? "for a length over the pitches: --length " + PlainText.typed(typed)
                            : "write per cent such as 0.31%");
        }
        if (v >= LEAST && v <= MOST) {
            return v;
        }
        double fresh = n * Reading.PITCH_MILLIMETRES;
        throw CliError.usage(
                what + " is not between -0.3 and 3 %: " + n + " pitches would be "
                        + Formatter.number(fresh * (1 + v / 100)) + " mm long, new they are " + Formatter.number(fresh)
                        + " mm",
                "write per cent such as 0.31%, or a length such as --length 305.9mm");
    }

    private List<Reading> gauge(List<String> values, int n) {
        if (!lengths.isEmpty()) {
            throw CliError.usage("both --gauge and --length are given", "note them one after the other");
        }
        if (values.isEmpty()) {
            throw CliError.usage("nothing says whether the gauge's edge drops in", GAUGE);
        }
        if (values.size() != 1 && values.size() != edges.size()) {
            throw CliError.usage(
                    Formatter.count(edges.size(), "edge", "edges") + " but " + values.size() + " answers",
                    "write stays-out or drops-in once for all, or after each edge");
        }
        Set<Reading.Gauge> answers = new LinkedHashSet<>();
        for (int i = 0; i < edges.size(); i++) {
            double edge = QuantityParser.percent("the gauge's edge", edges.get(i), 0.1, MOST);
            boolean drops = dropsIn(values.get(values.size() == 1 ? 0 : i));
            answers.add(new Reading.Gauge(edge, drops, error(n), play(n), n));
        }
        for (Reading.Gauge in : answers) {
            for (Reading.Gauge out : answers) {
                if (in.drops() && !out.drops() && out.stated() <= in.stated()) {
                    throw CliError.usage(
                            "the " + Formatter.number(in.stated()) + " % edge cannot drop in while the "
                                    + Formatter.number(out.stated()) + " % edge stays out: at least "
                                    + Formatter.number(in.stated()) + " % and less than "
                                    + Formatter.number(out.stated()) + " %",
                            "look again which edge is which; a chain long enough for one is so for all below it");
                }
            }
        }
        return List.copyOf(answers.stream().sorted(ReadingWords.BY_EDGE).collect(Collectors.toList()));
    }

    /** Whether the edge drops in; {@code drops} and {@code passes} are the words of earlier versions. */
    private static boolean dropsIn(String typed) {
        return switch (typed.toLowerCase(Locale.ROOT)) {
            case "drops-in", "drops" -> true;
            case "stays-out", "passes" -> false;
            default -> throw CliError.usage("a gauge does not say \"" + typed + "\"", GAUGE);
        };
    }

    private @Nullable Double error(int n) {
        if (error == null) {
            return null;
        }
        String t = error.strip().toLowerCase(Locale.ROOT);
        double percent = t.endsWith("%") || Character.isDigit(t.isEmpty() ? '?' : t.charAt(t.length() - 1))
                ? QuantityParser.number("--error", t, "%", 0, 100)
                : Lengths.millimetres("--error", t) / (n * Reading.PITCH_MILLIMETRES) * 100;
        if (percent < 0.005 || percent > 1) {
            throw CliError.usage(
                    "--error \"" + error + "\" cannot be: " + Formatter.number(percent) + " % over " + n + " pitches",
                    "give the standard error of one value, 0.005% to 1%, or its length such as 0.1mm");
        }
        return percent;
    }

    private @Nullable Double play(int n) {
        if (play == null) {
            return null;
        }
        double mm = Lengths.millimetres("--roller-play", play);
        if (mm > 1) {
            throw CliError.usage(
                    "--roller-play \"" + play + "\" is "
                            + Formatter.number(mm / (n * Reading.PITCH_MILLIMETRES) * 100) + " % over " + n
                            + " pitches, more than rollers have",
                    "give the play at both ends together, such as 0.2mm, at most 1mm");
        }
        return mm;
    }
}
