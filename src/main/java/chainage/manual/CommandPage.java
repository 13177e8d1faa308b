package chainage.manual;

import java.util.ArrayList;
import java.util.List;

/**
 * A command as its help describes it.
 *
 * @param words of the command line that lead to it, from the program's own name on
 * @param synopsis lines that show how it is typed
 * @param description paragraphs
 * @param parameters in order
 * @param options in the order of the help, those of the whole program among them
 * @param examples lines to type, with what they do
 * @param notes paragraphs that stand below everything else
 * @param below its own commands
 */
public record CommandPage(
        List<String> words,
        List<String> synopsis,
        List<String> description,
        List<Item> parameters,
        List<Item> options,
        List<String> examples,
        List<String> notes,
        List<CommandPage> below) {
    public CommandPage {
        words = List.copyOf(words);
        synopsis = List.copyOf(synopsis);
        description = List.copyOf(description);
        parameters = List.copyOf(parameters);
        options = List.copyOf(options);
        examples = List.copyOf(examples);
        notes = List.copyOf(notes);
        below = List.copyOf(below);
    }

    /** Its last word. */
    String name() {
        return words.get(words.size() - 1);
    }

    /** What is typed behind the program's name to reach it; empty for the program. */
    String path() {
        return String.join(" ", words.subList(1, words.size()));
    }

    /** Its description up to the first full stop, without it. */
    String brief() {
        String all = description.isEmpty() ? "" : description.get(0);
        int stop = all.indexOf(". ");
        String first = stop < 0 ? all : all.substring(0, stop);
        return first.endsWith(".") ? first.substring(0, first.length() - 1) : first;
    }

    /** This one and all below it. */
    public List<CommandPage> all() {
        List<CommandPage> all = new ArrayList<>(List.of(this));
        below.forEach(c -> all.addAll(c.all()));
        return all;
    }
}
