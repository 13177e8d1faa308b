package chainage.answer.due;

import chainage.analysis.Analysis;
import chainage.answer.Safety;
import chainage.calendar.Reminder;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.quantity.ContentDigest;
import chainage.quantity.PlainText;
import chainage.render.Formatter;
import chainage.standing.Dates;
import chainage.standing.Standing;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** What a rider's calendar is told of: each chain's next date to treat it and to replace it. */
public final class Reminders {
    /** Further ahead a day says nothing. */
    private static final Duration AHEAD = Duration.ofDays(365);

    private final Analysis analysis;
    private final Formatter format;

    private Reminders(Analysis analysis, Formatter format) {
        this.analysis = analysis;
        this.format = format;
    }

    /** Of the chains that are on bikes; nothing further ahead than a year. */
    public static List<Reminder> of(Analysis analysis, Formatter format) {
        return new Reminders(analysis, format).all();
    }

    private List<Reminder> all() {
        List<Reminder> reminders = new ArrayList<>();
        for (Standing s : analysis.standings()) {
            if (s.bike() != null) {
                What treat =
                        new What("treat", "Treat ", s.treatBy(), s.treatment().used() >= 1 || s.dueBeforeNextRide());
                What replace =
                        new What("replace", "Replace ", s.replaceOn(), s.wear().used() >= 1);
                LocalDate treating = day(treat);
                LocalDate replacing = day(replace);
                // Nobody treats a chain that comes off.
                if (treating != null && (replacing == null || treating.isBefore(replacing))) {
                    String care = Safety.treating(s.exposure().product().method());
                    reminders.add(reminder(s, treat, treating, used(s), care));
                }
                if (replacing != null) {
                    reminders.add(reminder(s, replace, replacing, worn(s), Safety.REPLACING));
                }
            }
        }
        return reminders;
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

    private Reminder reminder(Standing s, What what, LocalDate day, String state, String care) {
        return new Reminder(
                uid(analysis.ledger(), s.chain(), what.word()),
                day,
                what.deed() + s.chain() + " (" + s.bike() + ")",
                range(what) + state + " Why: chainage due --why " + PlainText.typed(s.chain()) + "\n" + care);
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

    private @Nullable LocalDate day(What what) {
        Dates dates = what.dates();
        Instant day = what.now() ? analysis.at() : dates == null ? null : dates.likely();
        return day == null || day.isAfter(analysis.at().plus(AHEAD)) ? null : format.localDay(day);
    }

    private String range(What what) {
        if (what.now()) {
            return "Due now. ";
        }
        Dates dates = what.dates();
        return dates == null
                ? ""
                : "Between " + format.date(dates.low()) + " and " + format.date(dates.high())
                        + ", if you ride as before. ";
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
