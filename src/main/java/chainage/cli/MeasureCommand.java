package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.ReadingWords;
import chainage.command.ReadingOptions;
import chainage.command.Write;
import chainage.exposure.ChainExposure;
import chainage.ledger.Event;
import chainage.ledger.Reading;
import chainage.quantity.PlainText;
import chainage.render.Formatter;
import chainage.standing.Standing;
import chainage.typed.Moment;
import chainage.typed.Names;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "measure",
        description = "Note how long a chain has grown, read by ruler, calliper or gauge.",
        footer = {
            "Examples:",
            "  chainage measure Amber 0.31%%",
            "  chainage measure Amber 0.12%% 0.10%% 0.15%% --tool calliper --on 2026-04-11",
            "  chainage measure Amber --length \"12 1/16in\"    (24 pitches by ruler)",
            "  chainage measure Ochre --length 305.9mm --length 306.1mm --pitches 24",
            "  chainage measure Ochre --length 102.1mm --roller-play 0.2mm",
            "  chainage measure Ochre --length 94.1mm --inside    (between two rollers)",
            "  chainage measure Moss --gauge 0.5 stays-out    (it does not drop in)",
            "  chainage measure Moss --gauge 0.5 drops-in --gauge 0.75 stays-out",
            "",
            "Measure under tension, away from the quick link, at three places. Measure a new",
            "chain before its first ride: that is the baseline of the readings to come.",
            "A tool that pushes two rollers apart reads their play as well; 0.2 mm of it is",
            "0.20 %% over 8 pitches. --roller-play takes it off.",
            "Without --error a ruler is good to 0.10 %% over 24 pitches, a calliper, a gauge",
            "or its edge to 0.05 %% (our guess)."
        })
final class MeasureCommand extends Write {
    /** A reading that lies further above than so many of its errors is remarked upon; our choice. */
    private static final double FAR = 2;

    @Parameters(index = "0", paramLabel = "CHAIN", description = "its name, or enough of its beginning")
    String chain = "";

    @Parameters(
            index = "1..*",
            arity = "0..*",
            paramLabel = "VALUE",
            description = "elongation, at one place or several; or, for a gauge, drops-in or stays-out")
    List<String> values = List.of();

    @Mixin
    ReadingOptions options = new ReadingOptions();

    @Option(
            names = "--on",
            paramLabel = "WHEN",
            defaultValue = "now",
            description = "when; a date alone is the start of that day (default: now)")
    String on = "now";

    @Override
    public Plan plan(Analysis before) {
        String c = Names.chain(before.ledger(), chain, values.isEmpty() ? "" : values.get(values.size() - 1));
        Moment at = when(on);
        List<Reading> readings = options.readings(values);
        List<String> said = new ArrayList<>();
        List<Event> events = new ArrayList<>();
        for (Reading r : readings) {
            said.add(c + ": " + ReadingWords.of(r) + ", " + context().format().time(at.instant()));
            said.addAll(ReadingWords.arithmetic(r));
            events.add(new Event.Measured(c, at.instant(), r));
        }
        options.taken(readings.get(0)).ifPresent(said::add);
        said.addAll(context().beside(() -> baseline(before, c, at, readings.get(0))));
        said.addAll(context().beside(() -> surprise(before, c, at, readings.get(0))));
        return new Plan(events, said);
    }

    /** Whether a length is the chain's baseline, or else how it stands to that. */
    private List<String> baseline(Analysis before, String c, Moment at, Reading reading) {
        if (!(reading instanceof Reading.Elongation e)) {
            return List.of();
        }
        ChainExposure chain = before.exposures().chains().get(c);
        if (chain == null || chain.riddenMetres(at.instant()) == 0) {
            return List.of("no ride on " + c + " before that: it is the baseline of the readings to come");
        }
        Event.@Nullable Measured first = before.facts().readings(c).stream()
                .filter(m -> m.reading() instanceof Reading.Elongation && chain.riddenMetres(m.at()) == 0)
                .reduce((a, b) -> b)
                .orElse(null);
        if (first == null || !(first.reading() instanceof Reading.Elongation base)) {
            return List.of();
        }
        return List.of("against the baseline of " + context().format().date(first.at()) + ", "
                + Formatter.elongation(e.percent()) + " − " + Formatter.elongation(base.percent()) + " = "
                + Formatter.elongation(e.percent() - base.percent()) + " %");
    }

    /**
     * What a rider may do about a reading that is far above all that the chain's rides explain. It is believed but little
     * then, which nobody should have to find out from the figures.
     */
    private List<String> surprise(Analysis before, String c, Moment at, Reading reading) {
        Standing standing = before.standing(c).orElse(null);
        ChainExposure chain = before.exposures().chains().get(c);
        if (!(reading instanceof Reading.Elongation e) || standing == null || chain == null) {
            return List.of();
        }
        boolean ridden = chain.riddenMetres(at.instant()) > 0;
        double most = ridden ? standing.wear().elongationPercent().high() : 0;
        if (e.percent() - FAR * e.errorPercent() <= most
                || Objects.requireNonNull(before.facts().chains().get(c)).used()) {
            return List.of();
        }
        return List.of(
                Formatter.elongation(e.percent()) + " % is far more than "
                        + (ridden
                                ? "its " + context().format().distance(chain.riddenMetres(at.instant()))
                                        + " explain (at most " + Formatter.elongation(most) + " %)"
                                : "a new chain has")
                        + ", so it is hardly believed; measure once more, at other places",
                "if it had run before it came to you: chainage chain set " + PlainText.typed(c) + " --used");
    }
}
