package chainage.cli;

import chainage.answer.things.TopicAnswer;
import chainage.command.Action;
import chainage.command.Question;
import chainage.render.Columns;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Help;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.UsageMessageSpec;

/**
 * The list of commands. Only the one that was typed is read and made, since reading all of them is a good part of a cold
 * start.
 */
public final class Commands {
    private static final Map<String, Class<? extends Action>> ALL = new LinkedHashMap<>();

    /** The list of the help, line by line: headings, and commands in a few words, the most used first. */
    private static final List<String[]> LISTED = new ArrayList<>();

    static {
        group("Every day");
        put("import", "read rides: FIT, GPX, TCX, folders, .zip", ImportCommand.class);
        put("due", "which chain is next, when to treat it", DueCommand.class);
        put("rides", "each ride with its bike, chain and road", RidesCommand.class);
        put("tag", "say how wet or gritty rides were", TagCommand.class);
        put("treat", "note that a chain was treated", TreatCommand.class);
        put("measure", "note how long a chain has grown", MeasureCommand.class);
        put("remark", "note what you heard or saw on a chain", RemarkCommand.class);
        put("undo", "take back what was stated last", UndoCommand.class);
        group("Bikes, chains and products");
        put("bike", "list, add or edit bikes", BikeCommand.class);
        put("chain", "list, add, edit or merge chains", ChainCommand.class);
        put("product", "list, add or edit what you treat with", ProductCommand.class);
        put("install", "put a chain on a bike", InstallCommand.class);
        put("remove", "take a chain off", RemoveCommand.class);
        put("assign", "which bike rides were on, by ride or by rule", AssignCommand.class);
        group("Answers");
        put("plan", "what to do in the coming weeks", PlanCommand.class);
        put("compare", "which product lasts longer", CompareCommand.class);
        put("cost", "what each product costs on your rides", CostCommand.class);
        put("loss", "what each chain's state costs in watts", LossCommand.class);
        put("course", "what that is over a course, in seconds", CourseCommand.class);
        put("conditions", "how wet and gritty rides were, and why", ConditionsCommand.class);
        put("page", "everything on one page to look at", PageCommand.class);
        put("calendar", "the coming dates for your calendar", CalendarCommand.class);
        put("explain", "how the figures come about", ExplainCommand.class);
        group("What the answers rest on");
        put("weather", "records of rain and air: list or add", WeatherCommand.class);
        put("meter", "power meters: list, or say where one is", MeterCommand.class);
        put("evidence", "add what other riders have seen, give yours", EvidenceCommand.class);
        put("words", "words in ride titles that mean wet or gritty", WordsCommand.class);
        put("factors", "every default, and values of your own", FactorsCommand.class);
        group("Undo, look up, copy");
        put("log", "every fact you stated", LogCommand.class);
        put("logbook", "the same as a text file to edit", LogbookCommand.class);
        put("redo", "bring back what was taken back", RedoCommand.class);
        put("redate", "correct the date of something noted", RedateCommand.class);
        put("refused", "files that could not be read", RefusedCommand.class);
        put("check", "whether anything is damaged or contradictory", CheckCommand.class);
        put("export", "all facts as lines of JSON", ExportCommand.class);
        put("backup", "copy the ledger", BackupCommand.class);
        put("restore", "put a copy in its place", RestoreCommand.class);
        group("Set-up");
        put("settings", "units, time zone, currency, what to ignore", SettingsCommand.class);
        put("nightly", "import every night, and say what is due", NightlyCommand.class);
        put("install-self", "make it a command with manual and completion", InstallSelfCommand.class);
        put("demo", "try it on an invented season", DemoCommand.class);
    }

    private Commands() {}

    private static void group(String heading) {
        LISTED.add(new String[] {heading});
    }

    private static void put(String name, String words, Class<? extends Action> command) {
        ALL.put(name, command);
        LISTED.add(new String[] {name, words});
    }

    /** The names of all commands, in the order of the help. */
    public static List<String> names() {
        return List.copyOf(ALL.keySet());
    }

