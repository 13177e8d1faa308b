package chainage.cli;

import chainage.host.Job;
import chainage.host.Machine;
import chainage.host.Scheduler;
import chainage.host.Terminal;
import java.io.File;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
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
            "Import what is new every night; print only when a chain is due or a file was refused.",
            "As it is, the command shows what it would set up, and writes nothing; --install sets it up for your user"
                    + " alone, --remove takes it away. A night missed while the machine was off is made up for where"
                    + " systemd runs."
        },
        footer = {
            "Examples:",
            "  chainage nightly ~/exports",
            "  chainage nightly ~/exports --install --page ~/chains.html",
            "  chainage nightly ~/exports --run    (one night's work, now)",
            "  chainage nightly --remove"
        })
final class NightlyCommand extends Action {
    /** Bytes after which the log makes room; our choice: some years of quiet nights. */
    private static final long LOG_BYTES = 1 << 20;

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
            names = "--with",
            paramLabel = "systemd|cron|launchd",
            description = "which scheduler (default: the first that runs here)")
    @Nullable
    String with;

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
            return what.run ? night(context, machine) : setUp(context, machine);
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
        Scheduler scheduler = scheduler(machine);
        Job job = job(context);
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
            context.out().line("What it does is kept in " + log(machine).toString());
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
        if (Files.deleteIfExists(log(machine))) {
            Files.deleteIfExists(older(log(machine)));
            Machine.deleteEmpty(folder(log(machine)));
        }
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
                            "\"" + named + "\" is no scheduler we know", "use systemd, cron or launchd"));
        }
        return Arrays.stream(Scheduler.values())
                .filter(s -> s.usable(machine))
                .findFirst()
                .orElseThrow(() -> new CliError(
                        ExitCode.CONFIGURATION,
                        "neither systemd nor cron nor launchd runs here for you",
                        "let whatever starts jobs on this machine call: "
                                + String.join(" ", job(context()).command())));
    }

    private Job job(CommandContext context) {
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
        folders.forEach(f -> command.add(absolute(f)));
        String home = Files.isExecutable(Path.of("/usr/bin/java")) ? "" : System.getProperty("java.home", "");
        try {
            return new Job(command, at, home);
        } catch (IllegalArgumentException e) {
            throw CliError.usage("a path holds a line break or a control character", "rename it first");
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

    /** One night: import, then what is due, then page and calendar; only what matters is printed, all of it is logged. */
    private Integer night(CommandContext context, Machine machine) throws IOException {
        StringBuilder log = new StringBuilder(context.format().time(context.now())).append('\n');
        List<Path> there = folders.stream().filter(Files::exists).toList();
        for (Path gone : folders) {
            if (!there.contains(gone)) {
                String line = "chainage: \"" + gone
                        + "\" is not there, so its rides wait for another night; mount it, or set up"
                        + " the night anew without it";
                context.out().line(line);
                log.append(line).append('\n');
            }
        }
        int code = there.size() < folders.size() ? ExitCode.NO_SUCH_FILE.code() : ExitCode.OK.code();
        if (!there.isEmpty()) {
            ImportCommand imports = new ImportCommand();
            imports.paths = there;
            Step imported = Step.of(context, c -> imports.run(c, root().runner()), log);
            if (imported.code() != ExitCode.OK.code()) {
                context.out().text(imported.err());
                code = imported.code();
            }
        }
        // What is known already is told whatever the night brought, unless the ledger itself is in trouble.
        if (code == ExitCode.OK.code() || code == ExitCode.REFUSED.code() || code == ExitCode.NO_SUCH_FILE.code()) {
            DueCommand due = new DueCommand();
            due.failIfDue = true;
            Step answered = Step.of(context, due::run, log);
            if (answered.code() != ExitCode.OK.code()) {
                context.out().text(answered.out() + answered.err());
            }
            for (Task task : madeAnew()) {
                Step made = Step.of(context, task, log);
                if (made.code() != ExitCode.OK.code()) {
                    context.out().text(made.err());
                }
            }
        }
        keep(log(machine), log.toString());
        return code;
    }

    private List<Task> madeAnew() {
        List<Task> tasks = new ArrayList<>();
        if (page != null) {
            PageCommand made = new PageCommand();
            made.output = page;
            tasks.add(made::run);
        }
        if (calendar != null) {
            CalendarCommand dates = new CalendarCommand();
            dates.output = calendar;
            tasks.add(dates::run);
        }
        return tasks;
    }

    /** What a command does. */
    private interface Task {
        Integer run(CommandContext context);
    }

    /**
     * A part of the night's work as it went.
     *
     * @param code exit code
     */
    private record Step(int code, String out, String err) {
        /** Does it as for the rider by day, and adds what it says to the log. */
        static Step of(CommandContext context, Task task, StringBuilder log) {
            StringWriter out = new StringWriter();
            StringWriter err = new StringWriter();
            Terminal t = context.terminal();
            Terminal heard = new Terminal(
                    new PrintWriter(out), new PrintWriter(err), false, t.columns(), t.environment(), t.clock());
            int code;
            try {
                code = task.run(new CommandContext(
                        heard, context.ledgerPath(), context.asked().kept(), false, false));
            } catch (RuntimeException e) {
                code = Errors.tell(heard, false, e);
            }
            heard.out().flush();
            heard.err().flush();
            log.append(out).append(err);
            return new Step(code, out.toString(), err.toString());
        }
    }

    /** Adds to the log, which makes room for itself. */
    private static void keep(Path log, String text) throws IOException {
        Files.createDirectories(folder(log));
        if (Files.exists(log) && Files.size(log) > LOG_BYTES) {
            Files.move(log, older(log), StandardCopyOption.REPLACE_EXISTING);
        }
        Files.writeString(log, text, StandardOpenOption.CREATE, StandardOpenOption.APPEND);
    }

    private static Path folder(Path log) {
        return Objects.requireNonNull(log.getParent());
    }

    private static Path older(Path log) {
        return log.resolveSibling(log.getFileName() + ".1");
    }

    private static Path log(Machine machine) {
        return machine.folder("XDG_STATE_HOME", ".local/state")
                .resolve("chainage")
                .resolve("nightly.log");
    }
}
