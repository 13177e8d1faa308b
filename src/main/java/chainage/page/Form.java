package chainage.page;

import java.util.List;
import java.util.Map;

/**
 * What the reader fills in and sends to whoever serves the page; a page in a file has none.
 *
 * @param id names it on its page; lower-case letters, digits and hyphens
 * @param fields in their order; may be empty
 * @param hidden what is sent along unseen, by name
 * @param buttons at least one; Enter presses the first
 * @param trouble what is wrong with the whole of it; empty where nothing is
 * @param asks whether it only asks, so that its answer has an address of its own
 */
public record Form(
        String id,
        List<Field> fields,
        Map<String, List<String>> hidden,
        List<Button> buttons,
        String trouble,
        boolean asks) {
    /** One that may change something. */
    public Form(String id, List<Field> fields, Map<String, List<String>> hidden, List<Button> buttons, String trouble) {
        this(id, fields, hidden, buttons, trouble, false);
    }

    public Form {
        fields = List.copyOf(fields);
        hidden = Map.copyOf(hidden);
        buttons = List.copyOf(buttons);
    }

    /** Whether it is sent with files in it. */
    public boolean hasFiles() {
        return fields.stream().anyMatch(f -> f.input() instanceof Input.Files);
    }

    /**
     * A button.
     *
     * @param text what it does
     * @param place where it sends the form
     */
    public record Button(String text, String place) {}

    /**
     * Something to fill in.
     *
     * @param name it is sent under
     * @param label in words
     * @param help what may be filled in; may be empty
     * @param input how
     * @param values what stands there already; may be empty
     * @param trouble what is wrong with it; empty where nothing is
     */
    public record Field(String name, String label, String help, Input input, List<String> values, String trouble) {
        public Field {
            values = List.copyOf(values);
        }

        /** The first value, or nothing. */
        public String value() {
            return values.isEmpty() ? "" : values.get(0);
        }

        /** What describes it, as ids within its form; empty where nothing does. */
        public String described(String form) {
            return (help.isEmpty() ? "" : form + "-" + name + "-help ")
                    + (trouble.isEmpty() ? "" : form + "-" + name + "-trouble");
        }
    }

    /** How something is filled in. */
    public sealed interface Input {
        /** A line of text. */
        record Line() implements Input {}

        /** One of several; the first is taken where none is said. */
        record One(List<Option> options) implements Input {
            public One {
                options = List.copyOf(options);
            }
        }

        /** Any of several. */
        record Several(List<Option> options) implements Input {
            public Several {
                options = List.copyOf(options);
            }
        }

        /** Yes or no. */
        record Tick() implements Input {}

        /**
         * Files, any number of them; where scripts run also folders that are dropped anywhere on the page.
         *
         * @param most bytes that may be sent at once
         */
        record Files(int most) implements Input {}

        /** A whole number between two, by a slider where scripts run. */
        record Slide(int from, int to, int step) implements Input {}
    }

    /**
     * One that may be chosen.
     *
     * @param value sent
     * @param label read
     */
    public record Option(String value, String label) {}
}
