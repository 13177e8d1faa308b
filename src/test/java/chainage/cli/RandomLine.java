package chainage.cli;

import chainage.command.Chainage;
import chainage.host.Terminal;
import chainage.typed.EarlierWords;
import chainage.typed.TypedNumber;
import java.io.PrintWriter;
import java.io.Writer;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import picocli.CommandLine;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;

/**
 * Command lines made of the program's own words: its commands, the options and parameters they declare, the examples of
 * their help; with values that fit and values that do not, and at times with words left out, doubled or moved.
 */
public final class RandomLine {
    /** They set up the machine, or make a whole season each time. */
    private static final Set<String> LEFT_OUT = Set.of("nightly", "install-self", "demo");

    /** They start a browser or wait for one; the ledger is the trial's. */
    private static final Set<String> LEFT_OUT_OPTIONS =
            Set.of("--open", "--no-open", "--ledger", "--version", "--help");

    private static final Set<String> FILES = Set.of("FILE", "FOLDER", "DIR", "TABLE", "COPY", "PATH");

    private static final List<String> FILE_NAMES = List.of(
            "rides",
            "2024-01.txt",
            "treatments.csv",
            "season.txt",
            "mine.jsonl",
            "sound.jsonl",
            "new",
            "new.txt",
            "nowhere/new.txt",
            "");

    private static final List<String> NUMBERS = List.of("1", "2", "12", "0.5", "0.3%", "40", "112", "5", "11", "34,50");
    private static final List<String> DATES = List.of(
            "2024-01-20", "yesterday", "today", "2024-01-16 10:00", "2023-12-01", "2024-02-01", "20.1.2024", "2024-02");

    private static final Map<String, List<String>> FITTING = Map.ofEntries(
            Map.entry("BIKE", List.of("Dunlin", "Natterjack", "Otter")),
            Map.entry("CHAIN", List.of("Amber", "Flint", "Ochre", "all")),
            Map.entry("INTO", List.of("Amber", "Flint")),
            Map.entry("PRODUCT", List.of("Kettle", "Thistle", "hot-wax", "wet-lube", "drip-wax")),
            Map.entry("METHOD", List.of("hot-wax", "wet-lube", "drip-wax", "dry-lube")),
            Map.entry("RIDE", List.of("last", "last 3", "2024-01-01..2024-01-20", "2024-01-04", "3f")),
            Map.entry("WHEN", DATES),
            Map.entry("INSTANT", DATES),
            Map.entry("YYYY-MM", List.of("2024-01", "2024-1")),
            Map.entry("AMOUNT", List.of("40EUR", "20 EUR", "1 USD", "0")),
            Map.entry("LENGTH", List.of("2.105m", "305.9mm", "12 1/32 in")),
            Map.entry("LAT,LON", List.of("0.1,-30", "90,180")),
            Map.entry("KMH..KMH", List.of("8..55", "6..37mph")),
            Map.entry("RINGxCOG", List.of("50x17", "34x32")),
            Map.entry("TEETH", List.of("34,50", "11-28", "11-28/11", "11,13")),
            Map.entry("NO", List.of("1", "5", "17", "3..9", "20")),
            Map.entry("ZONE", List.of("UTC", "Europe/Lisbon", "+02:00")),
            Map.entry("TYPE:SERIAL", List.of("bike_power:123", "bike_power")),
            Map.entry("FACTOR", List.of("treatment.wet.hot-wax", "due.risk", "life.hot-wax", "wear")),
            Map.entry("WORD", List.of("muddy", "wet", "damp", "dry", "gritty", "40%", "Wren", "peat track")),
            Map.entry("WORD=DEED", List.of("polished=note", "waxed=treat")),
            Map.entry("TOPIC", List.of("life", "wear", "factors")),
            Map.entry("METER", List.of("4001", "bike_power:4001")),
            Map.entry("COLUMN", List.of("Date", "Chain", "What", "2", "none")),
            Map.entry("HH:MM", List.of("3:30", "24:00")));

    private static final List<String> BENT = List.of(
            "",
            " ",
            "-",
            "--",
            "-1",
            "0",
            "NaN",
            "Infinity",
            "1e308",
            "4.9e-324",
            "9223372036854775807",
            "-9223372036854775808",
            "99999999999999999999",
            "0.0000001%",
            "1e9km",
            "99999-01-01",
            "-999999999-01-01",
            "1969-12-31",
            "2101-01-01",
            "2024-02-30",
            "9..1",
            "..",
            "1..9223372036854775807",
            "%",
            "%s%n",
            "$(x)",
            "\\",
            "\"",
            "'",
            "a,b,,c",
            ",",
            "=",
            "a=b",
            "\u0000",
            "\n",
            "\u001b[31m",
            "\u202e",
            "ø鏈\ud83d\udeb2",
            "\ud83d",
            "*",
            "[",
            "(?",
            "x".repeat(3_000));

    private final List<CommandSpec> commands = new ArrayList<>();
    private final Random random;
    private final Path folder;

    /**
     * What makes them.
     *
     * @param folder where files that are named lie
     */
    public RandomLine(Random random, Path folder) {
        this.random = random;
        this.folder = folder;
        CommandLine root = new CommandLine(program());
        Commands.addAllTo(root);
        root.getSubcommands().forEach((name, line) -> {
            if (!LEFT_OUT.contains(name)) {
                collect(line.getCommandSpec());
            }
        });
    }

    private static Chainage program() {
        PrintWriter nowhere = new PrintWriter(Writer.nullWriter());
        return new Chainage(new Terminal(nowhere, nowhere, false, 0, Map.of(), Clock.systemUTC()), Main.RUNNER);
    }

