package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.things.BikeList;
import chainage.attribution.AttributedRide;
import chainage.command.Intended;
import chainage.command.Question;
import chainage.command.Write;
import chainage.ledger.Event;
import chainage.ledger.Kinds;
import chainage.ledger.Rule;
import chainage.quantity.PlainText;
import chainage.render.Answer;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.typed.CliError;
import chainage.typed.Names;
import chainage.typed.QuantityParser;
import chainage.typed.Setting;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "bike",
        description = "List your bikes, add one, edit one, or rename one.",
        subcommands = {BikeCommand.Add.class, BikeCommand.Set.class, BikeCommand.Rename.class},
        footer = {
            "Examples:",
            "  chainage bike",
            "  chainage bike add Dunlin --rings 50,34 --cogs 11-28/11 --wheel 28-622",
            "  chainage bike set Dunlin --default"
        })
final class BikeCommand extends Question {
    @Override
    public List<Columns<?>> fields() {
        return List.of(BikeList.LIST.fields());
    }

    @Override
    public Answer answer() {
        return BikeList.of(context().analysis(), context().format());
    }

    /** What a bike is described by. */
    abstract static class Describe extends Write {
        @Parameters(index = "0", paramLabel = "BIKE", description = "its name")
        String name = "";

        @Option(names = "--rings", paramLabel = "TEETH", description = "chainring teeth, such as 50,34")
        @Nullable
        String rings;

        @Option(
                names = "--cogs",
                paramLabel = "TEETH",
                description = "cog teeth, such as 11,13,15,17,19,21,24,28, or a usual list by its range and count, such"
                        + " as 11-28/11")
        @Nullable
        String cogs;

        @Option(
                names = "--wheel",
                paramLabel = "LENGTH",
                description = "wheel circumference, such as 2.105m, or the tyre's size by ISO 5775, such as 28-622")
        @Nullable
        String wheel;

        @Option(
                names = "--jockeys",
                paramLabel = "TEETH",
                description = "teeth of the jockey wheels, upper first, such as 11,11")
        @Nullable
        String jockeys;

        @Option(
                names = "--cassette-price",
                paramLabel = "AMOUNT",
                description = "of a new set of cogs, such as \"52.00 EUR\"")
        @Nullable
        String cassettePrice;

        @Option(
                names = "--rings-price",
                paramLabel = "AMOUNT",
                description = "of new chainrings, all together, such as \"64.00 EUR\"")
        @Nullable
        String ringsPrice;

        @Option(names = "--no-chain", description = "it has none, but a belt or a shaft: its rides count for no chain")
        boolean noChain;

        @Option(
                names = "--chains-from",
                paramLabel = "WHEN",
                description = "leave rides before that where no chain is noted: they are not asked about")
        @Nullable
        String chainsFrom;

        @Option(
                names = "--follows",
                paramLabel = "BIKE",
                description = "it runs in that one's rides, as a tandem's timing chain does")
        @Nullable
        String follows;

        @Option(names = "--default", description = "rides that no rule assigns were on this bike")
        boolean byDefault;

        final Event.Changed said(Analysis before, String bike) {
            Map<String, Object> said = new HashMap<>();
            if (noChain) {
                if (follows != null) {
                    throw CliError.usage("--no-chain and --follows contradict each other", "give one of them");
                }
                before.ledger().installations().stream()
                        .filter(i -> i.bike().equals(bike) && i.interval().contains(before.at()))
                        .findFirst()
                        .ifPresent(i -> {
                            throw CliError.usage(
                                    i.chain() + " is on " + bike,
                                    "take it off first: chainage remove " + PlainText.typed(i.chain()) + " --on DATE");
                        });
                said.put("chainless", true);
            }
            typed(said, "chains_from", chainsFrom, v -> when(v).instant());
            typed(said, "follows", follows, v -> Names.lead(before.ledger(), bike, v));
            typed(said, "rings", rings, v -> QuantityParser.teeth("--rings", v, 20, 70));
            typed(said, "cogs", cogs, QuantityParser::cogs);
            typed(said, "circumference_metres", wheel, QuantityParser::wheelMetres);
            typed(said, "jockeys", jockeys, QuantityParser::jockeys);
            typed(
                    said,
                    "cassette_price",
                    cassettePrice,
                    v -> QuantityParser.price("--cassette-price", v, context().setting(Setting.CURRENCY)));
            typed(
                    said,
                    "rings_price",
                    ringsPrice,
                    v -> QuantityParser.price("--rings-price", v, context().setting(Setting.CURRENCY)));
            return new Event.Changed(Event.Named.BIKE, bike, said);
        }

