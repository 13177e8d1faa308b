package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.ReadingWords;
import chainage.answer.beside.ReadingBeside;
import chainage.command.Intended;
import chainage.command.ReadingOptions;
import chainage.command.WhenOption;
import chainage.command.Write;
import chainage.ledger.Event;
import chainage.ledger.Reading;
import chainage.quantity.Moment;
import chainage.typed.Names;
import java.util.ArrayList;
import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
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

    @Mixin
    WhenOption on = new WhenOption();

    @Override
    public Intended plan(Analysis before) {
        String c = Names.chain(before.ledger(), chain, values.isEmpty() ? "" : values.get(values.size() - 1));
        Moment at = when(on.typed);
        List<Reading> readings = options.readings(values);
        List<String> said = new ArrayList<>();
        List<Event> events = new ArrayList<>();
        for (Reading r : readings) {
            said.add(c + ": " + ReadingWords.of(r) + ", " + context().format().time(at.instant()));
            said.addAll(ReadingWords.arithmetic(r));
            events.add(new Event.Measured(c, at.instant(), r));
        }
        options.taken(readings.get(0)).ifPresent(said::add);
        said.addAll(context()
                .beside(() -> ReadingBeside.baseline(
                        before, c, at, readings.get(0), context().format())));
        said.addAll(context()
                .beside(() -> ReadingBeside.surprise(
                        before, c, at, readings.get(0), context().format())));
        return new Intended(events, said);
    }
}
