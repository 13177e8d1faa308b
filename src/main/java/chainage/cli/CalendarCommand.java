package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.Safety;
import chainage.answer.things.WrittenAnswer;
import chainage.calendar.CalendarText;
import chainage.calendar.Reminder;
import chainage.host.OutputFile;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.quantity.ContentDigest;
import chainage.quantity.PlainText;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.standing.Dates;
import chainage.standing.Standing;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
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
    /** Further ahead a day says nothing. */
    private static final Duration AHEAD = Duration.ofDays(365);

    @Mixin
    BikeChoice choice = new BikeChoice();

    @Option(
            names = {"-o", "--output"},
            paramLabel = "FILE",
            description = "where it goes (default: printed)")
    @Nullable
    Path output;

    @Override
    List<Columns<?>> fields() {
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
        List<Reminder> reminders = new ArrayList<>();
        for (Standing s : analysis.standings()) {
            if (s.bike() != null) {
                What treat =
                        new What("treat", "Treat ", s.treatBy(), s.treatment().used() >= 1 || s.dueBeforeNextRide());
                What replace =
                        new What("replace", "Replace ", s.replaceOn(), s.wear().used() >= 1);
                LocalDate treating = day(context, analysis, treat);
                LocalDate replacing = day(context, analysis, replace);
                // Nobody treats a chain that comes off.
                if (treating != null && (replacing == null || treating.isBefore(replacing))) {
                    String care = Safety.treating(s.exposure().product().method());
                    reminders.add(reminder(context, analysis, s, treat, treating, used(s), care));
                }
                if (replacing != null) {
                    reminders.add(reminder(context, analysis, s, replace, replacing, worn(s), Safety.REPLACING));
                }
            }
        }
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

    /**
     * Something to be reminded of.
     *
     * @param word names it in the event's identifier
     * @param deed begins the summary
     * @param dates null when none can be given
     * @param now true when it is due already
     */
    private record What(String word, String deed, @Nullable Dates dates, boolean now) {}

    private static Reminder reminder(
            CommandContext context,
            Analysis analysis,
            Standing s,
            What what,
            LocalDate day,
            String state,
            String care) {
        return new Reminder(
                uid(analysis.ledger(), s.chain(), what.word()),
                day,
                what.deed() + s.chain() + " (" + s.bike() + ")",
                range(context, what) + state + " Why: chainage due --why " + PlainText.typed(s.chain()) + "\n" + care);
    }

    private static String worn(Standing s) {
        return "Worn to "
                + Formatter.elongation(s.wear().elongationPercent().likely()) + " % of "
                + Formatter.elongation(s.wear().limitPercent()) + " %.";
    }

    private static String used(Standing s) {
        if (s.treatment().lifeMetres() == null) {
            return "It runs untreated.";
        }
        return "It has run " + Formatter.percent(s.treatment().used()) + " of the due distance of its treatment with "
                + s.exposure().product().product()
                + (s.dueBeforeNextRide() ? "; a usual ride would be too much for it." : ".");
    }

    private static @Nullable LocalDate day(CommandContext context, Analysis analysis, What what) {
        Dates dates = what.dates();
        Instant day = what.now() ? analysis.at() : dates == null ? null : dates.likely();
        return day == null || day.isAfter(analysis.at().plus(AHEAD))
                ? null
                : context.format().localDay(day);
    }

    private static String range(CommandContext context, What what) {
        if (what.now()) {
            return "Due now. ";
        }
        Dates dates = what.dates();
        return dates == null
                ? ""
                : "Between " + context.format().date(dates.low()) + " and "
                        + context.format().date(dates.high()) + ", if you ride as before. ";
    }

    /**
     * Names an event by the ledger's first fact and the number of the chain's, so that it stays the same when the chain
     * is renamed or the ledger moves, and is another in another rider's ledger.
     */
    private static String uid(Ledger ledger, String chain, String what) {
        List<Entry> facts = ledger.facts();
        long number = facts.stream()
                .filter(e ->
                        e.event() instanceof Event.ChainDescribed c && c.chain().equals(chain))
                .mapToLong(Entry::number)
                .min()
                .orElseThrow();
        String ledgersOwn = facts.get(0).recorded() + " " + number + " " + what;
        return ContentDigest.of(ledgersOwn.getBytes(StandardCharsets.UTF_8))
                        .hex()
                        .substring(0, 20) + "@chainage";
    }
}
