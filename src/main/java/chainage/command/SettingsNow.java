package chainage.command;

import chainage.answer.things.SettingList;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.render.Answer;
import chainage.render.Formatter;
import chainage.typed.Setting;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** How the settings stand: what an option says, else the rider, else the default. */
public final class SettingsNow {
    private final CommandContext context;

    /** As a command meets them. */
    public SettingsNow(CommandContext context) {
        this.context = context;
    }

    /** All of them. */
    public Answer list() {
        Ledger ledger = context.ledger();
        return SettingList.LIST.of(
                Setting.ALL.stream().map(s -> row(ledger, s)).toList(), context.format(), SettingList.Row::meaning);
    }

    private SettingList.Row row(Ledger ledger, Setting setting) {
        @Nullable String asked = context.asked().of(setting);
        List<String> own = own(ledger, setting);
        SettingList.From from = asked != null
                ? SettingList.From.OPTION
                : own.isEmpty() ? SettingList.From.DEFAULT : SettingList.From.YOURS;
        List<String> values = switch (from) {
            case OPTION -> List.of(String.valueOf(asked));
            case YOURS -> own;
            case DEFAULT -> standard(setting);
        };
        return new SettingList.Row(setting.word(), values, from, setting.meaning());
    }

    /** The rider's own values; none where none were set. */
    public static List<String> own(Ledger ledger, Setting setting) {
        @Nullable String factor = setting.factor();
        if (factor == null) {
            return setting.in(ledger.settings());
        }
        Event.@Nullable FactorSet set = ledger.factors().get(factor);
        return set == null || set.value() == null ? List.of() : List.of(Formatter.number(set.value()));
    }

    /** What holds where nothing was set. */
    public List<String> standard(Setting setting) {
        @Nullable String factor = setting.factor();
        if (factor != null) {
            return List.of(Formatter.number(context.tables().factors().value(factor)));
        }
        if (setting == Setting.ZONE) {
            return List.of(context.terminal().clock().getZone().getId());
        }
        return setting.standard().isEmpty() ? List.of() : List.of(setting.standard());
    }
}
