package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.beside.NoiseBeside;
import chainage.command.Intended;
import chainage.command.Write;
import chainage.ledger.Event;
import chainage.ledger.Remark;
import chainage.quantity.Moment;
import chainage.quantity.PlainText;
import chainage.typed.Names;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "remark",
        description = {
            "Note what you heard or saw on a chain.",
            "",
            "  noisy    its treatment is worn off, whatever the figures say",
            "  damaged  it must be replaced, whatever the figures say",
            "  retired  it is out of use for good",
            "  note     only words"
        },
        footer = {
            "Examples:",
            "  chainage remark Moss noisy --on 2026-05-17",
            "  chainage remark Flint damaged \"cracked outer plate\""
        })
final class RemarkCommand extends Write {
    @Parameters(index = "0", paramLabel = "CHAIN", description = "its name, or enough of its beginning")
    String chain = "";

    @Parameters(index = "1", paramLabel = "noisy|damaged|retired|note")
    String remark = "";

    @Parameters(index = "2", arity = "0..*", paramLabel = "WORDS", description = "in your own words")
    List<String> words = List.of();

    @Option(
            names = "--on",
            paramLabel = "WHEN",
            defaultValue = "now",
            description = "when (default: now); noisy on a day is at the end of that day's ride")
    String on = "now";

    @Override
    public Intended plan(Analysis before) {
        String c = Names.chain(before.ledger(), chain, remark);
        Remark r = Names.remark(remark);
        Moment day = when(on);
        // What is heard on a day is heard in its ride; at the day's beginning it would belong to the ride before.
        Optional<Instant> ridden = r == Remark.NOISY && day.bareDate()
                ? context().rides(before).onDay(day.day()).stream()
                        .filter(ride -> ride.counted() && c.equals(ride.chain()))
                        .map(ride -> ride.filed().ride().end())
                        .max(Comparator.naturalOrder())
                : Optional.empty();
        Instant at = ridden.orElse(day.instant());
        String text = String.join(" ", words).strip();
        List<String> said = new ArrayList<>();
        said.add(c + ": " + r.word() + (text.isEmpty() ? "" : ", \"" + text + "\"") + ", "
                + context().format().time(at)
                + (ridden.isPresent() ? ", when that day's ride ended" : ""));
        if (r == Remark.NOISY) {
            said.addAll(context()
                    .beside(() -> NoiseBeside.of(before, c, at, context().format())));
        }
        if (r == Remark.RETIRED || r == Remark.DAMAGED) {
            before.facts()
                    .installationOf(c, at)
                    .ifPresent(i -> said.add(c + " is still on " + i.bike()
                            + ", and rides go on counting for it; when it is off: chainage remove "
                            + PlainText.typed(c)));
        }
        return new Intended(List.of(new Event.Remarked(c, at, r, text)), said);
    }
}
