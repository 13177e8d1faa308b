package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.EventWords;
import chainage.answer.things.MeterList;
import chainage.command.Intended;
import chainage.command.Question;
import chainage.command.Write;
import chainage.ledger.Event;
import chainage.ledger.MeterPlace;
import chainage.render.Answer;
import chainage.render.Columns;
import chainage.typed.CliError;
import chainage.typed.QuantityParser;
import chainage.typed.TypedMeter;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "meter",
        description = {
            "The power meters that your files name, how many recordings each wrote, and which were on one ride.",
            "",
            "A meter before the chain (pedals, cranks) and one behind it (hub, trainer) on one ride measure what the chain"
                    + " takes: chainage explain pairs."
        },
        subcommands = MeterCommand.Set.class,
        footer = {
            "Examples:",
            "  chainage meter",
            "  chainage meter set 31000417 --before-chain",
            "  chainage meter set fitness_equipment:52000118 --behind-chain"
        })
final class MeterCommand extends Question {
    @Override
    public List<Columns<?>> fields() {
        return List.of(MeterList.FIELDS);
    }

    @Override
    public Answer answer() {
        return MeterList.of(context().analysis(), context().format());
    }

    @Command(
            name = "set",
            description = "Say where a power meter sits.",
            footer = {
                "Examples:",
                "  chainage meter set 31000417 --before-chain",
                "  chainage meter set 52000118 --behind-chain --reads-high -0.4%%",
                "  chainage meter set 52000118 --withdraw"
            })
    static final class Set extends Write {
        @Parameters(
                index = "0",
                paramLabel = "METER",
                description = "its serial, or type and serial such as bike_power:31000417")
        String meter = "";

        @ArgGroup(multiplicity = "1")
        Where where = new Where();

        static final class Where {
            @Option(names = "--before-chain", description = "pedals, cranks or a spider: what you put in")
            boolean before;

            @Option(names = "--behind-chain", description = "a hub or a trainer: what the chain lets through")
            boolean behind;

            @Option(
                    names = "--not-recorded",
                    description = "its power is not what files hold, as of a trainer beside a meter that is recorded")
            boolean notRecorded;

            @Option(names = "--withdraw", description = "take your word on it back")
            boolean forget;
        }

        @Option(
                names = "--reads-high",
                paramLabel = "PERCENT",
                description =
                        "how much more than the truth it reads, by a calibration with known weights (less: -0.4%%)")
        @Nullable
        String readsHigh;

        @Override
        public Intended plan(Analysis before) {
            String[] named = TypedMeter.named(
                            meter,
                            () -> MeterList.of(before, context().format()).names())
                    .split(":", 2);
            String name = named[0] + ":" + named[1];
            if (where.forget) {
                if (!before.ledger().meters().containsKey(name)) {
                    throw CliError.usage("you have said nothing of " + name, "chainage meter lists all");
                }
                return Intended.of(
                        new Event.MeterPlaced(named[0], named[1], null, null),
                        "your word on " + name + " is withdrawn");
            }
            MeterPlace place = where.before
                    ? MeterPlace.BEFORE_CHAIN
                    : where.behind ? MeterPlace.BEHIND_CHAIN : MeterPlace.NOT_RECORDED;
            Double high = readsHigh == null ? null : QuantityParser.percent("--reads-high", readsHigh, -10, 10);
            Event.MeterPlaced placed = new Event.MeterPlaced(named[0], named[1], place, high);
            List<String> said =
                    new ArrayList<>(List.of(EventWords.of(placed, context().format())));
            said.addAll(context()
                    .beside(() -> before.rides().stream()
                                    .noneMatch(r -> r.filed().ride().devices().stream()
                                            .anyMatch(d -> d.name().equals(name)))
                            ? List.of("no ride names it yet")
                            : List.of()));
            return new Intended(List.of(placed), said);
        }
    }
}