    private void collect(CommandSpec spec) {
        commands.add(spec);
        Map<String, CommandLine> below = new LinkedHashMap<>(spec.subcommands());
        below.values().forEach(line -> collect(line.getCommandSpec()));
    }

    /** The next line: words of a command and what follows it, without the ledger. */
    public List<String> next() {
        while (true) {
            List<String> words = random.nextInt(4) == 0 ? example() : made();
            for (int i = random.nextInt(3); i > 0; i--) {
                bend(words);
            }
            // One in some, since nothing is found in a line that begins with no command but how it is refused.
            boolean named = Commands.names().contains(words.get(0)) || random.nextInt(20) == 0;
            if (named && isOfTheFolder(words)) {
                return List.copyOf(words);
            }
        }
    }

    private List<String> example() {
        List<List<String>> examples = Arrays.stream(
                        pick(commands).usageMessage().footer())
                .filter(l -> l.startsWith("  chainage "))
                .map(l -> SmallSeason.split(l.substring("  chainage ".length()).replace("%%", "%")))
                .toList();
        return examples.isEmpty() ? made() : new ArrayList<>(pick(examples));
    }

    private List<String> made() {
        CommandSpec spec = pick(commands);
        List<String> words = new ArrayList<>(
                List.of(spec.qualifiedName(" ").substring("chainage ".length()).split(" ", -1)));
        for (PositionalParamSpec p : spec.positionalParameters()) {
            int most = Math.min(p.arity().max(), 3);
            int least = Math.min(p.arity().min(), most);
            for (int n = least + random.nextInt(most - least + 1); n > 0; n--) {
                words.add(value(p));
            }
        }
        List<OptionSpec> options = spec.options().stream()
                .filter(o -> !LEFT_OUT_OPTIONS.contains(o.longestName()))
                .toList();
        for (int n = random.nextInt(4); n > 0 && !options.isEmpty(); n--) {
            OptionSpec o = pick(options);
            words.add(pick(Arrays.asList(o.names())));
            if (o.arity().max() > 0) {
                words.add(value(o));
            }
        }
        return words;
    }

    private String value(ArgSpec arg) {
        String label = arg.paramLabel().replaceAll("[<>\\[\\]]", "").replaceAll(",\\.\\.\\..*", "");
        if (isFile(arg)) {
            return arg.isOption() && random.nextInt(12) == 0 ? "-" : file();
        }
        if (random.nextInt(6) == 0) {
            return unfit();
        }
        List<String> candidates = new ArrayList<>();
        if (arg.completionCandidates() != null) {
            arg.completionCandidates().forEach(candidates::add);
        }
        if (candidates.isEmpty() && label.contains("|")) {
            candidates.addAll(List.of(label.split("\\|", -1)));
        }
        if (candidates.isEmpty()) {
            candidates.addAll(FITTING.getOrDefault(label, random.nextBoolean() ? NUMBERS : SmallSeason.NAMES));
        }
        return pick(candidates);
    }

    /** A value for something else, or for nothing. */
    private String unfit() {
        return switch (random.nextInt(4)) {
            case 0 -> pick(NUMBERS);
            case 1 -> pick(List.copyOf(FITTING.values()).get(random.nextInt(FITTING.size())));
            case 2 -> pick(SmallSeason.NAMES);
            default -> pick(BENT);
        };
    }

    private String file() {
        return folder.resolve(pick(FILE_NAMES)).toString();
    }

    private void bend(List<String> words) {
        int at = random.nextInt(words.size());
        switch (random.nextInt(5)) {
            case 0 -> words.set(at, unfit());
            case 1 -> words.add(at, words.get(random.nextInt(words.size())));
            case 2 -> words.add(random.nextInt(words.size() + 1), unfit());
            case 3 -> words.add(random.nextInt(words.size()), words.remove(at));
            default -> {
                if (words.size() > 1) {
                    words.remove(at);
                }
            }
        }
    }

    /** True unless a file is named that lies elsewhere, or what is left out came in again. */
    private boolean isOfTheFolder(List<String> words) {
        if (words.stream()
                .anyMatch(w -> LEFT_OUT.contains(w)
                        || LEFT_OUT_OPTIONS.contains(w.replaceFirst("=.*", ""))
                        || w.equals("-h")
                        || w.equals("-V"))) {
            return false;
        }
        Chainage program = program();
        String[] typed = TypedNumber.joined(words);
        CommandLine root = new CommandLine(program);
        String[] today = EarlierWords.today(typed, Commands.firstWord(root.getCommandSpec(), typed), hint -> {});
        String[] args = Commands.plain(root, today).toArray(String[]::new);
        CommandLine.ParseResult parsed;
        try {
            parsed = Main.RUNNER
                    .parser(program.contextOf(folder.resolve("none")), args)
                    .parseArgs(args);
        } catch (CommandLine.PicocliException e) {
            return true;
        }
        for (CommandLine.ParseResult at = parsed; at != null; at = at.subcommand()) {
            for (ArgSpec arg : at.matchedArgs()) {
                // To a command that knows no dash it is a file like any other.
                if (isFile(arg)
                        && !arg.originalStringValues().stream()
                                .allMatch(w -> (w.equals("-") && arg.isOption()) || isInTheFolder(w))) {
                    return false;
                }
            }
        }
        return true;
    }

    private static boolean isFile(ArgSpec arg) {
        return FILES.contains(arg.paramLabel().replaceAll("[<>\\[\\]]", ""))
                || arg.typeInfo().getType() == Path.class
                || arg.auxiliaryTypes()[0] == Path.class;
    }

    private boolean isInTheFolder(String word) {
        try {
            return Path.of(word).normalize().startsWith(folder);
        } catch (InvalidPathException e) {
            return true;
        }
    }

    private <T> T pick(List<T> some) {
        return some.get(random.nextInt(some.size()));
    }
}
