package chainage.cli;

import chainage.ledger.Event;
import chainage.ledger.Reading;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "measure",
        description = "Note how long a chain has grown, read by ruler, calliper or gauge.",
        footer = {
            "Examples:",
            "  chainage measure Amber 0.31%%",
            "  chainage measure Amber 0.12%% --tool calliper --pitches 8 --on 2026-04-11",
            "  chainage measure Moss --gauge 0.5 passes       (the 0.5 %% edge does not drop in)",
            "  chainage measure Moss --gauge 0.5 drops        (it does)",
            "",
            "Measure under tension, away from the quick link, at three places."
        })
final class MeasureCommand extends Write {
    private static final double LEAST = -0.3;
    private static final double MOST = 3;

    @Parameters(index = "0", paramLabel = "CHAIN")
    String chain = "";

    @Parameters(index = "1", arity = "0..1", paramLabel = "VALUE", description = "elongation, or passes/drops")
    @Nullable
    String value;

    @Option(names = "--gauge", paramLabel = "EDGE", description = "the gauge's edge in per cent, such as 0.5")
    @Nullable
    String gauge;

    @Option(names = "--tool", paramLabel = "ruler|calliper", description = "what it was read with (default: ruler)")
    @Nullable
    String tool;

    @Option(names = "--pitches", paramLabel = "N", description = "pitches spanned (default: ruler 24, calliper 8)")
    @Nullable
    Integer pitches;

    @Option(names = "--on", paramLabel = "WHEN", defaultValue = "now", description = "when (default: now)")
    String on = "now";

    @Override
    Plan plan(Picture before) {
        String c = Names.chain(before.ledger(), chain);
        Moment at = when(on);
        Reading reading = gauge == null ? length() : gauge(gauge);
        List<String> said = new ArrayList<>();
        said.add(c + ": " + words(reading) + ", " + desk().words().time(at.instant()));
        Event event = new Event.Measured(c, at.instant(), reading);
        return new Plan(List.of(event), said);
    }

    private Reading length() {
        if (value == null) {
            throw CliError.usage("no reading is given", "write one such as 0.31%, or use --gauge 0.5 passes");
        }
        double percent = Typed.percent("the elongation", value, LEAST, MOST);
        Reading.Tool with = switch (tool == null ? "ruler" : tool) {
            case "ruler" -> Reading.Tool.RULER;
            case "calliper" -> Reading.Tool.CALLIPER;
            default -> throw CliError.usage("\"" + tool + "\" is no tool", "use --tool ruler or calliper");
        };
        int n = pitches != null ? pitches : with == Reading.Tool.RULER ? 24 : 8;
        if (n < 1 || n > 200) {
            throw CliError.usage("--pitches " + n + " cannot be", "give how many pitches were spanned, 1 to 200");
        }
        return new Reading.Elongation(percent, with, n);
    }

    private Reading gauge(String edge) {
        double percent = Typed.percent("the gauge's edge", edge, 0.1, MOST);
        return switch (value == null ? "" : value) {
            case "passes" -> new Reading.Gauge(percent, false);
            case "drops" -> new Reading.Gauge(percent, true);
            default ->
                throw CliError.usage(
                        "a gauge " + (value == null ? "says nothing yet" : "does not say \"" + value + "\""),
                        "write passes when the edge does not drop in, drops when it does");
        };
    }

    static String words(Reading reading) {
        if (reading instanceof Reading.Elongation e) {
            return "elongation " + Words.elongation(e.percent()) + " % by "
                    + (e.tool() == Reading.Tool.RULER ? "ruler" : "calliper") + " over " + e.pitches() + " pitches";
        }
        if (reading instanceof Reading.Gauge g) {
            return "gauge " + Words.number(g.edgePercent()) + " % " + (g.drops() ? "drops" : "passes");
        }
        throw new AssertionError(reading);
    }
}
