package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.EventWords;
import chainage.answer.things.RuleWords;
import chainage.answer.things.RulesAnswer;
import chainage.attribution.AttributedRide;
import chainage.command.CommandContext;
import chainage.command.Intended;
import chainage.command.Question;
import chainage.ledger.Event;
import chainage.ledger.Rule;
import chainage.ledger.Withdrawals;
import chainage.render.Answer;
import chainage.render.Columns;
import chainage.typed.CliError;
import chainage.typed.Names;
import chainage.typed.TypedRule;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "assign",
        description = {
            "Say which bike rides were on, or whether they are rides at all: for single rides, or by a rule for all rides"
                    + " that match, past and to come.",
            "Tried in this order, the first that applies wins: your word for a ride, a sensor, a path, a sub-sport, the"
                    + " default bike. Without arguments: the rules in force and the sensors seen."
        },
        footer = {
            "Examples:",
            "  chainage assign",
            "  chainage assign 2026-05-02 --bike Natterjack",
            "  chainage assign --sensor bike_power:31000417 --bike Dunlin",
            "  chainage assign --path commute --bike Natterjack   (a folder or file)",
            "  chainage assign --path \"runs/*\" --not-a-ride",
            "  chainage assign 3f9a0c21d7 --duplicate-of 8b1e77f0a2",
            "  chainage assign --path commute --withdraw",
            "  chainage assign --cyclist 10..60    (km/h, for files that state no sport)"
        })
final class AssignCommand extends Question {
    @Parameters(arity = "0..*", paramLabel = "RIDE", description = "ids, dates, ranges, last")
    List<String> selectors = List.of();

    @Option(names = "--sensor", paramLabel = "TYPE:SERIAL", description = "all rides with this sensor")
    @Nullable
    String sensor;

    @Option(
            names = "--path",
            paramLabel = "PATTERN",
            description = "all rides from such a folder or file name; * stands for anything")
    @Nullable
    String path;

    @Option(names = "--sub-sport", paramLabel = "WORD", description = "all rides of this sub-sport")
    @Nullable
    String subSport;

    @Option(
            names = "--cyclist",
            paramLabel = "KMH..KMH",
            description =
                    "median moving speeds at which an activity of unstated sport counts as a ride (default: 8..55)")
    @Nullable
    String cyclist;

    @ArgGroup(exclusive = true)
    @Nullable
    Verdict verdict;

    @Option(names = "--dry-run", description = "say what would change, and write nothing")
    boolean dryRun;

    /** What is said of the rides; one of them. */
    static final class Verdict {
        @Option(names = "--bike", paramLabel = "BIKE", description = "they were on this bike")
        @Nullable
        String bike;

        @Option(names = "--a-ride", description = "they are bike rides, whatever the file says")
        boolean aRide;

        @Option(names = "--not-a-ride", description = "they are not")
        boolean notARide;

        @Option(
                names = "--duplicate-of",
                paramLabel = "ID",
                description = "the ride records the same outing as that one")
        @Nullable
        String twinOf;

        @Option(names = "--not-a-duplicate", description = "the ride records an outing of its own")
        boolean notATwin;

        @Option(names = "--withdraw", description = "withdraw what was said")
        boolean withdraw;
    }

    @Override
    public boolean states() {
        return true;
    }

    @Override
    public List<Columns<?>> fields() {
        return List.of(RulesAnswer.FIELDS);
    }

    @Override
    public Answer answer() {
        return RulesAnswer.of(context().analysis(), context().format());
    }

    @Override
    public boolean needsLedger() {
        return false;
    }

    @Override
    public Integer call() {
        Rule.When when = TypedRule.when(sensor, path, subSport);
        if (cyclist != null) {
            if (when != null || verdict != null || !selectors.isEmpty()) {
                throw CliError.usage(
                        "--cyclist goes with nothing else", "write it alone: chainage assign --cyclist 8..55");
            }
            Event.SpeedBandSet band = TypedRule.band(cyclist);
            return change(
                    before -> Intended.of(band, EventWords.of(band, context().format())), dryRun);
        }
        if (verdict == null) {
            if (when != null || !selectors.isEmpty()) {
                throw CliError.usage(
                        "nothing is said of these rides", "add --bike BIKE, --not-a-ride or another; see --help");
            }
            return super.call();
        }
        Verdict v = verdict;
        if (when != null && !selectors.isEmpty()) {
            throw CliError.usage("both rides and a rule are named", "assign one of them at a time");
        }
        return change(before -> when == null ? rides(before, v) : rule(before, when, v), dryRun);
    }

