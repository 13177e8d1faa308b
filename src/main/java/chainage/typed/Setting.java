package chainage.typed;

import chainage.ledger.Rule;
import chainage.quantity.Money;
import java.time.DateTimeException;
import java.time.ZoneId;
import java.util.List;
import java.util.Locale;
import java.util.SortedMap;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/**
 * How the program is to meet the rider, whatever the question. Each is declared once: help, list, completion and checks
 * follow from here.
 */
public final class Setting {
    /** How help writes a setting's name, by which a shell knows what to offer. */
    public static final String LABEL = "SETTING";

    /** The same of its value. */
    public static final String CHOICE = "CHOICE";

    public static final Setting UNITS = new Setting(
            "units",
            List.of("metric", "imperial"),
            "kilometres or miles; JSON is always metric",
            "metric",
            Setting::isListed,
            "are no units we know",
            "use metric or imperial");

    public static final Setting ZONE = new Setting(
            "zone",
            List.of(),
            "time zone of dates, such as Europe/Lisbon",
            "",
            Setting::isZone,
            "is no time zone",
            "use a name such as Europe/Lisbon or UTC");

    public static final Setting CURRENCY = new Setting(
            "currency",
            List.of(),
            "of prices that are typed without one, such as EUR",
            "",
            Setting::isCurrency,
            "is no currency we know",
            "use a code of three letters by ISO 4217, such as EUR");

    public static final Setting IGNORE = new Setting(
            "ignore",
            List.of(),
            "files and folders that import passes over, several if need be; * stands for anything, and rides that are in stay",
            "",
            Setting::isPattern,
            "names no file",
            "write a name such as trash or \"*.bak\"");

    /** It is kept as the factor that it is. */
    static final Setting DUE_RISK = new Setting(
            "due-risk",
            List.of(),
            "share of treatments that may be worn off when one is due, such as 0.1 for 1 in 10",
            "",
            (setting, typed) -> true,
            "",
            "");

    /** All of them, in the order of the list. */
    public static final List<Setting> ALL = List.of(UNITS, ZONE, CURRENCY, IGNORE, DUE_RISK);

    /** Tells whether a value may be one of a setting's. */
    private interface Check {
        boolean allows(Setting setting, String typed);
    }

    private final String word;
    private final List<String> listed;
    private final String meaning;
    private final String standard;
    private final Check check;
    private final String wrong;
    private final String hint;

    /**
     * A setting.
     *
     * @param word its name
     * @param listed all that it can be; empty where they cannot be listed
     * @param meaning a sentence without full stop
     * @param standard what it is where nobody set it; empty where that depends
     * @param wrong what is said of another value
     * @param hint what to write instead
     */
    Setting(String word, List<String> listed, String meaning, String standard, Check check, String wrong, String hint) {
        this.word = word;
        this.listed = listed;
        this.meaning = meaning;
        this.standard = standard;
        this.check = check;
        this.wrong = wrong;
        this.hint = hint;
    }

    public String word() {
        return word;
    }

    /** All that it can be; empty where they cannot be listed. */
    List<String> listed() {
        return listed;
    }

    public String meaning() {
        return meaning;
    }

    public String standard() {
        return standard;
    }

    /** The factor that it is kept as; null for one of its own. */
    @Nullable
    public String factor() {
        return this == DUE_RISK ? "due.risk" : null;
    }

    public static List<String> words() {
        return ALL.stream().map(Setting::word).toList();
    }

    /** All values that can be listed, for a shell to offer. */
    public static List<String> choices() {
        return ALL.stream().flatMap(s -> s.listed.stream()).toList();
    }

    public static Setting named(String typed) {
        String name = typed.strip().toLowerCase(Locale.ROOT);
        return ALL.stream()
                .filter(s -> s.word.equals(name))
                .findFirst()
                .orElseThrow(() -> CliError.usage(
                        "there is no setting \"" + typed + "\"",
                        Alike.hint(name, words(), "chainage settings lists them all")));
    }

    /**
     * A value as it is kept.
     *
     * @param where it was typed, to be told with what is wrong; empty for none
     */
    public String read(String where, String typed) {
        String value = this == UNITS
                ? typed.strip().toLowerCase(Locale.ROOT)
                : this == CURRENCY ? typed.strip().toUpperCase(Locale.ROOT) : typed.strip();
        if (!check.allows(this, value)) {
            throw CliError.usage(
                    (where.isEmpty() ? "" : where + " ") + "\"" + typed + "\" " + wrong,
                    this == UNITS ? Guesses.hint(Guesses.Of.UNITS, value, listed, hint) : hint);
        }
        return value;
    }

    /** The rider's own values; none where there are none, or where they mean nothing to this version of the program. */
    public List<String> in(SortedMap<String, List<String>> settings) {
        return settings.getOrDefault(word, List.of()).stream()
                .filter(v -> check.allows(this, v))
                .toList();
    }

    private static boolean isListed(Setting setting, String typed) {
        return setting.listed.contains(typed);
    }

    private static boolean isZone(Setting setting, String typed) {
        try {
            return !ZoneId.of(typed).getId().isEmpty();
        } catch (DateTimeException e) {
            return false;
        }
    }

    private static boolean isCurrency(Setting setting, String typed) {
        try {
            return Money.zero(typed).minor() == 0;
        } catch (IllegalArgumentException e) {
            return false;
        }
    }

    private static boolean isPattern(Setting setting, String typed) {
        return !typed.isBlank() && !typed.matches("[*/]+");
    }

    /** Tells which paths are passed over. */
    public static Predicate<String> ignored(SortedMap<String, List<String>> settings) {
        return IGNORE.in(settings).stream().map(p -> new Rule.Path(p).matcher()).reduce(path -> false, Predicate::or);
    }
}
