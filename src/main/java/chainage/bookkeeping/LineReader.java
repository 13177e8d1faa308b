package chainage.bookkeeping;

import chainage.analysis.Analysis;
import chainage.analysis.Snapshot;
import chainage.answer.ProblemWords;
import chainage.attribution.AttributedRide;
import chainage.attribution.Attribution;
import chainage.command.Action;
import chainage.command.CommandContext;
import chainage.ledger.Event;
import chainage.ledger.Kinds;
import chainage.ledger.Ledger;
import chainage.ledger.Misfit;
import chainage.ledger.Problem;
import chainage.logbook.Line;
import chainage.logbook.Refusal;
import chainage.logbook.Statement;
import chainage.quantity.Moment;
import chainage.ride.FiledRide;
import chainage.typed.CliError;
import chainage.typed.EarlierWords;
import chainage.typed.TypedNumber;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.LongFunction;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Model.ArgGroupSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.ParseResult;

/** Carries out a logbook's lines by the commands themselves, with their checks and their words. */
public final class LineReader implements Statement {
    static final List<String> NOT_HERE = List.of("--dry-run", "--csv");

    private final CommandContext context;
    private final @Nullable Analysis fixed;
    private Snapshot facts = Snapshot.EMPTY;
    private final LineContext lines;
    private final Map<String, CommandLine> parsers = new HashMap<>();
    private Ledger before;
    private @Nullable Ledger ridesOf;
    private List<AttributedRide> rides = List.of();
    /** Whether the rides have the chains that are stated by now. */
    private boolean chained;

    /**
     * For the readings of one import.
     *
     * @param context whose clock is that of the rides' places
     */
    public LineReader(CommandContext context) {
        this(context, null);
    }

    /** For lines that all are to be carried out upon this. */
    LineReader(CommandContext context, @Nullable Analysis fixed) {
        this.context = context;
        this.fixed = fixed;
        this.before = Ledger.of(List.of());
        this.lines = new LineContext(context, this::analysis, this::filed);
    }

    /** Turns to a reading. */
    public Statement over(Snapshot all) {
        facts = all;
        ridesOf = null;
        // From here on dates are those of the places where the rides were.
        context.dateBy(all);
        return this;
    }

    @Override
    public List<Event> of(Line line, Ledger stated) throws Refusal {
        before = stated;
        lines.turnTo(new Moment(line.at(context.format().clock()), line.day(), line.time() == null));
        Action command = command(line);
        try {
            command.call();
        } catch (CliError e) {
            throw new Refusal(String.valueOf(e.getMessage()));
        }
        List<Event> events = lines.stated();
        for (Event e : events) {
            if (e instanceof Event.Installed || e instanceof Event.Removed) {
                chained = false;
            } else if (!Kinds.of(e).leavesRides()) {
                ridesOf = null;
            }
        }
        return events;
    }

    @Override
    public String words(Problem problem, LongFunction<String> named) {
        return new ProblemWords(context.format()).of(problem, named);
    }

    @Override
    public String words(Misfit misfit) {
        return new ProblemWords(context.format()).of(misfit);
    }

    private Action command(Line line) throws Refusal {
        String[] words = EarlierWords.today(TypedNumber.joined(line.words()), 0, hint -> {});
        // A phone begins with a capital where it takes something for the end of a sentence.
        words[0] = words[0].toLowerCase(Locale.ROOT);
        String word = words[0];
        ParseResult parsed;
        try {
            CommandLine parser = parser(word, words);
            clear(parser);
            parsed = parser.parseArgs(words);
        } catch (ParameterException e) {
            throw new Refusal(context.runner().said(e));
        }
        for (ParseResult p = parsed; p != null; p = p.hasSubcommand() ? p.subcommand() : null) {
            for (OptionSpec o : p.matchedOptions()) {
                if (o.inherited() || o.usageHelp() || o.versionHelp() || NOT_HERE.contains(o.longestName())) {
                    throw new Refusal(o.longestName() + " has no place in a logbook", "leave it out");
                }
            }
            if (!p.hasSubcommand() && p.commandSpec().userObject() instanceof Action action && action.states()) {
                return action;
            }
        }
        throw new Refusal("\"" + word + "\" states no fact", "a line says what was done, such as treat Amber hot-wax");
    }

    /** One that knows all commands is large; it serves for every word that is none. */
    private CommandLine parser(String word, String... words) {
        CommandLine all = parsers.get("");
        CommandLine known = all != null && !all.getSubcommands().containsKey(word) ? all : parsers.get(word);
        if (known != null) {
            return known;
        }
        CommandLine made = context.runner().parser(lines, words);
        // Only what the help says holds variables.
        made.setInterpolateVariables(false);
        parsers.put(made.getSubcommands().containsKey(word) ? word : "", made);
        return made;
    }

    /** A parser sets back what the line before said by itself, save options of a group of which this one names none. */
    private static void clear(CommandLine parser) {
        for (ArgGroupSpec group : parser.getCommandSpec().argGroups()) {
            try {
                group.setter().set(null);
            } catch (Exception e) {
                throw new AssertionError(group.toString(), e);
            }
        }
        parser.getSubcommands().values().forEach(LineReader::clear);
    }

    private Analysis analysis(Instant at) {
        return fixed != null
                ? fixed
                : Analysis.stating(
                        facts,
                        before,
                        facts.entries(),
                        this::rides,
                        context.tables(),
                        context.terminal().clock().instant());
    }

    private List<AttributedRide> rides() {
        Ledger now = before;
        if (ridesOf != now) {
            rides = Analysis.attributed(facts, now, Instant.MAX);
            ridesOf = now;
            chained = true;
        }
        return chained ? rides : Attribution.chained(now, rides);
    }

    private List<FiledRide> filed() {
        return fixed == null
                ? facts.rides()
                : fixed.rides().stream().map(AttributedRide::filed).toList();
    }
}
