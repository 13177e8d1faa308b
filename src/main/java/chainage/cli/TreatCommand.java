package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.EventWords;
import chainage.answer.Safety;
import chainage.ledger.Cleaning;
import chainage.ledger.Event;
import chainage.ledger.Heard;
import chainage.ledger.Installation;
import chainage.ledger.Method;
import chainage.quantity.PlainText;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "treat",
        description = {
            "Note that a chain was treated. Its treatment's life starts again.",
            "PRODUCT is one of yours (chainage product), or a method: hot-wax, cold-dip-wax, drip-wax, dry-lube, wet-lube,"
                    + " grease, factory, none."
        },
        footer = {
            "Examples:",
            "  chainage treat Amber \"Kettle Block\" --cleaning deep --minutes 25",
            "  chainage treat Moss drip-wax --cleaning quick --on 2026-04-11",
            "  chainage treat Amber \"Kettle Block\" --heard noisy",
            "",
            Safety.TREATING
        })
final class TreatCommand extends Write {
    @Parameters(index = "0", paramLabel = "CHAIN")
    String chain = "";

    @Parameters(index = "1", paramLabel = "PRODUCT")
    String product = "";

    @Option(names = "--on", paramLabel = "WHEN", defaultValue = "now", description = "when (default: now)")
    String on = "now";

    @Option(
            names = "--cleaning",
            paramLabel = "none|on-bike|quick|deep",
            description = "how it was cleaned first (default: as the last time with that product, else none)")
    @Nullable
    String cleaning;

    @Option(
            names = "--amount",
            paramLabel = "ML",
            description = "how much was used, such as 5ml (else the product's own)")
    @Nullable
    String amount;

    @Option(names = "--minutes", paramLabel = "N", description = "how long it took (else the product's own)")
    @Nullable
    Double minutes;

    @Option(
            names = "--heard",
            paramLabel = "noisy|quiet",
            description = "what the chain was like until then: noisy in its last ride, or still quiet; it says how long"
                    + " the treatment before lasted")
    @Nullable
    String heard;

    private static @Nullable Heard heard(@Nullable String typed) {
        return typed == null
                ? null
                : Heard.of(typed)
                        .orElseThrow(() -> CliError.usage(
                                "\"" + typed + "\" is nothing to be heard", "use --heard noisy or quiet"));
    }

    static Cleaning cleaning(String typed) {
        return Cleaning.of(typed)
                .orElseThrow(() -> CliError.usage(
                        "\"" + typed + "\" is no cleaning", "use --cleaning none, on-bike, quick or deep"));
    }

    @Override
    Plan plan(Analysis before) {
        String c = Names.chain(before.ledger(), chain, product);
        Event.ProductDescribed p = Names.product(before.ledger(), product);
        Moment at = when(on);
        Cleaning habit = before.ledger().treatmentsWith(p.product()).stream()
                .filter(t -> !t.at().isAfter(at.instant()))
                .max(Comparator.comparing(Event.Treated::at))
                .map(Event.Treated::cleaning)
                .orElse(null);
        Cleaning cleaned = cleaning != null ? cleaning(cleaning) : habit == null ? Cleaning.NONE : habit;
        Heard was = heard(heard);
        Double ml = amount == null ? null : QuantityParser.millilitres("--amount", amount);
        if (minutes != null) {
            QuantityParser.minutes("--minutes", minutes);
        }
        List<String> said = new ArrayList<>();
        said.add(c + " treated with " + p.product()
                + (p.product().equals(p.method().word())
                        ? ""
                        : " (" + p.method().words() + ")") + ", "
                + context().format().time(at.instant()));
        if (was != null) {
            said.add("the treatment before it was " + was.word() + " by then");
        }
        if (cleaning == null && p.method() != Method.NONE) {
            said.add(
                    habit == null
                            ? "taken as not cleaned first; say how with --cleaning on-bike, quick or deep"
                            : "cleaning first: " + cleaned.word() + ", as the last time with " + p.product());
        }
        before.ledger()
                .installationOf(c, at.instant())
                .map(Installation::bike)
                .ifPresent(b -> said.addAll(context()
                        .sameDay(before, b, at, "treat " + PlainText.typed(c) + " " + PlainText.typed(p.product()))));
        before.facts().facts().stream()
                .filter(e -> e.event() instanceof Event.Treated t
                        && t.chain().equals(c)
                        && context().format().localDay(t.at()).equals(at.day()))
                .reduce((a, b) -> b)
                .ifPresent(e -> said.add("it was treated that day already (entry " + e.number() + ", "
                        + EventWords.of(e.event(), context().format())
                        + "): was that the same treatment? Then take one back; if both were done, all is right"));
        if (at.bareDate()) {
            before.facts()
                    .noiseSinceTreatment(c)
                    .filter(n -> n.at().isAfter(at.instant())
                            && context().format().date(n.at()).equals(at.day().toString()))
                    .ifPresent(n -> said.add("you heard it later that day, at "
                            + context().format().time(n.at()).substring(11)
                            + "; if the treatment came after that, give its time with --on"));
        }
        return new Plan(List.of(new Event.Treated(c, p.product(), at.instant(), cleaned, ml, minutes, was)), said);
    }
}
