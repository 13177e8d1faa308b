package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.things.ProductList;
import chainage.command.Intended;
import chainage.command.Question;
import chainage.command.WhenOption;
import chainage.command.Write;
import chainage.ledger.Event;
import chainage.ledger.Kinds;
import chainage.ledger.Method;
import chainage.quantity.PlainText;
import chainage.render.Answer;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.typed.CliError;
import chainage.typed.Names;
import chainage.typed.QuantityParser;
import chainage.typed.Setting;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "product",
        description = "List what you treat chains with, add one, edit one, note one bought, or rename one.",
        subcommands = {
            ProductCommand.Add.class,
            ProductCommand.Set.class,
            ProductCommand.Buy.class,
            ProductCommand.Rename.class,
            ProductCommand.Same.class
        },
        footer = {
            "Examples:",
            "  chainage product",
            "  chainage product add \"Kettle Block\" --method hot-wax --price \"27.50 EUR\""
        })
final class ProductCommand extends Question {
    @Override
    public List<Columns<?>> fields() {
        return List.of(ProductList.LIST.fields());
    }

    @Override
    public Answer answer() {
        return ProductList.of(context().ledger(), context().format());
    }

    /** What a product is described by. */
    abstract static class Describe extends Write {
        @Parameters(index = "0", paramLabel = "PRODUCT")
        String name = "";

        @Option(
                names = "--method",
                paramLabel = "METHOD",
                description = "hot-wax, cold-dip-wax, drip-wax, dry-lube, wet-lube, grease, factory or none")
        @Nullable
        String method;

        @Option(names = "--price", paramLabel = "AMOUNT", description = "of one package, such as \"27.50 EUR\"")
        @Nullable
        String price;

        @Option(names = "--amount", paramLabel = "ML", description = "content of one package, such as 400ml")
        @Nullable
        String amount;

        @Option(
                names = "--per-treatment",
                paramLabel = "ML",
                description = "what one treatment takes where you note nothing else, such as 5ml")
        @Nullable
        String perTreatment;

        @Option(
                names = "--minutes",
                paramLabel = "N",
                description = "how long one takes where you note nothing else, cleaning and all")
        @Nullable
        Double minutes;

        final Event.Changed said(String product) {
            Map<String, Object> said = new HashMap<>();
            typed(said, "method", method, Names::method);
            typed(
                    said,
                    "price",
                    price,
                    v -> QuantityParser.price("--price", v, context().setting(Setting.CURRENCY)));
            typed(said, "package_millilitres", amount, v -> QuantityParser.millilitres("--amount", v));
            typed(said, "treatment_millilitres", perTreatment, v -> QuantityParser.millilitres("--per-treatment", v));
            typed(said, "treatment_minutes", minutes, v -> QuantityParser.minutes("--minutes", v));
            return new Event.Changed(Event.Named.PRODUCT, product, said);
        }
    }

    @Command(
            name = "add",
            description = "Add a product and say how it treats a chain.",
            footer = {"Example:", "  chainage product add \"Kettle Block\" --method hot-wax"})
    static final class Add extends Describe {
        @Override
        public Intended plan(Analysis before) {
            String product = Names.fresh("product", name, Names.takenByProducts(before.ledger()));
            if (method == null) {
                throw CliError.usage(
                        "nothing says how \"" + product + "\" treats a chain",
                        "add --method with one of " + Names.methods());
            }
            Event.ProductDescribed now =
                    Kinds.over(new Event.ProductDescribed(product, Method.NONE, null, null), said(product));
            return Intended.of(
                    now, "product " + product + " added, " + now.method().words());
        }
    }

    @Command(
            name = "set",
            description = "Edit a product; what you leave out stays.",
            footer = {"Example:", "  chainage product set \"Kettle Block\" --price \"29.00 EUR\""})
    static final class Set extends Describe {
        @Override
        public Intended plan(Analysis before) {
            Event.ProductDescribed was =
                    Names.ownProduct(before.ledger(), name, "add one: chainage product add NAME --method " + name);
            Event.Changed said = said(was.product());
            if (Kinds.over(was, said).equals(was)) {
                throw CliError.usage(
                        "nothing about " + was.product() + " would change", "name what to set; see --help");
            }
            return Intended.of(said, "product " + was.product() + " edited");
        }
    }

    @Command(
            name = "buy",
            description = {
                "Note that packages of a product were bought. What treatments took since the first purchase comes off, so"
                        + " that chainage plan can say when it runs out."
            },
            footer = {"Example:", "  chainage product buy \"Kettle Block\" --packages 2 --on 2026-03-01"})
    static final class Buy extends Write {
        @Parameters(index = "0", paramLabel = "PRODUCT")
        String name = "";

        @Option(names = "--packages", paramLabel = "N", description = "how many (default: 1)")
        int packages = 1;

        @Mixin
        WhenOption on = new WhenOption();

        @Override
        public Intended plan(Analysis before) {
            Event.ProductDescribed p = Names.ownProduct(
                    before.ledger(), name, "add what you buy: chainage product add NAME --method " + name);
            if (packages < 1 || packages > 1000) {
                throw CliError.usage("--packages " + packages + " cannot be", "give 1 to 1000");
            }
            Double content = p.packageMillilitres();
            String amount = content == null
                    ? "; how much is in one: chainage product set " + PlainText.typed(p.product()) + " --amount 400ml"
                    : ", " + Formatter.number(packages * content) + " ml";
            return Intended.of(
                    new Event.Bought(p.product(), when(on.typed).instant(), packages),
                    Formatter.count(packages, "package", "packages") + " of " + p.product() + " bought" + amount);
        }
    }

    @Command(
            name = "same",
            description = {
                "Say what other riders call a product of yours, so that their evidence tells of it. Case and spaces need not"
                        + " agree."
            },
            footer = {"Example:", "  chainage product same \"Kettle Block\" \"kettle-block old\""})
    static final class Same extends Write {
        @Parameters(index = "0", paramLabel = "PRODUCT", description = "yours")
        String name = "";

        @Parameters(index = "1", paramLabel = "WORD", description = "theirs")
        String word = "";

        @Override
        public Intended plan(Analysis before) {
            Event.ProductDescribed p = Names.ownProduct(
                    before.ledger(), name, "add what you use: chainage product add NAME --method " + name);
            if (word.isBlank()) {
                throw CliError.usage("the other word is empty", "give the word that others use");
            }
            return Intended.of(
                    new Event.ProductsSame(p.product(), word.strip()),
                    "what others call \"" + word.strip() + "\" is " + p.product());
        }
    }

    @Command(
            name = "rename",
            description = "Give a product another name, in all that was ever stated of it.",
            footer = {"Example:", "  chainage product rename \"Kettle Block\" \"Kettle Cake\""})
    static final class Rename extends Write {
        @Parameters(index = "0", paramLabel = "PRODUCT", description = "the name it has")
        String from = "";

        @Parameters(index = "1", paramLabel = "NAME", description = "the name it is to have")
        String to = "";

        @Override
        public Intended plan(Analysis before) {
            Event.ProductDescribed was = Names.ownProduct(before.ledger(), from, "methods keep their names");
            return renaming(Event.Named.PRODUCT, was.product(), to, Names.takenByProducts(before.ledger()));
        }
    }
}
