package chainage.night;

import chainage.command.Asked;
import chainage.command.CommandContext;
import chainage.host.Herald;
import chainage.host.Job;
import chainage.host.Machine;
import chainage.host.NightFiles;
import chainage.host.Program;
import chainage.host.Scheduler;
import chainage.typed.CliError;
import chainage.typed.ExitCode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalTime;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * What is to be done every night, as a scheduler is told.
 *
 * @param folders where exports arrive
 * @param time when, as it was typed
 * @param page where it is written; null for none
 * @param calendar where it is written; null for none
 * @param then a command of the shell that hears what is new; null for none
 * @param notified whether the desktop shows what is new
 * @param with which scheduler; null for the first that runs here
 */
public record NightSetUp(
        List<Path> folders,
        String time,
        @Nullable Path page,
        @Nullable Path calendar,
        @Nullable String then,
        boolean notified,
        @Nullable String with) {
    private static final DateTimeFormatter CLOCK = DateTimeFormatter.ofPattern("H:mm", Locale.ROOT);

    /**
     * Says what would be set up, or sets it up; answers the exit code.
     *
     * @param install whether it is to be done
     */
    public Integer carryOut(CommandContext context, Machine machine, boolean install) throws IOException {
        for (Path f : folders) {
            if (!Files.isDirectory(f)) {
                throw new CliError(
                        ExitCode.NO_SUCH_FILE, "\"" + f + "\" is no folder", "make it, or name the one you export to");
            }
        }
        if (notified && !Herald.hasDesktop(machine)) {
            throw new CliError(
                    ExitCode.CONFIGURATION,
                    "nothing here can show a notification: neither notify-send nor osascript is there",
                    "install one (Debian: libnotify-bin), or name a command of yours with --then");
        }
        Scheduler scheduler = scheduler(context, machine);
        NightFiles files = NightFiles.of(machine);
        Job job = job(context, files);
        if (!install) {
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
            if (then == null && !notified && scheduler != Scheduler.CRON) {
                context.out().line("What it says is kept there alone; to hear it, add --notify or --then COMMAND.");
            }
            if (scheduler == Scheduler.SYSTEMD) {
                context.out().line("It runs while you are logged in; to have it always: loginctl enable-linger");
            }
            context.out().line("to take it away: chainage nightly --remove");
        }
        return ExitCode.OK.code();
    }

    /** Takes away whatever was set up; answers the exit code. */
    public static Integer remove(CommandContext context, Machine machine) throws IOException {
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

    private Scheduler scheduler(CommandContext context, Machine machine) {
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
                                        job(context, NightFiles.of(machine)).command())));
    }

    private Job job(CommandContext context, NightFiles files) {
        LocalTime at;
        try {
            at = LocalTime.parse(time, CLOCK);
        } catch (DateTimeParseException e) {
            throw CliError.usage("\"" + time + "\" is no time of day", "write it as 3:30 or 22:15");
        }
        List<String> command = new ArrayList<>(Program.command());
        command.addAll(globals(context));
        command.addAll(List.of("nightly", "--run"));
        if (page != null) {
            command.addAll(List.of("--page", Program.absolute(page)));
        }
        if (calendar != null) {
            command.addAll(List.of("--calendar", Program.absolute(calendar)));
        }
        if (then != null) {
            command.addAll(List.of("--then", then));
        }
        if (notified) {
            command.add("--notify");
        }
        folders.forEach(f -> command.add(Program.absolute(f)));
        try {
            return new Job(command, at, System.getProperty("java.home", ""), files.printed());
        } catch (IllegalArgumentException e) {
            throw CliError.usage(
                    "a path or the command holds a line break or a control character",
                    "rename it, or put the command into a script");
        }
    }

    /** The global options that the rider gave, for every night. */
    private static List<String> globals(CommandContext context) {
        List<String> globals = new ArrayList<>(List.of("--ledger", Program.absolute(context.ledgerPath())));
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
