package chainage.answer.things;

import chainage.answer.Listing;
import chainage.render.Column;
import chainage.render.Columns;
import java.util.List;

/** How the program meets the rider. */
public final class SettingList {
    /** By whose word a setting is what it is. */
    public enum From {
        OPTION,
        YOURS,
        DEFAULT
    }

    /**
     * A setting.
     *
     * @param values in force; empty for nothing
     */
    public record Row(String name, List<String> values, From from, String meaning) {}

    public static final Listing<Row> LIST = new Listing<>(
            "settings",
            "in the order of the help",
            Columns.of(
                    Column.<Row>id("setting", "by which it is set", Row::name).head("SETTING"),
                    Column.<Row>list("values", "in force; none for nothing", Row::values)
                            .head("VALUE")
                            .as((r, format) -> r.values().isEmpty() ? "–" : String.join(", ", r.values())),
                    Column.<Row>word("from", "option of this command, yours, or default", r -> word(r.from()))
                            .head("FROM"),
                    Column.word("meaning", "what it stands for", Row::meaning)),
            "");

    private SettingList() {}

    private static String word(From from) {
        return switch (from) {
            case OPTION -> "option";
            case YOURS -> "yours";
            case DEFAULT -> "default";
        };
    }
}
