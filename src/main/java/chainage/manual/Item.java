package chainage.manual;

import java.util.List;

/**
 * An option or a parameter.
 *
 * @param names of an option, with their dashes; empty for a parameter
 * @param value what stands for the value, such as {@code FILE}; empty for an option that takes none
 * @param words what it is about; may be empty
 * @param choices values that there are, where they can be listed; else empty
 * @param live what else may stand there is asked from the program by this word; empty where nothing is
 * @param many whether more of it may follow
 */
public record Item(List<String> names, String value, String words, List<String> choices, String live, boolean many) {
    public Item {
        names = List.copyOf(names);
        choices = List.copyOf(choices);
    }

    boolean offers() {
        return !choices.isEmpty() || !live.isEmpty();
    }

    boolean takesValue() {
        return !names.isEmpty() && !value.isEmpty();
    }
}
