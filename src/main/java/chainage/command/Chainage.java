package chainage.command;

import chainage.host.LedgerPlace;
import chainage.host.Terminal;
import chainage.typed.CliError;
import chainage.typed.ExitCode;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Help;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.Model.UsageMessageSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ScopeType;

/** The program: its global options. The list of commands adds what it can do. */
@Command(
        name = "chainage",
        mixinStandardHelpOptions = true,
        scope = ScopeType.INHERIT,
        versionProvider = Version.class,
        sortOptions = false,
        usageHelpAutoWidth = false,
        headerHeading = "%n",
        synopsisHeading = "",
        descriptionHeading = "%n",
        parameterListHeading = "%n",
        optionListHeading = "%n",
        commandListHeading = "%n",
        footerHeading = "%n")
public final class Chainage extends Action {
    @Option(
            names = "--ledger",
            paramLabel = "FILE",
            scope = ScopeType.INHERIT,
            description = "where the facts are kept (else CHAINAGE_LEDGER, else your data folder)")
    public List<String> ledgers = List.of();

    @Option(names = "--json", scope = ScopeType.INHERIT, description = "answer as one JSON object")
    public boolean json;

    @Option(
            names = "--units",
            paramLabel = "metric|imperial",
            scope = ScopeType.INHERIT,
            description = "kilometres or miles, else as set (chainage settings); JSON is always metric")
    @Nullable
    public String units;

    @Option(
            names = "--zone",
            paramLabel = "ZONE",
            scope = ScopeType.INHERIT,
            description = "time zone of dates, such as Europe/Lisbon (else as set, else this machine's)")
    @Nullable
    public String zone;

    @Option(
            names = Colour.OPTION,
            paramLabel = "auto|always|never",
            scope = ScopeType.INHERIT,
            description = "colour (auto: on a terminal, unless NO_COLOR is set)")
    @Nullable
    public String color;

    @Option(names = "--quiet", scope = ScopeType.INHERIT, description = "no progress, no hints")
    public boolean quiet;

    @Option(
            names = "--at",
            paramLabel = "INSTANT",
            scope = ScopeType.INHERIT,
            description = "answer as of then, such as 2026-03-01T12:00Z")
    @Nullable
    public String at;

    private final Terminal terminal;
    private final Runner runner;
    private @Nullable CommandContext context;

    public Chainage(Terminal terminal, Runner runner) {
        this.terminal = terminal;
        this.runner = runner;
    }

    /** One whose commands work with what is given. */
    public Chainage(CommandContext context) {
        this(context.terminal(), context.runner());
        this.context = context;
    }

    public Runner runner() {
        return runner;
    }

    public Terminal terminal() {
        return terminal;
    }

    /** What the commands work with, made from the global options once they are parsed. */
    public CommandContext openContext() {
        if (context == null) {
            context = contextOf(ledgerPath());
        }
        return context;
    }

    /** What a command works with on one ledger of several. */
    public CommandContext contextOf(Path ledger) {
        return new CommandContext(terminal, ledger, new Asked(units, zone, at, color), json, quiet, runner);
    }

    /** What was changed, in words; empty when nothing was. */
    public String done() {
        return context == null ? "" : context.done();
    }

    /** How the help looks, and what the program says of itself. */
    public static void describe(CommandLine line, int columns, boolean colour) {
        line.setColorScheme(new Help.ColorScheme.Builder(colour ? Ansi.ON : Ansi.OFF).build());
        line.setUsageHelpWidth(OwnHelp.width(columns));
        line.setHelpFactory(OwnHelp::new);
        UsageMessageSpec root = line.getCommandSpec().usageMessage();
        root.description(
                "Which chain is nearest its limit, when to treat it, when to replace it: from your own ride files, your"
                        + " own gauge, and the road under each ride.");
        root.exitCodeListHeading("%nExit codes:%n");
        Map<String, String> codes = new LinkedHashMap<>();
        for (ExitCode c : ExitCode.values()) {
            codes.put(Integer.toString(c.code()), c.meaning());
        }
        root.exitCodeList(codes);
        root.footer(
                "Examples:",
                "  chainage demo",
                "  chainage import ~/exports",
                "  chainage due",
                "  chainage tag last muddy");
    }

    private Path ledgerPath() {
        if (ledgers.size() > 1) {
            throw CliError.usage(
                    "this is done with one ledger, not with " + ledgers.size(),
                    "give --ledger once; chainage due answers for several");
        }
        return ledgerPaths().get(0);
    }

    /** The ledgers that are named; the usual one where none is. */
    public List<Path> ledgerPaths() {
        return ledgers.isEmpty()
                ? List.of(ledgerPath(null))
                : ledgers.stream().map(this::ledgerPath).toList();
    }

    private Path ledgerPath(@Nullable String typed) {
        if (typed != null && typed.isBlank()) {
            throw CliError.usage("--ledger \"\" names no file", "give a path, or leave the option out");
        }
        try {
            return LedgerPlace.find(typed, terminal.environment());
        } catch (InvalidPathException e) {
            throw CliError.usage("\"" + e.getInput() + "\" is no file name", "give another with --ledger");
        }
    }

    /** Without a command: what there is, on one screen. */
    @Override
    public Integer call() {
        Help help = spec().commandLine().getHelp();
        CommandLine.@Nullable IHelpSectionRenderer list =
                spec().usageMessage().sectionMap().get(UsageMessageSpec.SECTION_KEY_COMMAND_LIST);
        terminal.out()
                .print(help.description()
                        + help.createHeading("%n")
                        + (list == null ? "" : list.render(help))
                        + help.createHeading("%n")
                        + help.createHeading("More on each: chainage COMMAND --help, or just --help%n"));
        return ExitCode.OK.code();
    }
}
