package chainage.cli;

import chainage.analysis.Analysis;
import chainage.attribution.AttributedRide;
import chainage.command.BikeChoice;
import chainage.command.Write;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Flags;
import chainage.ledger.Ledger;
import chainage.ride.FiledRide;
import chainage.typed.CliError;
import chainage.typed.RideSelection;
import chainage.typed.Tags;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
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
    public Plan plan(Analysis before) {
        List<String> selectors = new ArrayList<>();
        List<String> tags = new ArrayList<>();
        for (String w : words) {
            boolean ride = RideSelection.isShaped(w);
            if (Tags.isWord(w)) {
                tags.add(w);
            } else if (tags.isEmpty() && (ride || (selectors.isEmpty() && !Tags.isMeant(w)))) {
                selectors.add(w);
            } else if (ride) {
                throw CliError.usage(
                        "\"" + w + "\" is no tag",
                        selectors.isEmpty()
                                ? "name the ride first: chainage tag " + w + " " + String.join(" ", tags)
                                : "name all rides first, then how they were");
            } else {
                throw CliError.usage("\"" + w + "\" is no tag", Tags.hint(w));
            }
        }
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
        return new Plan(List.of(tagged), said);
    }

    private Plan withdrawal(Analysis before, List<String> selectors) {
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
            events.addAll(saidBefore(before.ledger(), ids));
        }
        List<String> said =
                new ArrayList<>(List.of((events.size() > 1 ? "last tag withdrawn from " : "tags withdrawn from ")
                        + context().named(before, tagged)));
        if (events.size() > 1) {
            said.add("what you said before holds again; --withdraw --all takes all of it back");
        }
        return new Plan(events, said);
    }

    /** What was said of rides before what was said last, to be said again, in the order in which it was said. */
    private static List<Event> saidBefore(Ledger ledger, List<String> ids) {
        Map<String, List<Event.Tagged>> said = new LinkedHashMap<>();
        for (Entry entry : ledger.facts()) {
            if (entry.event() instanceof Event.Tagged t) {
                t.rides().stream()
                        .filter(ids::contains)
                        .forEach(id ->
                                said.computeIfAbsent(id, k -> new ArrayList<>()).add(t));
            } else if (entry.event() instanceof Event.Untagged u) {
                u.rides().forEach(said::remove);
            }
        }
        List<Event> again = new ArrayList<>();
        said.forEach((id, tags) -> tags.stream()
                .limit(tags.size() - 1L)
                .forEach(t -> again.add(new Event.Tagged(List.of(id), t.moisture(), t.share(), t.grit()))));
        return again;
    }
}
