package chainage.cli;

import chainage.analysis.Analysis;
import chainage.attribution.AttributedRide;
import chainage.command.BikeChoice;
import chainage.command.Intended;
import chainage.command.Write;
import chainage.ledger.Event;
import chainage.ledger.Flags;
import chainage.ledger.Withdrawals;
import chainage.ride.FiledRide;
import chainage.typed.CliError;
import chainage.typed.Tags;
import java.util.ArrayList;
import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "tag",
        description = {
            "Say how wet or gritty rides were. A tag overrules all other evidence; once it is withdrawn, other evidence"
                    + " applies again.",
            "",
            Tags.HELP
        },
        footer = {
            "Examples:",
            "  chainage tag last muddy",
            "  chainage tag 2026-02-07 wet 40%% gritty",
            "  chainage tag 2026-02-01..2026-02-14 damp --bike Dunlin",
            "  chainage tag last --withdraw"
        })
final class TagCommand extends Write {
    @Parameters(
            arity = "1..*",
            hideParamSyntax = true,
            paramLabel = Tags.LABEL,
            description = "which rides, then how they were")
    List<String> words = List.of();

    @Mixin
    BikeChoice choice = new BikeChoice();

    @Option(names = "--withdraw", description = "take back what you said last of these rides")
    boolean withdraw;

    @Option(names = "--all", description = "with --withdraw: all that you said of them")
    boolean all;

    @Override
    public Intended plan(Analysis before) {
        Tags.Said typed = Tags.said(words);
        List<String> selectors = typed.rides();
        List<String> tags = typed.tags();
        if (all && !withdraw) {
            throw CliError.usage("--all goes with --withdraw", "leave it out, or add --withdraw");
        }
        if (withdraw) {
            if (!tags.isEmpty()) {
                throw CliError.usage(
                        "--withdraw takes back what was said last", "leave out \"" + String.join(" ", tags) + "\"");
            }
            return withdrawal(before, selectors);
        }
        if (tags.isEmpty()) {
            throw CliError.usage("no tag is given", Tags.FORMS);
        }
        Tags flag = Tags.parse(tags);
        List<AttributedRide> rides = context().rides(before).select(selectors, choice.names(before.ledger()), false);
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
        return new Intended(List.of(tagged), said);
    }

    private Intended withdrawal(Analysis before, List<String> selectors) {
        List<AttributedRide> rides = context().rides(before).select(selectors, choice.names(before.ledger()), false);
        List<AttributedRide> tagged = new ArrayList<>();
        List<String> ids = new ArrayList<>();
        for (AttributedRide r : rides) {
            // A tag may sit on a duplicate, set before the other recording was imported.
            List<String> own = new ArrayList<>(List.of(r.id()));
            r.twins().stream().map(FiledRide::id).forEach(own::add);
            own.removeIf(id -> before.ledger().flags(id).isEmpty());
            if (!own.isEmpty()) {
                tagged.add(r);
                ids.addAll(own);
            }
        }
        if (ids.isEmpty()) {
            throw CliError.usage(
                    "no tag of yours is on " + context().named(before, rides),
                    "nothing need be done; chainage rides shows all");
        }
        List<Event> events = new ArrayList<>(List.of(new Event.Untagged(ids)));
        if (!all) {
            events.addAll(Withdrawals.tagsBefore(before.ledger(), ids));
        }
        List<String> said =
                new ArrayList<>(List.of((events.size() > 1 ? "last tag withdrawn from " : "tags withdrawn from ")
                        + context().named(before, tagged)));
        if (events.size() > 1) {
            said.add("what you said before holds again; --withdraw --all takes all of it back");
        }
        return new Intended(events, said);
    }
}
