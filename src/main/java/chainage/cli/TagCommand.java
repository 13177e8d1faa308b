package chainage.cli;

import chainage.analysis.Analysis;
import chainage.attribution.AttributedRide;
import chainage.ledger.Event;
import chainage.ledger.Flags;
import java.util.ArrayList;
import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;

@Command(
        name = "tag",
        description = {"Say how wet or gritty rides were. Your word overrules all other evidence.", "", Tags.HELP},
        footer = {
            "Examples:",
            "  chainage tag last muddy",
            "  chainage tag 2026-02-07 wet 40%% gritty",
            "  chainage tag 2026-02-01..2026-02-14 damp --bike Dunlin"
        })
final class TagCommand extends Write {
    @Parameters(
            arity = "1..*",
            hideParamSyntax = true,
            paramLabel = "RIDE... WORD...",
            description = "which rides, then how they were")
    List<String> words = List.of();

    @Mixin
    BikeChoice choice = new BikeChoice();

    @Override
    Plan plan(Analysis before) {
        List<String> selectors = new ArrayList<>();
        List<String> tags = new ArrayList<>();
        for (String w : words) {
            if (Tags.isWord(w)) {
                tags.add(w);
            } else if (tags.isEmpty()) {
                selectors.add(w);
            } else {
                throw CliError.usage("\"" + w + "\" is no word for a road", Tags.FORMS);
            }
        }
        if (tags.isEmpty()) {
            throw CliError.usage("no word says how the ride was", Tags.FORMS);
        }
        Tags flag = Tags.parse(tags);
        List<AttributedRide> rides = context().rides(before).select(selectors, choice.names(before), false);
        List<String> said = new ArrayList<>();
        said.add("tagged " + context().named(before, rides) + ": " + flag.words());
        Event.Tagged tagged = new Event.Tagged(
                rides.stream().map(AttributedRide::id).toList(), flag.moisture(), flag.share(), flag.grit());
        if (rides.size() == 1) {
            Flags all =
                    before.ledger().flags(rides.get(0).id()).orElse(Flags.NONE).with(tagged);
            String words = new Tags(all.moisture(), all.share(), all.grit()).words();
            if (!words.equals(flag.words())) {
                said.add("with what you said before: " + words);
            }
        }
        return new Plan(List.of(tagged), said);
    }
}
