package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.things.SettingList;
import chainage.command.Intended;
import chainage.command.Question;
import chainage.command.SettingsNow;
import chainage.command.Write;
import chainage.exposure.Factors;
import chainage.ledger.Event;
import chainage.render.Answer;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.typed.CliError;
import chainage.typed.Setting;
import chainage.typed.TypedFactor;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "settings",
        description = {
            "What holds for every command: units, time zone, currency, how cautious to be, what to pass over. They are kept"
                    + " in the ledger.",
            "An option of a command goes before a setting, a setting before the default."
        },
        subcommands = {SettingsCommand.Set.class, SettingsCommand.Reset.class},
        footer = {
            "Examples:",
            "  chainage settings",
            "  chainage settings set units imperial",
            "  chainage settings set zone Europe/Lisbon",
            "  chainage settings set ignore trash \"*.bak\"",
            "  chainage settings reset units"
        })
final class SettingsCommand extends Question {
    @Override
    public List<Columns<?>> fields() {
        return List.of(SettingList.LIST.fields());
    }

    @Override
    public Answer answer() {
        return new SettingsNow(context()).list();
    }

    private static String words(List<String> values) {
        return values.isEmpty() ? "nothing" : String.join(", ", values);
    }

    @Command(
            name = "set",
            description = "Settle something for every command.",
            footer = {
                "Examples:",
                "  chainage settings set units imperial",
                "  chainage settings set due-risk 0.2",
                "  chainage settings set ignore trash \"*.bak\""
            })
    static final class Set extends Write {
        @Parameters(index = "0", paramLabel = Setting.LABEL, description = "its name, as chainage settings lists it")
        String name = "";

        @Parameters(index = "1..*", arity = "1..*", paramLabel = Setting.CHOICE, description = "what it is to be")
        List<String> typed = List.of();

        @Override
        public Intended plan(Analysis before) {
            Setting setting = Setting.named(name);
            if (typed.size() > 1 && setting != Setting.IGNORE) {
                throw CliError.usage(
                        setting.word() + " is one thing", "give it one value, and one with blanks in quotes");
            }
            List<String> was = SettingsNow.own(before.ledger(), setting);
            List<String> values;
            Event event;
            @Nullable String factor = setting.factor();
            if (factor == null) {
                values = typed.stream().map(t -> setting.read("", t)).distinct().toList();
                event = new Event.SettingSet(setting.word(), values);
            } else {
                Factors.Factor row = context().tables().factors().factor(factor);
                double value = TypedFactor.value(row, typed.get(0));
                values = List.of(Formatter.number(value));
                event = new Event.FactorSet(factor, value, null, null);
            }
            return Intended.of(
                    event,
                    setting.word() + ": " + words(was.isEmpty() ? new SettingsNow(context()).standard(setting) : was)
                            + " → " + words(values));
        }
    }

    @Command(
            name = "reset",
            description = "Go back to the default.",
            footer = {"Examples:", "  chainage settings reset units", "  chainage settings reset --all"})
    static final class Reset extends Write {
        @Parameters(index = "0", arity = "0..*", paramLabel = Setting.LABEL)
        List<String> names = List.of();

        @Option(names = "--all", description = "every setting that is yours")
        boolean all;

        @Override
        public Intended plan(Analysis before) {
            if (names.isEmpty() != all) {
                throw CliError.usage(
                        all ? "--all names every setting already" : "nothing says which setting",
                        "name settings, or give --all");
            }
            List<Event> events = new ArrayList<>();
            List<String> said = new ArrayList<>();
            for (String name : all ? Setting.words() : names) {
                Setting setting = Setting.named(name);
                if (!SettingsNow.own(before.ledger(), setting).isEmpty()) {
                    @Nullable String factor = setting.factor();
                    events.add(
                            factor == null
                                    ? new Event.SettingSet(setting.word(), List.of())
                                    : new Event.FactorSet(factor, null, null, null));
                    said.add(setting.word() + " is the default again: "
                            + words(new SettingsNow(context()).standard(setting)));
                } else if (!all) {
                    throw CliError.usage(setting.word() + " is the default", "there is nothing to go back from");
                }
            }
            if (events.isEmpty()) {
                throw CliError.usage("you have set nothing", "chainage settings lists them all");
            }
            return new Intended(events, said);
        }
    }
}
