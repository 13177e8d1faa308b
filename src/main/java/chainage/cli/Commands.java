package chainage.cli;

import chainage.answer.things.TopicAnswer;
import chainage.render.Columns;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
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
final class Commands {
    private static final Map<String, Class<? extends Action>> ALL = new LinkedHashMap<>();

    static {
        ALL.put("import", ImportCommand.class);
        ALL.put("due", DueCommand.class);
        ALL.put("rides", RidesCommand.class);
        ALL.put("tag", TagCommand.class);
        ALL.put("conditions", ConditionsCommand.class);
        ALL.put("weather", WeatherCommand.class);
        ALL.put("words", WordsCommand.class);
        ALL.put("bike", BikeCommand.class);
        ALL.put("chain", ChainCommand.class);
        ALL.put("product", ProductCommand.class);
        ALL.put("install", InstallCommand.class);
        ALL.put("remove", RemoveCommand.class);
        ALL.put("treat", TreatCommand.class);
        ALL.put("measure", MeasureCommand.class);
        ALL.put("remark", RemarkCommand.class);
        ALL.put("assign", AssignCommand.class);
        ALL.put("compare", CompareCommand.class);
        ALL.put("factors", FactorsCommand.class);
        ALL.put("loss", LossCommand.class);
        ALL.put("course", CourseCommand.class);
        ALL.put("cost", CostCommand.class);
        ALL.put("plan", PlanCommand.class);
        ALL.put("page", PageCommand.class);
        ALL.put("explain", ExplainCommand.class);
        ALL.put("refused", RefusedCommand.class);
        ALL.put("check", CheckCommand.class);
        ALL.put("log", LogCommand.class);
        ALL.put("undo", UndoCommand.class);
        ALL.put("redo", RedoCommand.class);
        ALL.put("redate", RedateCommand.class);
        ALL.put("export", ExportCommand.class);
        ALL.put("backup", BackupCommand.class);
        ALL.put("restore", RestoreCommand.class);
        ALL.put("calendar", CalendarCommand.class);
        ALL.put("nightly", NightlyCommand.class);
        ALL.put("install-self", InstallSelfCommand.class);
        ALL.put("demo", DemoCommand.class);
    }

    private Commands() {}

    /** The names of all commands, in the order of the help. */
    static List<String> names() {
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

    static void addAllTo(CommandLine root) {
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

    /** The list of commands in the program's own help, as picocli would print it. */
    private static String list(Help help) {
        int width = ALL.keySet().stream().mapToInt(String::length).max().orElseThrow();
        Help.TextTable table = Help.TextTable.forColumns(
                help.colorScheme(),
                new Help.Column(width + 2, 2, Help.Column.Overflow.SPAN),
                new Help.Column(help.commandSpec().usageMessage().width() - (width + 2), 2, Help.Column.Overflow.WRAP));
        ALL.forEach((name, command) -> {
            @Nullable Command words = command.getAnnotation(Command.class);
            if (words != null) {
                table.addRowValues(name, words.description()[0]);
            }
        });
        return table.toString();
    }
}
