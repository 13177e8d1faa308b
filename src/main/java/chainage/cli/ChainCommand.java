package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.beside.NewChainBeside;
import chainage.answer.things.ChainList;
import chainage.command.Intended;
import chainage.command.Question;
import chainage.command.Write;
import chainage.ledger.Event;
import chainage.ledger.Kinds;
import chainage.quantity.PlainText;
import chainage.render.Answer;
import chainage.render.Columns;
import chainage.typed.CliError;
import chainage.typed.Names;
import chainage.typed.QuantityParser;
import chainage.typed.Setting;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "chain",
        description = "List your chains, add one, edit one, rename one, or merge two.",
        subcommands = {
            ChainCommand.Add.class,
            ChainCommand.Set.class,
            ChainCommand.Rename.class,
            ChainCommand.Merge.class
        },
        footer = {
            "Examples:",
            "  chainage chain",
            "  chainage chain add Amber --speeds 11 --links 112 --price \"34.90 EUR\"",
            "  chainage chain set Amber --limit 0.5%%"
        })
final class ChainCommand extends Question {
    @Override
    public List<Columns<?>> fields() {
        return List.of(ChainList.LIST.fields());
    }

    @Override
    public Answer answer() {
        return ChainList.of(context().analysis(), context().format());
    }

    /** What a chain is described by. */
    abstract static class Describe extends Write {
        @Parameters(index = "0", paramLabel = "CHAIN", description = "its name")
        String name = "";

        @Option(
                names = "--speeds",
                paramLabel = "N",
                description = "number of cogs it is made for; 1 for single-speed and hub gears")
        @Nullable
        Integer speeds;

        @Option(names = "--links", paramLabel = "N", description = "number of links")
        @Nullable
        Integer links;

        @Option(
                names = "--limit",
                paramLabel = "PERCENT",
                description = "elongation at which to replace it (usual: 0.5%% from 11 speeds on, 0.75%% up to 10,"
                        + " 1%% for one)")
        @Nullable
        String limit;

        @Option(names = "--price", paramLabel = "AMOUNT", description = "such as \"34.90 EUR\"")
        @Nullable
        String price;

        @Option(
                names = "--used",
                description =
                        "it ran before its first ride here, so it may be elongated; it counts as untreated until treated")
        boolean used;

        @Option(
                names = "--stripped",
                description = "the factory's preservative was washed off; it counts as untreated until treated")
        boolean stripped;

        /** What else was typed of it. */
        void more(Map<String, Object> said) {}

        final Event.Changed said(String chain) {
            if (speeds != null && (speeds < 1 || speeds > 20)) {
                throw CliError.usage("--speeds " + speeds + " cannot be", "give 1 to 20");
            }
            if (links != null && (links < 20 || links > 400)) {
                throw CliError.usage("--links " + links + " cannot be", "give the number of links, 20 to 400");
            }
            Map<String, Object> said = new HashMap<>();
            typed(said, "pitches", links, v -> v);
            typed(said, "speeds", speeds, v -> v);
            typed(said, "limit_percent", limit, v -> QuantityParser.percent("--limit", v, 0.1, 3));
            typed(
                    said,
                    "price",
                    price,
                    v -> QuantityParser.price("--price", v, context().setting(Setting.CURRENCY)));
            typed(said, "used", used ? true : null, v -> v);
            typed(said, "stripped", stripped ? true : null, v -> v);
            more(said);
            return new Event.Changed(Event.Named.CHAIN, chain, said);
        }
    }

    @Command(
            name = "add",
            description =
                    "Add a chain. Until you note a treatment it counts as new and on its factory grease, unless you say otherwise.",
            footer = {
                "Examples:",
                "  chainage chain add Amber --speeds 11 --links 112",
                "  chainage chain add Moss --stripped    (new, washed bare)",
                "  chainage chain add Ochre --used       (ran elsewhere before)"
            })
    static final class Add extends Describe {
        @Override
        public Intended plan(Analysis before) {
            String chain = Names.fresh("chain", name, before.ledger().chains().keySet());
            List<String> said = new ArrayList<>(List.of("chain " + chain + " added"));
            said.addAll(context()
                    .beside(() ->
                            List.of(NewChainBeside.next(before, chain, context().now()))));
            if (used) {
                said.add("used before: its first reading tells where it started (chainage measure "
                        + PlainText.typed(chain) + ")");
            }
            return new Intended(
                    List.of(Kinds.over(new Event.ChainDescribed(chain, 0, 0, null, null, false, false), said(chain))),
                    said);
        }
    }

    @Command(
            name = "set",
            description = "Edit a chain; what you leave out stays.",
            footer = {
                "Examples:",
                "  chainage chain set Amber --limit 0.6%%",
                "  chainage chain set Ochre --used    (it had run before it came to you)"
            })
    static final class Set extends Describe {
        @Option(
                names = "--new",
                description = "it was new, and on its factory grease, at its first ride here: takes back --used and"
                        + " --stripped")
        boolean fresh;

        @Override
        void more(Map<String, Object> said) {
            if (fresh && (used || stripped)) {
                throw CliError.usage("--new contradicts --used and --stripped", "leave one out");
            }
            typed(said, "used", fresh ? false : null, v -> v);
            typed(said, "stripped", fresh ? false : null, v -> v);
        }

        @Override
        public Intended plan(Analysis before) {
            String chain = Names.chain(before.ledger(), name);
            Event.ChainDescribed was =
                    Objects.requireNonNull(before.ledger().chains().get(chain));
            Event.Changed said = said(chain);
            if (Kinds.over(was, said).equals(was)) {
                throw CliError.usage("nothing about " + chain + " would change", "name what to set; see --help");
            }
            return Intended.of(said, "chain " + chain + " edited");
        }
    }

    @Command(
            name = "rename",
            description = "Give a chain another name, in all that was ever stated of it.",
            footer = {"Example:", "  chainage chain rename Amber Thyme"})
    static final class Rename extends Write {
        @Parameters(index = "0", paramLabel = "CHAIN", description = "the name it has")
        String from = "";

        @Parameters(index = "1", paramLabel = "NAME", description = "the name it is to have")
        String to = "";

        @Override
        public Intended plan(Analysis before) {
            return renaming(
                    Event.Named.CHAIN,
                    Names.chain(before.ledger(), from),
                    to,
                    before.ledger().chains().keySet());
        }
    }

    @Command(
            name = "merge",
            description = {
                "Two chains are one that was entered twice: all facts of the first become facts of the second.",
                "The second's name and description stay."
            },
            footer = {"Example:", "  chainage chain merge Amber2 Amber"})
    static final class Merge extends Write {
        @Parameters(index = "0", paramLabel = "CHAIN", description = "the name that goes")
        String chain = "";

        @Parameters(index = "1", paramLabel = "INTO", description = "the name that stays")
        String into = "";

        @Override
        public Intended plan(Analysis before) {
            String old = Names.chain(before.ledger(), chain);
            String kept = Names.chain(before.ledger(), into);
            if (old.equals(kept)) {
                throw CliError.usage(old + " is one chain already", "name the two that are one");
            }
            return Intended.of(new Event.ChainsMerged(old, kept), "chain " + old + " merged into " + kept);
        }
    }
}
