package chainage.command;

import chainage.exposure.Factors;
import chainage.host.LedgerPlace;
import chainage.host.OwnFiles;
import chainage.host.Program;
import chainage.host.Resource;
import chainage.ledger.Method;
import chainage.manual.CommandPage;
import chainage.manual.Completion;
import chainage.manual.Item;
import chainage.manual.ManPage;
import chainage.typed.RideSelection;
import chainage.typed.Setting;
import chainage.typed.Tags;
import chainage.typed.Topics;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import picocli.CommandLine;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;

/** Manual pages and completions of this program, from the same model as its help. */
public final class Manual {
    /** A manual is read in 80 columns, of which its readers leave 7 free before the text. */
    private static final int COLUMNS = 73;

    /** Labels of what has names in the ledger. */
    private static final Map<String, String> LIVE = Map.of(
            "BIKE",
            LiveNames.BIKE,
            "CHAIN",
            LiveNames.CHAIN,
            "INTO",
            LiveNames.CHAIN,
            "PRODUCT",
            LiveNames.PRODUCT,
            "RIDE",
            LiveNames.RIDE,
            Tags.LABEL,
            LiveNames.RIDE);

    private Manual() {}

    /** All texts by their places below a prefix such as {@code /usr/local}. */
    public static Map<String, String> texts(CommandLine program) {
        program.setUsageHelpWidth(COLUMNS);
        CommandPage page = page(program);
        Completion completion = new Completion(page, OwnFiles.MARK);
        Map<String, String> texts = new LinkedHashMap<>();
        texts.put("share/bash-completion/completions/chainage", completion.bash());
        texts.put("share/zsh/site-functions/_chainage", completion.zsh());
        texts.put("share/fish/vendor_completions.d/chainage.fish", completion.fish());
        String version = Program.version();
        String day = Program.day();
        Map<String, Map<String, String>> sections = new LinkedHashMap<>();
        Map<String, String> codes = program.getCommandSpec().usageMessage().exitCodeList();
        sections.put("EXIT STATUS", codes);
        Map<String, String> environment = new LinkedHashMap<>();
        environment.put("CHAINAGE_LEDGER", "where the facts are kept, unless --ledger says otherwise");
        environment.put("JAVA_HOME", "the Java that runs the program (else the first one on the PATH)");
        environment.put("NO_COLOR", "any value: no colour, unless --color always asks for it");
        environment.put("XDG_DATA_HOME", "the folder of folders with data (else ~/.local/share)");
        environment.put("XDG_CACHE_HOME", "where files are kept that make the start quick (else ~/.cache)");
        sections.put("ENVIRONMENT", environment);
        sections.put(
                "FILES",
                Map.of(
                        LedgerPlace.find(null, Map.of("HOME", "~")).toString(),
                        "the ledger, where nothing else names one; readable by you alone"));
        List<String> pages =
                page.below().stream().map(c -> String.join("-", c.words())).toList();
        texts.put("share/man/man1/chainage.1", ManPage.of(page, OwnFiles.MARK, version, day, sections, pages));
        for (CommandPage command : page.below()) {
            texts.put(
                    "share/man/man1/" + String.join("-", command.words()) + ".1",
                    ManPage.of(
                            command, OwnFiles.MARK, version, day, Map.of("EXIT STATUS", codes), List.of("chainage")));
        }
        return texts;
    }

    static CommandPage page(CommandLine line) {
        CommandSpec spec = line.getCommandSpec();
        List<String> footer = words(spec.usageMessage().footer());
        return new CommandPage(
                List.of(spec.qualifiedName(" ").split(" ")),
                line.getHelp().synopsis(0).lines().toList(),
                words(spec.usageMessage().description()),
                spec.positionalParameters().stream()
                        .filter(p -> !p.hidden())
                        .map(p -> item(spec, List.of(), p))
                        .toList(),
                spec.options().stream()
                        .filter(o -> !o.hidden())
                        .map(o -> item(spec, List.of(o.names()), o))
                        .toList(),
                footer.stream().filter(Manual::isExample).map(String::strip).toList(),
                notes(footer),
                line.getSubcommands().values().stream().map(Manual::page).toList());
    }

    private static boolean isExample(String line) {
        return line.startsWith("  ");
    }

    /** What else a footer says; its heading belongs to the examples, and an empty line parts paragraphs. */
    private static List<String> notes(List<String> footer) {
        String notes = footer.stream().skip(1).filter(l -> !isExample(l)).collect(Collectors.joining("\n"));
        return Arrays.stream(notes.split("\n\n+", -1))
                .map(n -> n.replace('\n', ' ').strip())
                .filter(n -> !n.isEmpty())
                .toList();
    }

    private static Item item(CommandSpec spec, List<String> names, ArgSpec arg) {
        String value = arg.arity().max() == 0 ? "" : arg.paramLabel();
        // What is added has no name yet that could be offered.
        boolean fresh = (names.isEmpty() && spec.name().equals("add")) || value.equals("NAME");
        String live = fresh ? "" : LIVE.getOrDefault(value, "");
        return new Item(
                names,
                value,
                String.join(" ", arg.description()),
                fresh ? List.of() : choices(value),
                live,
                arg.arity().max() > 1);
    }

    /** A label of small words with bars between lists all there are. */
    private static List<String> choices(String label) {
        return switch (label) {
            case "TOPIC" -> List.copyOf(Topics.all().keySet());
            case "METHOD", "PRODUCT" ->
                Arrays.stream(Method.values()).map(Method::word).toList();
            case "FACTOR" ->
                Factors.parse(Resource.text("/chainage/exposure/factors.tsv")).all().stream()
                        .map(Factors.Factor::key)
                        .toList();
            case Setting.LABEL -> Setting.words();
            case Setting.CHOICE -> Setting.choices();
            case "RIDE" -> RideSelection.WORDS;
            case Tags.LABEL ->
                Stream.concat(RideSelection.WORDS.stream(), Tags.WORDS.stream()).toList();
            default -> label.matches("[a-z-]+(\\|[a-z-]+)+") ? List.of(label.split("\\|")) : List.of();
        };
    }

    /** Texts on a command are formats; those on an option have been through that when the parser hands them out. */
    private static List<String> words(String[] formats) {
        List<String> words = new ArrayList<>();
        Arrays.stream(formats).map(f -> String.format(Locale.ROOT, f)).forEach(words::add);
        return words;
    }
}
