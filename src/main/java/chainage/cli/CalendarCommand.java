package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.due.Reminders;
import chainage.answer.things.WrittenAnswer;
import chainage.calendar.CalendarText;
import chainage.calendar.Reminder;
import chainage.command.Action;
import chainage.command.BikeChoice;
import chainage.command.CommandContext;
import chainage.host.OutputFile;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.typed.CliError;
import chainage.typed.ExitCode;
import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "calendar",
        description = {
            "Write the dates to treat and to replace as a calendar file (iCalendar), for the calendar you already use.",
            "Import it again after some rides: each date moves, none is doubled. A date more than a year ahead is left"
                    + " out, and so is the next treatment of a chain that is to be replaced first. An earlier calendar of"
                    + " chainage is replaced: a date in it that no longer holds is cancelled. Any other file stays as it"
                    + " is."
        },
        footer = {"Examples:", "  chainage calendar -o chains.ics", "  chainage calendar > chains.ics"})
final class CalendarCommand extends Action {
    @Mixin
    BikeChoice choice = new BikeChoice();

    @Option(
            names = {"-o", "--output"},
            paramLabel = "FILE",
            description = "where it goes (default: printed)")
    @Nullable
    Path output;

    @Override
    public List<Columns<?>> fields() {
        return List.of(WrittenAnswer.FIELDS);
    }

    @Override
    public Integer call() {
        return run(context());
    }

    Integer run(CommandContext context) {
        @Nullable Path file = context.file(output, "a calendar");
        if (file == null && context.json()) {
            throw CliError.usage("a calendar is no JSON", "name a file with -o, and --json says what was written");
        }
        Analysis analysis = choice.of(context.analysis());
        List<Reminder> reminders = Reminders.of(analysis, context.format());
        String name = "chainage" + (choice.bikes.isEmpty() ? "" : ": " + String.join(", ", choice.bikes));
        if (file == null) {
            context.out().text(CalendarText.of(name, reminders, List.of(), analysis.at()));
            return ExitCode.OK.code();
        }
        OutputFile.renew(
                file,
                CalendarText.PRODUCT,
                before -> CalendarText.of(name, reminders, CalendarText.announced(before), analysis.at()));
        return context.written(
                file,
                reminders.size(),
                null,
                file.toString() + " (" + Formatter.count(reminders.size(), "date", "dates") + ")");
    }
}