    private Intended rule(Analysis before, Rule.When when, Verdict v) {
        String what = when.words();
        if (v.twinOf != null || v.notATwin) {
            throw CliError.usage(
                    "a rule cannot name duplicates", "name the ride: chainage assign ID --duplicate-of ID");
        }
        if (v.withdraw) {
            if (before.ledger().rules().stream().noneMatch(r -> r.when().equals(when))) {
                throw CliError.usage("there is no rule for " + what, "chainage assign lists the rules");
            }
            return Intended.of(new Event.RuleDropped(when), "rule withdrawn: " + what);
        }
        if (v.bike != null) {
            String bike = Names.riddenBike(before.ledger(), v.bike);
            return new Intended(
                    List.of(new Event.RuleSet(new Rule(when, bike, null))),
                    said(context(), before, when, "rule: " + what + " → " + bike));
        }
        return new Intended(
                List.of(new Event.RuleSet(new Rule(when, null, v.aRide))),
                said(context(), before, when, "rule: " + what + " → " + (v.aRide ? "a ride" : "not a ride")));
    }

    /** What a rule amounts to: how many activities it fits, and what it replaces. */
    private static List<String> said(CommandContext context, Analysis before, Rule.When when, String rule) {
        List<String> said = new ArrayList<>(List.of(rule));
        before.ledger().rules().stream()
                .filter(r -> r.when().equals(when))
                .forEach(r -> said.add("in place of the rule for the same condition until now"));
        said.addAll(context.beside(() -> RuleWords.unfit(before, when)));
        return said;
    }

    private Intended rides(Analysis before, Verdict v) {
        boolean all = v.aRide || v.notATwin || v.twinOf != null || v.withdraw;
        List<AttributedRide> rides = context().rides(before).select(selectors, Set.of(), all);
        List<String> ids = rides.stream().map(AttributedRide::id).toList();
        String named = context().named(before, rides);
        if (v.bike != null) {
            String bike = Names.riddenBike(before.ledger(), v.bike);
            List<String> said = new ArrayList<>();
            said.add(named + " on " + bike);
            said.addAll(RuleWords.offers(before, rides, bike));
            return new Intended(List.of(new Event.RidesAssigned(ids, bike)), said);
        }
        if (v.aRide || v.notARide) {
            return Intended.of(
                    new Event.RidesCounted(ids, v.aRide), named + (v.aRide ? ": counted as a ride" : ": not a ride"));
        }
        if (v.withdraw) {
            List<Event> events = Withdrawals.assigned(before.ledger(), ids);
            if (events.isEmpty()) {
                throw CliError.usage("you have said nothing of " + named, "nothing need be done");
            }
            return new Intended(events, List.of("your word on " + named + " is withdrawn"));
        }
        if (rides.size() != 1) {
            throw CliError.usage("duplicates are named one at a time", "name one ride by its id");
        }
        String id = ids.get(0);
        if (v.notATwin) {
            return Intended.of(new Event.TwinStated(id, id), named + ": an outing of its own");
        }
        String of = context()
                .rides(before)
                .select(List.of(String.valueOf(v.twinOf)), Set.of(), true)
                .get(0)
                .id();
        if (of.equals(id)) {
            throw CliError.usage("a ride cannot be its own duplicate", "to say that it has none: --not-a-duplicate");
        }
        List<Event> events = new ArrayList<>();
        if (before.ledger().twinOf(of).filter(id::equals).isPresent()) {
            // Else the two statements would go in a circle.
            events.add(new Event.TwinStated(of, null));
        }
        events.add(new Event.TwinStated(id, of));
        return new Intended(events, List.of(named + ": the same outing as " + of));
    }
}
