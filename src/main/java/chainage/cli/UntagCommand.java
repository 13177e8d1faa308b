package chainage.cli;

import chainage.analysis.Analysis;
import chainage.attribution.AttributedRide;
import chainage.ledger.Event;
import chainage.ride.FiledRide;
import java.util.ArrayList;
import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;

@Command(
        name = "untag",
        description = "Withdraw your flags on rides; the other evidence speaks again.",
        footer = {"Examples:", "  chainage untag last", "  chainage untag 2026-02-01..2026-02-14"})
final class UntagCommand extends Write {
    @Parameters(arity = "1..*", paramLabel = "RIDE", description = "which rides")
    List<String> selectors = List.of();

    @Mixin
    BikeChoice choice = new BikeChoice();

    @Override
    Plan plan(Analysis before) {
        List<AttributedRide> rides = context().rides(before).select(selectors, choice.names(before), false);
        List<AttributedRide> flagged = new ArrayList<>();
        List<String> ids = new ArrayList<>();
        for (AttributedRide r : rides) {
            // A flag may sit on a twin, set before the other recording was imported.
            List<String> own = new ArrayList<>(List.of(r.id()));
            r.twins().stream().map(FiledRide::id).forEach(own::add);
            own.removeIf(id -> before.ledger().flags(id).isEmpty());
            if (!own.isEmpty()) {
                flagged.add(r);
                ids.addAll(own);
            }
        }
        if (ids.isEmpty()) {
            throw CliError.usage(
                    "no flag of yours stands on " + context().named(before, rides),
                    "nothing need be done; chainage rides shows all");
        }
        return Plan.of(
                new Event.Untagged(ids), "flags withdrawn from " + context().named(before, flagged));
    }
}
