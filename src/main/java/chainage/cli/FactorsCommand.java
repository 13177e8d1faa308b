package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.EventWords;
import chainage.answer.things.FactorList;
import chainage.command.Intended;
import chainage.command.Question;
import chainage.command.Write;
import chainage.exposure.Factors;
import chainage.exposure.Factors.Factor;
import chainage.ledger.Event;
import chainage.ledger.Method;
import chainage.render.Answer;
import chainage.render.Columns;
import chainage.typed.CliError;
import chainage.typed.TypedFactor;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "factors",
        description = {
            "Every default that the estimates start from, with its unit, its mark and its meaning; set one to what you"
                    + " know better, or go back to the table's.",
            "",
            "Marks: published, computed, common practice (no source), our guess, your own value."
        },
        subcommands = {FactorsCommand.Set.class, FactorsCommand.Reset.class},
        footer = {
            "Examples:",
            "  chainage factors",
            "  chainage factors wet",
            "  chainage factors set treatment.wet.hot-wax 5",
            "  chainage factors reset treatment.wet.hot-wax"
        })
final class FactorsCommand extends Question {
    @Parameters(
            index = "0",
            arity = "0..*",
            paramLabel = "WORD",
            description = "only rows whose key or meaning holds every one of these")
    List<String> sought = List.of();

    @Override
    public List<Columns<?>> fields() {
        return List.of(FactorList.LIST.fields());
    }

    @Override
    public Answer answer() {
        Factors table = context().tables().factors();
        Analysis analysis = context().analysis();
        return FactorList.of(
                table,
                table.with(analysis.ledger().factors()),
                analysis.factors(),
                sought,
                context().format());
    }

    @Command(
            name = "set",
            description = "Set a factor to your own value; every answer follows at once.",
            footer = {
                "Examples:",
                "  chainage factors set treatment.wet.hot-wax 5",
                "  chainage factors set life.hot-wax 280 --low 200 --high 380"
            })
    static final class Set extends Write {
        @Parameters(index = "0", paramLabel = "FACTOR")
        String key = "";

        @Parameters(index = "1", paramLabel = "VALUE", description = "in the factor's own unit")
        String value = "";

        @Option(
                names = "--low",
                paramLabel = "VALUE",
                description = "low end of its 80 %% interval (else as far below as the table's)")
        @Nullable
        String low;

        @Option(names = "--high", paramLabel = "VALUE", description = "high end of it")
        @Nullable
        String high;

        @Override
        public Intended plan(Analysis before) {
            Factor row = TypedFactor.row(context().tables().factors(), key);
            Event.FactorSet set = TypedFactor.set(row, value, low, high);
            return Intended.of(
                    set,
                    row.key() + ": " + FactorList.figure(before.factors().factor(row.key())) + " → "
                            + (EventWords.figure(set) + " " + FactorList.unit(row)).strip() + ", " + row.meaning());
        }
    }

    @Command(
            name = "reset",
            description = "Go back to the table's value.",
            footer = {"Examples:", "  chainage factors reset treatment.wet.hot-wax", "  chainage factors reset --all"})
    static final class Reset extends Write {
        @Parameters(index = "0", arity = "0..*", paramLabel = "FACTOR")
        List<String> keys = List.of();

        @Option(names = "--all", description = "every factor that you have set")
        boolean all;

        @Override
        public Intended plan(Analysis before) {
            if (keys.isEmpty() != all) {
                throw CliError.usage(
                        all ? "--all names every factor already" : "nothing says which factor",
                        "name factors, or give --all");
            }
            List<Event> events = new ArrayList<>();
            List<String> said = new ArrayList<>();
            for (String typed : all ? before.ledger().factors().keySet() : keys) {
                String key = Method.keyToday(typed);
                if (!before.ledger().factors().containsKey(key)) {
                    throw CliError.usage(
                            TypedFactor.row(context().tables().factors(), key).key() + " is the table's own value",
                            "there is nothing to go back from");
                }
                events.add(new Event.FactorSet(key, null, null, null));
                said.add(key + " is the table's again"
                        + (context().tables().factors().has(key)
                                ? ": "
                                        + FactorList.figure(
                                                context().tables().factors().factor(key))
                                : ""));
            }
            if (events.isEmpty()) {
                throw CliError.usage("you have set no factor", "chainage factors lists them all");
            }
            return new Intended(events, said);
        }
    }
}
