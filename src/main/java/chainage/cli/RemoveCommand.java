package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.beside.InstalledBeside;
import chainage.command.Intended;
import chainage.command.WhenOption;
import chainage.command.Write;
import chainage.ledger.Event;
import chainage.ledger.Installation;
import chainage.quantity.Moment;
import chainage.quantity.PlainText;
import chainage.typed.CliError;
import chainage.typed.Names;
import java.util.ArrayList;
import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;

@Command(
        name = "remove",
        description = "Take a chain off its bike. It keeps its standing on the shelf.",
        footer = {"Example:", "  chainage remove Amber --on 2026-05-02"})
final class RemoveCommand extends Write {
    @Parameters(index = "0", paramLabel = "CHAIN", description = "its name, or enough of its beginning")
    String chain = "";

    @Mixin
    WhenOption on = new WhenOption();

    @Override
    public Intended plan(Analysis before) {
        String c = Names.chain(before.facts(), chain);
        Moment at = when(on.typed);
        Installation i = before.facts()
                .installationOf(c, at.instant())
                .orElseThrow(() -> CliError.usage(
                        c + " is on no bike at " + context().format().time(at.instant()),
                        "chainage chain shows where every chain is"));
        List<String> said = new ArrayList<>();
        said.add(c + " off " + i.bike() + " from " + context().format().time(at.instant()));
        said.addAll(context()
                .beside(() -> InstalledBeside.sameDay(
                        before,
                        i.bike(),
                        at,
                        "remove " + PlainText.typed(c),
                        context().format())));
        return new Intended(List.of(new Event.Removed(c, at.instant())), said);
    }
}
