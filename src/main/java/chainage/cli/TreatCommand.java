package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.Safety;
import chainage.answer.beside.TreatedBeside;
import chainage.command.Intended;
import chainage.command.WhenOption;
import chainage.command.Write;
import chainage.ledger.Cleaning;
import chainage.ledger.Event;
import chainage.ledger.Heard;
import chainage.ledger.Method;
import chainage.quantity.Moment;
import chainage.quantity.PlainText;
import chainage.render.Formatter;
import chainage.typed.CliError;
import chainage.typed.Names;
import chainage.typed.QuantityParser;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "treat",
        description = {
            "Note that a chain was treated, or several together. Its treatment's life starts again.",
            "PRODUCT is one of yours (chainage product), or a method: hot-wax, cold-dip-wax, drip-wax, dry-lube, wet-lube,"
                    + " grease, factory, none."
        },
        footer = {
            "Examples:",
            "  chainage treat Amber \"Kettle Block\" --cleaning deep --minutes 25",
            "  chainage treat Moss drip-wax --cleaning quick --on 2026-04-11",
            "  chainage treat Amber \"Kettle Block\" --heard noisy",
            "  chainage treat Amber Ochre \"Kettle Block\" --minutes 39",
            "",
            Safety.TREATING
        })
final class TreatCommand extends Write {
    @Parameters(index = "0", paramLabel = "CHAIN", description = "its name, or enough of its beginning")
    String chain = "";

    @Parameters(
            index = "1..*",
            arity = "1..*",
            hideParamSyntax = true,
            paramLabel = "PRODUCT",
            description =
                    "with what; several chains that were treated together are named one after the other, the product last")
    List<String> rest = List.of();

    @Mixin
    WhenOption on = new WhenOption();

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

    @Option(
            names = "--minutes",
            paramLabel = "N",
            description = "how long it took, shared by the chains (else the product's own)")
    @Nullable
    Double minutes;

    @Option(
            names = "--heard",
            paramLabel = "noisy|quiet",
            description = "what the chain was like until then: noisy in its last ride, or still quiet; it says how long"
                    + " the treatment before lasted")
    @Nullable
    String heard;

    @Override
    public Intended plan(Analysis before) {
        String product = rest.get(rest.size() - 1);
        List<String> chains = new ArrayList<>();
        for (String typed : Stream.concat(Stream.of(chain), rest.stream().limit(rest.size() - 1))
                .toList()) {
            String c = Names.chain(before.ledger(), typed, product);
            if (chains.contains(c)) {
                throw CliError.usage(c + " is named twice", "name each chain once, and the product last");
            }
            chains.add(c);
        }
        Event.ProductDescribed p = Names.product(before.ledger(), product);
        Moment at = when(on.typed);
        Cleaning habit = before.ledger()
                .lastTreatmentWith(p.product(), at.instant())
                .map(Event.Treated::cleaning)
                .orElse(null);
        Cleaning cleaned = cleaning != null ? Names.cleaning(cleaning) : habit == null ? Cleaning.NONE : habit;
        Heard was = heard == null ? null : Names.heard(heard);
        Double ml = amount == null ? null : QuantityParser.millilitres("--amount", amount);
        Double each = null;
        if (minutes != null) {
            QuantityParser.minutes("--minutes", minutes);
            each = minutes / chains.size();
        }
        List<String> said = new ArrayList<>();
        said.add(String.join(", ", chains) + " treated with " + p.product()
                + (p.product().equals(p.method().word())
                        ? ""
                        : " (" + p.method().words() + ")") + ", "
                + context().format().time(at.instant())
                + (each == null || chains.size() == 1 ? "" : ", " + Formatter.number(each) + " minutes each"));
        if (was != null) {
            said.add("the treatment before it was " + was.word() + " by then");
        }
        if (cleaning == null && p.method() != Method.NONE) {
            said.add(
                    habit == null
                            ? "taken as not cleaned first; say how with --cleaning on-bike, quick or deep"
                            : "cleaning first: " + cleaned.word() + ", as the last time with " + p.product());
        }
        List<Event> events = new ArrayList<>();
        String again = "treat "
                + Stream.concat(chains.stream(), Stream.of(p.product()))
                        .map(PlainText::typed)
                        .collect(Collectors.joining(" "));
        for (String c : chains) {
            said.addAll(context()
                    .beside(() ->
                            TreatedBeside.of(before, c, again, at, context().format())));
            events.add(new Event.Treated(c, p.product(), at.instant(), cleaned, ml, each, was));
        }
        return new Intended(events, said);
    }
}