    /** What the answers of all commands hold for scripts, in the order of the help; commands with the same are together. */
    static List<TopicAnswer.Fields> answers() {
        Map<Columns<?>, List<String>> commands = new LinkedHashMap<>();
        ALL.values().forEach(command -> answers(new CommandLine(command), commands));
        return commands.entrySet().stream()
                .map(e -> new TopicAnswer.Fields(List.copyOf(e.getValue()), e.getKey()))
                .toList();
    }

    private static void answers(CommandLine line, Map<Columns<?>, List<String>> commands) {
        if (line.getCommand() instanceof Action action) {
            action.fields()
                    .forEach(f -> commands.computeIfAbsent(f, k -> new ArrayList<>())
                            .add(line.getCommandSpec().qualifiedName(" ")));
        }
        line.getSubcommands().values().forEach(below -> answers(below, commands));
    }

    /**
     * The words as the parser knows them, whatever other programs have taught: {@code help due} is {@code due --help}, and
     * {@code bike list} is {@code bike}, which lists.
     */
    static List<String> plain(CommandLine root, String... words) {
        List<String> plain = new ArrayList<>(List.of(words));
        int at = firstWord(root.getCommandSpec(), words);
        if (at < 0 || at == words.length) {
            return plain;
        }
        if (words[at].equals("help")) {
            plain.remove(at);
            plain.add("--help");
        } else if (at + 1 < words.length && words[at + 1].equals("list") && lists(ALL.get(words[at]))) {
            plain.remove(at + 1);
        }
        return plain;
    }

    private static boolean lists(@Nullable Class<? extends Action> command) {
        if (command == null) {
            return false;
        }
        @Nullable Command words = command.getAnnotation(Command.class);
        return words != null && words.subcommands().length > 0 && Question.class.isAssignableFrom(command);
    }

    /** Gives the program the command that the words name; all commands where the words name none that there is. */
    static void addTo(CommandLine root, String... words) {
        root.getCommandSpec()
                .usageMessage()
                .sectionMap()
                .put(
                        UsageMessageSpec.SECTION_KEY_COMMAND_LIST,
                        help -> help.commandSpec() == root.getCommandSpec() ? list(help) : help.commandList());
        int at = firstWord(root.getCommandSpec(), words);
        Class<? extends Action> named = at < words.length && at >= 0 ? ALL.get(words[at]) : null;
        if (named != null) {
            add(root, named);
        } else if (at == words.length) {
            // No command will be looked for; the synopsis says that there are some.
            root.addSubcommand("command", CommandSpec.create());
        } else {
            addAllTo(root);
        }
    }

    public static void addAllTo(CommandLine root) {
        ALL.values().forEach(command -> add(root, command));
    }

    private static void add(CommandLine root, Class<? extends Action> command) {
        CommandLine line = new CommandLine(command);
        root.addSubcommand(line);
        helpLast(line);
    }

    /** A command that is added late is given the program's own options behind these, which read better at the end. */
    private static void helpLast(CommandLine line) {
        for (String name : List.of("--help", "--version")) {
            OptionSpec option = line.getCommandSpec().findOption(name);
            line.getCommandSpec().remove(option);
            line.getCommandSpec().addOption(option);
        }
        line.getSubcommands().values().forEach(Commands::helpLast);
    }

    /** Where the first word stands that is no option and no option's value; -1 where picocli shall find out. */
    static int firstWord(CommandSpec root, String[] words) {
        for (int i = 0; i < words.length; i++) {
            if (!words[i].startsWith("-")) {
                return i;
            }
            int equals = words[i].indexOf('=');
            OptionSpec option = root.findOption(equals < 0 ? words[i] : words[i].substring(0, equals));
            if (option == null) {
                return -1;
            }
            if (equals < 0 && option.arity().max() > 0 && ++i < words.length && ALL.containsKey(words[i])) {
                return -1;
            }
        }
        return words.length;
    }

    /** The list of commands in the program's own help; a command's own are listed by picocli. */
    private static String list(Help help) {
        int width = ALL.keySet().stream().mapToInt(String::length).max().orElseThrow();
        StringBuilder list = new StringBuilder();
        for (String[] line : LISTED) {
            list.append(
                    line.length == 1
                            ? help.colorScheme().text("@|faint " + line[0] + "|@") + "%n"
                            : "  " + line[0] + " ".repeat(width + 2 - line[0].length()) + line[1] + "%n");
        }
        return String.format(Locale.ROOT, list.toString());
    }
}
