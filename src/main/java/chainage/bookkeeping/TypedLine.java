package chainage.bookkeeping;

import chainage.command.CommandContext;
import chainage.command.StatedBy;
import chainage.ledger.Event;
import chainage.ledger.Remark;
import chainage.logbook.Line;
import chainage.quantity.Moment;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.ParseResult;

/**
 * A command as it was typed, as the line of a logbook that states the same on any later day: its date stands before it,
 * and words such as yesterday or last have given way to what they meant. What the command went by and was not typed is
 * said, since another day it may go by something else.
 */
final class TypedLine {
    private static final String WHEN = "--on";
    private static final String CLEANING = "--cleaning";

    private final CommandContext context;
    private final List<Event> events;
    private final List<String> words = new ArrayList<>();
    private final List<String> options = new ArrayList<>();
    private Moment moment;

    private TypedLine(StatedBy by, List<Event> events, CommandContext context) {
        this.context = context;
        this.events = events;
        Instant clock = context.terminal().clock().instant().truncatedTo(ChronoUnit.SECONDS);
        moment = new Moment(clock, context.format().localDay(clock), false);
        ParseResult typed = by.typed();
        while (typed.hasSubcommand()) {
            typed = typed.subcommand();
            words.add(typed.commandSpec().name());
            take(typed);
        }
    }

    /**
     * The line of a command that has just been carried out.
     *
     * @param events what it states
     */
    static Line of(StatedBy by, List<Event> events, CommandContext context) {
        TypedLine typed = new TypedLine(by, events, context);
        typed.words.addAll(typed.options);
        return typed.moment.bareDate()
                ? new Line(1, typed.moment.day(), null, null, typed.words)
                : Line.of(typed.moment.instant(), context.format().clock(), typed.words);
    }

    private void take(ParseResult typed) {
        Map<String, Moment> moments = context.meant().moments();
        if (typed.commandSpec().findOption(WHEN) != null) {
            moment = moments.getOrDefault(typed.matchedOptionValue(WHEN, "now"), moment);
            events.forEach(this::exactly);
        }
        if (typed.commandSpec().findOption(CLEANING) != null && !typed.hasMatchedOption(CLEANING)) {
            events.stream()
                    .filter(Event.Treated.class::isInstance)
                    .map(Event.Treated.class::cast)
                    .findFirst()
                    .ifPresent(
                            t -> options.addAll(List.of(CLEANING, t.cleaning().word())));
        }
        for (OptionSpec o : typed.matchedOptions()) {
            if (o.inherited() || o.longestName().equals(WHEN)) {
                continue;
            } else if (o.arity().max() == 0) {
                options.add(o.longestName());
                continue;
            }
            for (String value : o.originalStringValues()) {
                Moment at = moments.get(value);
                options.add(o.longestName());
                options.addAll(at != null && o.paramLabel().equals("WHEN") ? List.of(said(at)) : meant(List.of(value)));
            }
        }
        List<String> positional = new ArrayList<>();
        for (PositionalParamSpec p : typed.matchedPositionals()) {
            positional.addAll(p.originalStringValues());
        }
        positional = meant(positional);
        if (positional.stream().anyMatch(w -> w.startsWith("-"))) {
            options.add("--");
            options.addAll(positional);
        } else {
            words.addAll(positional);
        }
    }

    /** A noise of a bare date is taken to be of the ride that was known then. */
    private void exactly(Event e) {
        if (e instanceof Event.Remarked r && r.remark() == Remark.NOISY) {
            moment = new Moment(r.at(), context.format().localDay(r.at()), false);
        }
    }

    /** The words with those that name rides, which come first, as ids. */
    private List<String> meant(List<String> typed) {
        for (Map.Entry<List<String>, List<String>> e : context.meant().rides().entrySet()) {
            int named = e.getKey().size();
            if (named > 0 && named <= typed.size() && typed.subList(0, named).equals(e.getKey())) {
                List<String> words = new ArrayList<>(e.getValue());
                words.addAll(typed.subList(named, typed.size()));
                return words;
            }
        }
        return typed;
    }

    private String said(Moment at) {
        LocalDateTime time = context.format().clock().time(at.instant());
        if (at.bareDate()) {
            return at.day().toString();
        }
        return context.format().clock().instant(time).equals(at.instant())
                ? time.toLocalDate() + " " + time.toLocalTime()
                : at.instant().toString();
    }
}
