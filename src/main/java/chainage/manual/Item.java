package chainage.manual;

import java.util.List;

/**
 * An option or a parameter.
 *
 * @param names of an option, with their dashes; empty for a parameter
 * @param value what stands for the value, such as {@code FILE}; empty for an option that takes none
 * @param words what it is about; may be empty
 * @param choices every value that there is, where they can be listed; else empty
 */
public record Item(List<String> names, String value, String words, List<String> choices) {
    public Item {
        names = List.copyOf(names);
        choices = List.copyOf(choices);
    }

    boolean takesValue() {
        return !names.isEmpty() && !value.isEmpty();
    }
}
