package chainage.cli;

import chainage.calendar.CalendarText;
import chainage.calendar.Reminder;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.quantity.ContentDigest;
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
import picocli.CommandLine.Option;

@Command(
        name = "calendar",
        description = {
            "Write the dates to treat and to replace as a calendar file (iCalendar), for the calendar you already use.",
            "Import it again after some rides: each date moves, none is doubled. A date more than a year ahead is left"
                    + " out. An earlier calendar of chainage is replaced, any other file stays as it is."
        },
        footer = {"Examples:", "  chainage calendar -o chains.ics", "  chainage calendar > chains.ics"})
final class CalendarCommand extends Action {
    /** Further ahead a day says nothing. */
    private static final Duration AHEAD = Duration.ofDays(365);

    @Option(
            names = {"-o", "--output"},
            paramLabel = "FILE",
            description = "where it goes (default: printed)")
    @Nullable
    Path output;

    @Override
    public Integer call() {
        Desk desk = desk();
        Picture picture = desk.picture();
        List<Reminder> reminders = new ArrayList<>();
        for (Standing s : picture.standings()) {
            if (s.bike() != null) {
                add(
                        reminders,
                        desk,
                        picture,
                        s,
                        new What("treat", "Treat ", s.treatBy(), s.treatment().used() >= 1),
                        Words.percent(s.treatment().used()) + " of its treatment with "
                                + s.exposure().product().product() + " is used up.",
                        Safety.treating(s.exposure().product().method()));
                add(
                        reminders,
                        desk,
                        picture,
                        s,
                        new What("replace", "Replace ", s.replaceOn(), s.wear().used() >= 1),
                        "Worn to "
                                + Words.elongation(s.wear().elongationPercent().likely()) + " % of "
                                + Words.elongation(s.wear().limitPercent()) + " %.",
                        Safety.REPLACING);
            }
        }
        String text = CalendarText.of(reminders, picture.at());
        if (output == null) {
            desk.out().print(text);
        } else {
            Copies.renew(output, CalendarText.PRODUCT, text);
            desk.say("written: " + Words.safe(output.toString()) + " (" + Words.count(reminders.size(), "date", "dates")
                    + ")");
        }
        return ExitCode.OK.code();
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

    private static void add(
            List<Reminder> reminders, Desk desk, Picture picture, Standing s, What what, String state, String care) {
        LocalDate day = day(desk, picture, what.dates(), what.now());
        if (day != null) {
            reminders.add(new Reminder(
                    uid(picture.ledger(), s.chain(), what.word()),
                    day,
                    what.deed() + s.chain() + " (" + s.bike() + ")",
                    range(desk, what.dates()) + state + " Why: chainage due --why " + Words.typed(s.chain()) + "\n"
                            + care));
        }
    }

    private static @Nullable LocalDate day(Desk desk, Picture picture, @Nullable Dates dates, boolean now) {
        Instant day = now ? picture.at() : dates == null ? null : dates.likely();
        return day == null || day.isAfter(picture.at().plus(AHEAD))
                ? null
                : LocalDate.ofInstant(day, desk.words().zone());
    }

    private static String range(Desk desk, @Nullable Dates dates) {
        return dates == null
                ? ""
                : "Between " + desk.words().date(dates.low()) + " and "
                        + desk.words().date(dates.high()) + ", as things go. ";
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