        /** What was filled in for what was typed. */
        final List<String> filledIn(Analysis before, Event.BikeDescribed now) {
            List<String> said = new ArrayList<>();
            if (noChain) {
                said.add("its rides count for no chain, and are not asked about");
            }
            if (chainsFrom != null) {
                List<AttributedRide> left = before.exposures().unattributed().stream()
                        .filter(r -> now.bike().equals(r.bike())
                                && !now.wantsChain(r.filed().ride().start()))
                        .toList();
                said.add("rides before " + chainsFrom + " are left without a chain, where none is noted"
                        + (left.isEmpty() ? "" : ": " + context().named(before, left)));
            }
            if (now.follows() != null && follows != null) {
                said.add("its chain runs in every ride of " + now.follows());
            }
            if (cogs != null && cogs.contains("-")) {
                said.add("cogs taken as "
                        + now.cogs().stream().map(String::valueOf).collect(Collectors.joining(","))
                        + ", the usual list; name them one by one if yours differ");
            }
            Double metres = now.circumferenceMetres();
            if (wheel != null && wheel.contains("-") && metres != null) {
                said.add("wheel taken as " + Formatter.number(metres)
                        + " m round, a tyre as high as wide; give a rolled-out length if you have one");
            }
            return said;
        }

        static Event asDefault(String bike) {
            return new Event.RuleSet(new Rule(new Rule.Otherwise(), bike, null));
        }
    }

    @Command(
            name = "add",
            description = "Add a bike. Your first one takes the rides that no rule assigns.",
            footer = {
                "Examples:",
                "  chainage bike add Dunlin --rings 50,34 --wheel 2.105m",
                "  chainage bike add Otter --no-chain",
                "  chainage bike add \"Tandem timing\" --follows Tandem"
            })
    static final class Add extends Describe {
        @Override
        public Intended plan(Analysis before) {
            String bike = Names.fresh("bike", name, before.ledger().bikes().keySet());
            List<Event> events = new ArrayList<>();
            List<String> said = new ArrayList<>();
            Event.BikeDescribed now =
                    Kinds.over(new Event.BikeDescribed(bike, List.of(), List.of(), null), said(before, bike));
            events.add(now);
            said.add("bike " + bike + " added");
            said.addAll(filledIn(before, now));
            if (byDefault || before.ledger().bikes().isEmpty()) {
                events.add(asDefault(bike));
                said.add("default bike: rides that no rule assigns are on " + bike);
            } else if (now.follows() == null) {
                said.add("to tell which rides are on it: chainage assign --sensor TYPE:SERIAL --bike "
                        + PlainText.typed(bike) + " (chainage assign lists the sensors seen)");
            }
            return new Intended(events, said);
        }
    }

    @Command(
            name = "set",
            description = "Edit a bike; what you leave out stays.",
            footer = {
                "Examples:",
                "  chainage bike set Dunlin --wheel 2.096m --default",
                "  chainage bike set Dunlin --chains-from 2024-03-01"
            })
    static final class Set extends Describe {
        @Override
        public Intended plan(Analysis before) {
            String bike = Names.bike(before.ledger(), name);
            Event.BikeDescribed was =
                    Objects.requireNonNull(before.ledger().bikes().get(bike));
            Event.Changed said = said(before, bike);
            Event.BikeDescribed now = Kinds.over(was, said);
            List<Event> events = new ArrayList<>();
            List<String> lines = new ArrayList<>();
            if (!now.equals(was)) {
                events.add(said);
                lines.add("bike " + bike + " edited");
                lines.addAll(filledIn(before, now));
            }
            if (byDefault) {
                events.add(asDefault(bike));
                lines.add("default bike: rides that no rule assigns are on " + bike);
            }
            if (events.isEmpty()) {
                throw CliError.usage("nothing about " + bike + " would change", "name what to set; see --help");
            }
            return new Intended(events, lines);
        }
    }

    @Command(
            name = "rename",
            description = "Give a bike another name, in all that was ever stated of it.",
            footer = {"Example:", "  chainage bike rename Dunlin Sandpiper"})
    static final class Rename extends Write {
        @Parameters(index = "0", paramLabel = "BIKE", description = "the name it has")
        String from = "";

        @Parameters(index = "1", paramLabel = "NAME", description = "the name it is to have")
        String to = "";

        @Override
        public Intended plan(Analysis before) {
            return renaming(
                    Event.Named.BIKE,
                    Names.bike(before.ledger(), from),
                    to,
                    before.ledger().bikes().keySet());
        }
    }
}
