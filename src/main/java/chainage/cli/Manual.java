package chainage.cli;

import chainage.manual.CommandPage;
import chainage.manual.Completion;
import chainage.manual.Item;
import chainage.manual.ManPage;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import picocli.CommandLine;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;

/** Manual pages and completions of this program, from the same model as its help. */
final class Manual {
    /** Stands in each of these files: what tells ours from another's. */
    static final String MARK = "chainage: written by chainage install-self";

    private Manual() {}

    /** All texts by their places below a prefix such as {@code /usr/local}. */
    static Map<String, String> texts(CommandLine program) {
        CommandPage page = page(program);
        Completion completion = new Completion(page, MARK);
        Map<String, String> texts = new LinkedHashMap<>();
        texts.put("share/bash-completion/completions/chainage", completion.bash());
        texts.put("share/zsh/site-functions/_chainage", completion.zsh());
        texts.put("share/fish/vendor_completions.d/chainage.fish", completion.fish());
        String version = new Version().getVersion()[0];
        Map<String, Map<String, String>> sections = new LinkedHashMap<>();
        sections.put("EXIT STATUS", program.getCommandSpec().usageMessage().exitCodeList());
        Map<String, String> environment = new LinkedHashMap<>();
        environment.put("CHAINAGE_LEDGER", "where the facts are kept, unless --ledger says otherwise");
        environment.put("JAVA_HOME", "the Java that runs the program (else the first one on the PATH)");
        environment.put("XDG_DATA_HOME", "the folder of folders with data (else ~/.local/share)");
        environment.put("XDG_CACHE_HOME", "where what makes the start quick is put by (else ~/.cache)");
        sections.put("ENVIRONMENT", environment);
        sections.put(
                "FILES",
                Map.of(
                        LedgerPlace.find(null, Map.of("HOME", "~")).toString(),
                        "the ledger, where nothing else names one; readable by you alone"));
        List<String> pages =
                page.below().stream().map(c -> String.join("-", c.words())).toList();
        texts.put("share/man/man1/chainage.1", ManPage.of(page, MARK, version, sections, pages));
        for (CommandPage command : page.below()) {
            texts.put(
                    "share/man/man1/" + String.join("-", command.words()) + ".1",
                    ManPage.of(command, MARK, version, Map.of(), List.of("chainage")));
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
                        .map(p -> item(List.of(), p))
                        .toList(),
                spec.options().stream()
                        .filter(o -> !o.hidden())
                        .map(o -> item(List.of(o.names()), o))
                        .toList(),
                footer.isEmpty() ? footer : footer.subList(1, footer.size()),
                line.getSubcommands().values().stream().map(Manual::page).toList());
    }

    private static Item item(List<String> names, ArgSpec arg) {
        String value = arg.arity().max() == 0 ? "" : arg.paramLabel();
        return new Item(names, value, String.join(" ", arg.description()), choices(value));
    }

    /** A label of small words with bars between lists all there are. */
    private static List<String> choices(String label) {
        if (label.equals("TOPIC")) {
            return List.copyOf(ExplainCommand.topics().keySet());
        }
        return label.matches("[a-z-]+(\\|[a-z-]+)+") ? List.of(label.split("\\|")) : List.of();
    }

    /** Texts on a command are formats; those on an option have been through that when the parser hands them out. */
    private static List<String> words(String[] formats) {
        List<String> words = new ArrayList<>();
        Arrays.stream(formats).map(String::format).forEach(words::add);
        return words;
    }
}
