package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.beside.InstalledBeside;
import chainage.command.Intended;
import chainage.command.WhenOption;
import chainage.command.Write;
import chainage.ledger.Event;
import chainage.ledger.Installation;
import chainage.quantity.Interval;
import chainage.quantity.Moment;
import chainage.quantity.PlainText;
import chainage.typed.CliError;
import chainage.typed.Names;
import chainage.typed.Stint;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
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
            "  chainage install Amber Dunlin --on 2026-03-01",
            "  chainage install Ochre Dunlin --on \"2026-05-02 14:30\" --swap",
            "  chainage install Ochre Dunlin --on 2025-09-01 --until 2026-03-01",
            "    (a time that was forgotten; what is noted there gives way)"
        })
final class InstallCommand extends Write {
    @Parameters(index = "0", paramLabel = "CHAIN", description = "its name, or enough of its beginning")
    String chain = "";

    @Parameters(index = "1", paramLabel = "BIKE", description = "its name, or enough of its beginning")
    String bike = "";

    @Mixin
    WhenOption on = new WhenOption();

    @Option(names = "--until", paramLabel = "WHEN", description = "when it came off again, for a time gone by")
    @Nullable
    String until;

    @Option(names = "--swap", description = "take off whatever is in the way, at the same instant")
    boolean swap;

    /** Without an end the chain would stay on into times when another one is known to be there. */
    private void next(Analysis before, String c, String b, Moment at) {
        before.facts().installations().stream()
                .filter(i -> i.interval().from().isAfter(at.instant()))
                .filter(i -> i.bike().equals(b) || i.chain().equals(c))
                .findFirst()
                .ifPresent(i -> {
                    String from = context().format().time(i.interval().from());
                    String end = "say when " + c + " came off " + b + " before that: --until \"" + from + "\"";
                    throw CliError.usage(
                            i.chain() + " is on " + i.bike() + " from " + from,
                            i.bike().equals(b) && i.chain().equals(c)
                                    ? "if it was on since " + on.typed + ": " + redate(i) + "; else " + end
                                    : end);
                });
    }

    private String redate(Installation i) {
        return context().redating(i.entry(), on.typed);
    }

    @Override
    public Intended plan(Analysis before) {
        String c = Names.chain(before.facts(), chain, bike);
        String b = Names.bike(before.facts(), bike);
        Event.BikeDescribed described = before.facts().bikes().get(b);
        if (described != null && described.chainless()) {
            throw CliError.usage(
                    b + " is a bike without a chain, as you said",
                    "name another bike, or take that back (chainage log has its number): chainage undo NO");
        }
        Moment at = when(on.typed);
        Optional<Installation> there = before.facts().installationOf(c, at.instant());
        if (there.isPresent() && there.get().bike().equals(b)) {
            throw CliError.usage(
                    c + " is on " + b + " then already, since "
                            + context().format().time(there.get().interval().from()),
                    "nothing need be said; if it went on at another time: "
                            + context().redating(there.get().entry(), "DATE"));
        }
        List<Event> events = new ArrayList<>();
        List<String> said = new ArrayList<>();
        String from = context().format().time(at.instant());
        if (until == null) {
            Optional<Installation> onBike = before.facts().installedOn(b, at.instant());
            for (Installation i : Stream.concat(onBike.stream(), there.stream()).toList()) {
                if (!swap) {
                    throw CliError.usage(
                            i.chain() + " is on " + i.bike() + " then, since "
                                    + context().format().time(i.interval().from()),
                            "to take it off at the same instant, add --swap; for a time gone by say when " + c
                                    + " came off again, with --until; or name another date with --on");
                }
                events.add(new Event.Removed(i.chain(), at.instant()));
                said.add(i.chain() + " off " + i.bike() + ", " + from);
            }
            next(before, c, b, at);
            events.add(new Event.Installed(c, b, at.instant()));
            said.add(c + " on " + b + " from " + from);
        } else {
            Moment end = when(until);
            if (!end.instant().isAfter(at.instant())) {
                throw CliError.usage(
                        "--until " + until + " is not after --on " + on.typed, "write the later date there");
            }
            before.facts().installations().stream()
                    .filter(i -> i.chain().equals(c)
                            && i.bike().equals(b)
                            && i.interval().overlaps(new Interval(at.instant(), end.instant())))
                    .findFirst()
                    .ifPresent(i -> {
                        throw CliError.usage(
                                c + " is on " + b + " from "
                                        + context().format().time(i.interval().from()) + " already",
                                "if it was on since " + on.typed + ": " + redate(i)
                                        + "; else let --until be no later than" + " that");
                    });
            Stint stint = Stint.of(
                    before.facts(), c, b, at.instant(), end.instant(), context().format());
            events.addAll(stint.events());
            said.add(c + " on " + b + " from " + from);
            said.add(c + " off " + b + ", " + context().format().time(end.instant()));
            said.addAll(stint.said());
        }
        said.addAll(InstalledBeside.of(before, c, b, context().format()));
        String again = "install " + PlainText.typed(c) + " " + PlainText.typed(b);
        said.addAll(context()
                .beside(() ->
                        InstalledBeside.sameDay(before, b, at, again, context().format())));
        said.addAll(context()
                .beside(() ->
                        InstalledBeside.ridesBefore(before, b, at, context().format())));
        return new Intended(events, said);
    }
}
