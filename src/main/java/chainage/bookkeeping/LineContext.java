package chainage.bookkeeping;

import chainage.analysis.Analysis;
import chainage.attribution.AttributedRide;
import chainage.command.CommandContext;
import chainage.command.Intended;
import chainage.command.StatedBy;
import chainage.ledger.Event;
import chainage.quantity.Moment;
import chainage.render.Answer;
import chainage.render.Formatter;
import chainage.ride.FiledRide;
import chainage.typed.CliError;
import chainage.typed.ExitCode;
import chainage.typed.RideSelection;
import chainage.typed.TypedMoment;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.function.Function;
import java.util.function.Supplier;

/**
 * What a command works with that stands in a logbook: its line's time is the present, the rides of its day are meant where
 * none is named, and what it states is collected rather than written.
 */
final class LineContext extends CommandContext {
    private final List<Event> stated = new ArrayList<>();
    private final Function<Instant, Analysis> before;
    private final Supplier<List<FiledRide>> filed;
    private final CommandContext of;
    private Moment moment;

    /**
     * For the lines of one reading after the other.
     *
     * @param before what is stated before the line
     * @param filed the rides of that, without their verdicts
     */
    LineContext(CommandContext of, Function<Instant, Analysis> before, Supplier<List<FiledRide>> filed) {
        super(of.terminal(), of.ledgerPath(), of.asked(), false, true, of.runner());
        this.of = of;
        this.before = before;
        this.filed = filed;
        this.moment = new Moment(Instant.EPOCH, LocalDate.EPOCH, false);
    }

    /** Turns to a line. */
    void turnTo(Moment line) {
        moment = line;
        stated.clear();
    }

    /** What the line's command stated. */
    List<Event> stated() {
        return List.copyOf(stated);
    }

    @Override
    public Formatter format() {
        return of.format();
    }

    @Override
    public SortedMap<String, List<String>> settings() {
        return of.settings();
    }

    @Override
    public Instant now() {
        return moment.instant();
    }

    @Override
    public Moment moment(String typed) {
        return typed.strip().equalsIgnoreCase("now")
                ? moment
                : TypedMoment.of(typed, moment.instant(), format().clock());
    }

    @Override
    public RideSelection rides(Analysis analysis) {
        LocalDate day = moment.day();
        Instant end = moment.bareDate() ? format().clock().instant(day.atTime(LocalTime.MAX)) : moment.instant();
        return new RideSelection(
                analysis.rides(), filed.get(), format(), end, List.of(day.toString()), (typed, ids) -> {});
    }

    /** What has no number yet is a line as well. */
    @Override
    public String redating(long entry, String on) {
        return "change the date of the line that says so";
    }

    @Override
    public Integer change(StatedBy by, Function<Analysis, Intended> plan, boolean dryRun) {
        stated.addAll(plan.apply(before.apply(now())).events());
        return ExitCode.OK.code();
    }

    @Override
    public Integer show(Answer answer, boolean csv) {
        throw CliError.usage("this states no fact", "say in the line what was done");
    }

    /** What is said beside a fact is for who types it; thousands of lines would each work all out anew. */
    @Override
    public List<String> beside(Supplier<List<String>> said) {
        return List.of();
    }

    @Override
    public String named(Analysis analysis, List<AttributedRide> rides) {
        return Formatter.count(rides.size(), "ride", "rides");
    }
}
