package chainage.cli;

import chainage.host.Herald;
import chainage.host.Job;
import chainage.host.Machine;
import chainage.host.NightFiles;
import chainage.host.Scheduler;
import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalTime;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "nightly",
        description = {
            "Import what is new every night; speak only of what is new: a chain that became due, a file that was refused.",
            "What is said is printed, and handed on as you ask: --then to a command of yours on its standard input (mail, a"
                    + " push service), --notify as a notification on your desktop. What none of them took is said again"
                    + " the next night.",
            "As it is, the command shows what it would set up, and writes nothing; --install sets it up for your user"
                    + " alone, --remove takes it away. A night missed while the machine was off is made up for where"
                    + " systemd runs."
        },
        footer = {
            "Examples:",
            "  chainage nightly ~/exports",
            "  chainage nightly ~/exports --install --page ~/chains.html",
            "  chainage nightly ~/exports --install --then 'mail -s chainage anna'",
            "  chainage nightly ~/exports --run    (one night's work, now)",
            "  chainage nightly --remove"
        })
final class NightlyCommand extends Action {
    private static final DateTimeFormatter CLOCK = DateTimeFormatter.ofPattern("H:mm", Locale.ROOT);

    @Parameters(arity = "0..*", paramLabel = "FOLDER", description = "where your exports arrive")
    List<Path> folders = List.of();

    /** What to do; one at most. */
    static final class What {
        @Option(names = "--install", description = "set it up")
        boolean install;

        @Option(names = "--remove", description = "take it away again, its log as well")
        boolean remove;

        @Option(names = "--run", description = "do one night's work now; the scheduler calls this")
        boolean run;
    }

    @ArgGroup
    What what = new What();

    @Option(names = "--time", paramLabel = "HH:MM", description = "when, local time (default: ${DEFAULT-VALUE})")
    String time = "3:30";

    @Option(names = "--page", paramLabel = "FILE", description = "write the page again each night")
    @Nullable
    Path page;

    @Option(names = "--calendar", paramLabel = "FILE", description = "write the calendar again each night")
    @Nullable
    Path calendar;

    @Option(
            names = "--then",
            paramLabel = "COMMAND",
            description = "give what is new to this command of the shell, on its standard input")
    @Nullable
    String then;

    @Option(names = "--notify", description = "show what is new as a notification on your desktop")
    boolean notify;

    @Option(
            names = "--with",
            paramLabel = "systemd|cron|launchd|schtasks",
            description = "which scheduler (default: the first that runs here)")
    @Nullable
    String with;

    @Override
    boolean needsLedger() {
        return false;
    }

