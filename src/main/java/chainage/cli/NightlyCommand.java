package chainage.cli;

import chainage.answer.due.DueAnswer;
import chainage.command.Action;
import chainage.command.CommandContext;
import chainage.host.Herald;
import chainage.host.Machine;
import chainage.host.NightFiles;
import chainage.night.Night;
import chainage.night.NightSetUp;
import chainage.typed.CliError;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
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
    public boolean needsLedger() {
        return false;
    }

    @Override
    public Integer call() {
        CommandContext context = context();
        Machine machine = new Machine(context.terminal().environment());
        try {
            if (what.remove) {
                return NightSetUp.remove(context, machine);
            }
            if (folders.isEmpty()) {
                throw CliError.usage("no folder is named", "say where your exports arrive: chainage nightly ~/exports");
            }
            return what.run
                    ? new Night(context, folders, parts(), new Herald(machine, then, notify))
                            .run(NightFiles.of(machine))
                    : new NightSetUp(folders, time, page, calendar, then, notify, with)
                            .carryOut(context, machine, what.install);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** What is asked each night, once its rides are in. */
    private List<Night.Part> parts() {
        List<Night.Part> parts = new ArrayList<>();
        DueCommand due = new DueCommand();
        due.failIfDue = true;
        parts.add((context, heard) -> {
            DueAnswer answer = due.answer(context);
            answer.notices().forEach(heard);
            return due.tell(context, answer);
        });
        if (page != null) {
            PageCommand made = new PageCommand();
            made.output = page;
            parts.add((context, heard) -> made.run(context));
        }
        if (calendar != null) {
            CalendarCommand dates = new CalendarCommand();
            dates.output = calendar;
            parts.add((context, heard) -> dates.run(context));
        }
        return parts;
    }
}
