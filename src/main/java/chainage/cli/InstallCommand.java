package chainage.cli;

import chainage.ledger.Event;
import chainage.ledger.Installation;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "install",
        description = {
            "Put a chain on a bike. Rides on that bike from then on count for it.",
            "A bare date means the start of that day, so that day's rides count for this chain."
        },
        footer = {
            "Examples:",
            "  chainage install Amber Heron --on 2026-03-01",
            "  chainage install Slate Heron --on \"2026-05-02 14:30\" --swap"
        })
final class InstallCommand extends Write {
    @Parameters(index = "0", paramLabel = "CHAIN")
    String chain = "";

    @Parameters(index = "1", paramLabel = "BIKE")
    String bike = "";

    @Option(names = "--on", paramLabel = "WHEN", defaultValue = "now", description = "when (default: now)")
    String on = "now";

    @Option(names = "--swap", description = "take off whatever is in the way, at the same instant")
    boolean swap;

    @Override
    Plan plan(Picture before) {
        String c = Names.chain(before.ledger(), chain);
        String b = Names.bike(before.ledger(), bike);
        Moment at = when(on);
        Optional<Installation> there = before.ledger().installationOf(c, at.instant());
        if (there.isPresent() && there.get().bike().equals(b)) {
            throw CliError.usage(
                    c + " is on " + b + " then already, since "
                            + desk().words().time(there.get().interval().from()),
                    "to change that date, take it back and install anew: chainage undo "
                            + there.get().entry());
        }
        List<Event> events = new ArrayList<>();
        List<String> said = new ArrayList<>();
        if (swap) {
            before.ledger().installedOn(b, at.instant()).ifPresent(i -> {
                events.add(new Event.Removed(i.chain(), at.instant()));
                said.add(i.chain() + " off " + b + ", " + desk().words().time(at.instant()));
            });
            there.ifPresent(i -> {
                events.add(new Event.Removed(c, at.instant()));
                said.add(c + " off " + i.bike() + ", " + desk().words().time(at.instant()));
            });
        }
        events.add(new Event.Installed(c, b, at.instant()));
        said.add(c + " on " + b + " from " + desk().words().time(at.instant()));
        said.addAll(desk().sameDay(before, b, at, "install " + Words.typed(c) + " " + Words.typed(b)));
        said.addAll(desk().ridesBefore(before, b, at));
        return new Plan(events, said);
    }
}