    @Override
    public Integer call() {
        CommandContext context = context();
        Machine machine = new Machine(context.terminal().environment());
        try {
            if (what.remove) {
                return remove(context, machine);
            }
            if (folders.isEmpty()) {
                throw CliError.usage("no folder is named", "say where your exports arrive: chainage nightly ~/exports");
            }
            return what.run
                    ? new Night(context, root().runner(), folders, page, calendar, new Herald(machine, then, notify))
                            .run(NightFiles.of(machine))
                    : setUp(context, machine);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private Integer setUp(CommandContext context, Machine machine) throws IOException {
        for (Path f : folders) {
            if (!Files.isDirectory(f)) {
                throw new CliError(
                        ExitCode.NO_SUCH_FILE, "\"" + f + "\" is no folder", "make it, or name the one you export to");
            }
        }
        if (notify && !Herald.hasDesktop(machine)) {
            throw new CliError(
                    ExitCode.CONFIGURATION,
                    "nothing here can show a notification: neither notify-send nor osascript is there",
                    "install one (Debian: libnotify-bin), or name a command of yours with --then");
        }
        Scheduler scheduler = scheduler(machine);
        NightFiles files = NightFiles.of(machine);
        Job job = job(context, files);
        if (!what.install) {
            context.out().line("This would be set up with " + scheduler.word() + ":");
            scheduler.plan(machine, job).forEach(l -> context.out().line(l));
            context.say("nothing written; to set it up add --install");
            return ExitCode.OK.code();
        }
        try {
            scheduler.install(machine, job);
        } catch (IOException e) {
            throw new CliError(
                    ExitCode.CANNOT_CREATE,
                    scheduler.word() + " did not take it: " + e.getMessage(),
                    "nothing was left behind; another scheduler can be named with --with");
        }
        context.out().line("Set up with " + scheduler.word() + ": every night at " + job.time() + ".");
        if (!context.quiet()) {
            context.out().line("What it does is kept in " + files.log().toString());
            if (then == null && !notify && scheduler != Scheduler.CRON) {
                context.out().line("What it says is kept there alone; to hear it, add --notify or --then COMMAND.");
            }
            if (scheduler == Scheduler.SYSTEMD) {
                context.out().line("It runs while you are logged in; to have it always: loginctl enable-linger");
            }
            context.out().line("to take it away: chainage nightly --remove");
        }
        return ExitCode.OK.code();
    }

    private static Integer remove(CommandContext context, Machine machine) throws IOException {
        List<String> removed = new ArrayList<>();
        for (Scheduler s : Scheduler.values()) {
            if (s.remove(machine)) {
                removed.add(s.word());
            }
        }
        NightFiles.of(machine).remove();
        context.out()
                .line(
                        removed.isEmpty()
                                ? "Nothing was set up."
                                : "Taken away from " + String.join(", ", removed) + "; your ledger stays as it is.");
        return ExitCode.OK.code();
    }

    private Scheduler scheduler(Machine machine) {
        String named = with;
        if (named != null) {
            return Arrays.stream(Scheduler.values())
                    .filter(s -> s.word().equals(named))
                    .findFirst()
                    .orElseThrow(() -> CliError.usage(
                            "\"" + named + "\" is no scheduler we know", "use one of " + Scheduler.words(", ")));
        }
        return Arrays.stream(Scheduler.values())
                .filter(s -> s.usable(machine))
                .findFirst()
                .orElseThrow(() -> new CliError(
                        ExitCode.CONFIGURATION,
                        "none of " + Scheduler.words(", ") + " runs here for you",
                        "let whatever starts jobs on this machine call: "
                                + String.join(
                                        " ",
                                        job(context(), NightFiles.of(machine)).command())));
    }

    private Job job(CommandContext context, NightFiles files) {
        LocalTime at;
        try {
            at = LocalTime.parse(time, CLOCK);
        } catch (DateTimeParseException e) {
            throw CliError.usage("\"" + time + "\" is no time of day", "write it as 3:30 or 22:15");
        }
        List<String> command = new ArrayList<>(program());
        command.addAll(globals(context));
        command.addAll(List.of("nightly", "--run"));
        if (page != null) {
            command.addAll(List.of("--page", absolute(page)));
        }
        if (calendar != null) {
            command.addAll(List.of("--calendar", absolute(calendar)));
        }
        if (then != null) {
            command.addAll(List.of("--then", then));
        }
        if (notify) {
            command.add("--notify");
        }
        folders.forEach(f -> command.add(absolute(f)));
        try {
            return new Job(command, at, System.getProperty("java.home", ""), files.printed());
        } catch (IllegalArgumentException e) {
            throw CliError.usage(
                    "a path or the command holds a line break or a control character",
                    "rename it, or put the command into a script");
        }
    }

    /** How this program was started, so that the scheduler can do the same. */
    private static List<String> program() {
        String started = System.getProperty("chainage.program", "");
        if (!started.isEmpty()) {
            return List.of(absolute(Path.of(started)));
        }
        Path java = Path.of(System.getProperty("java.home", ""), "bin", "java");
        String classes = Arrays.stream(System.getProperty("java.class.path", "").split(File.pathSeparator, -1))
                .map(p -> absolute(Path.of(p)))
                .collect(Collectors.joining(File.pathSeparator));
        return List.of(java.toString(), "-cp", classes, "chainage.cli.Main");
    }

    /** As the system understands it: behind a link, ".." is another folder than by the letter. */
    private static String absolute(Path path) {
        Path absolute = path.toAbsolutePath();
        for (Path name : absolute) {
            if (name.toString().equals("..")) {
                return real(absolute).toString();
            }
        }
        return absolute.normalize().toString();
    }

    /** Without links as far as it is there; a file that is yet to be made lies in a folder that is. */
    private static Path real(Path path) {
        try {
            return path.toRealPath();
        } catch (IOException e) {
            Path parent = path.getParent();
            return parent == null ? path : real(parent).resolve(Objects.requireNonNull(path.getFileName()));
        }
    }

    /** The global options that the rider gave, for every night. */
    private static List<String> globals(CommandContext context) {
        List<String> globals = new ArrayList<>(List.of("--ledger", absolute(context.ledgerPath())));
        Asked asked = context.asked();
        if (asked.units() != null) {
            globals.addAll(List.of("--units", asked.units()));
        }
        if (asked.zone() != null) {
            globals.addAll(List.of("--zone", asked.zone()));
        }
        return globals;
    }
}
