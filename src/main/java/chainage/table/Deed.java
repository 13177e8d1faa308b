package chainage.table;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;

/** What a row can say was done, as a command and the cells that are its words. */
public enum Deed {
    TREAT("treat"),
    INSTALL("install"),
    REMOVE("remove"),
    MEASURE("measure"),
    NOISY("remark"),
    DAMAGED("remark"),
    RETIRED("remark"),
    NOTE("remark"),
    TAG("tag"),
    BUY("product buy"),
    BIKE("bike add"),
    CHAIN("chain add"),
    PRODUCT("product add"),
    ASSIGN("assign");

    private final String command;

    Deed(String command) {
        this.command = command;
    }

    /** The command that states it, without the program's name. */
    public String command() {
        return command;
    }

    /** What is named behind the command, in order. */
    List<Part> parts() {
        return switch (this) {
            case TREAT -> List.of(Part.CHAIN, Part.PRODUCT);
            case INSTALL -> List.of(Part.CHAIN, Part.BIKE);
            case REMOVE, CHAIN -> List.of(Part.CHAIN);
            case MEASURE -> List.of(Part.CHAIN, Part.VALUE);
            case NOISY, DAMAGED, RETIRED, NOTE -> List.of(Part.CHAIN, Part.NOTE);
            case TAG -> List.of(Part.VALUE);
            case BUY, PRODUCT -> List.of(Part.PRODUCT);
            case BIKE -> List.of(Part.BIKE);
            case ASSIGN -> List.of();
        };
    }

    /** As it is typed and told. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** The deed of its own word, or of its command. */
    public static Optional<Deed> called(String word) {
        String asked = Headings.plain(word);
        return Arrays.stream(values())
                .filter(d -> d.word().equals(asked) || d.command.equals(asked))
                .findFirst();
    }

    /** What a cell can mean: one deed where a cell is one of the words, else all of which it holds a word. */
    static Set<Deed> in(String cell) {
        String words = Headings.plain(cell);
        Set<Deed> some = EnumSet.noneOf(Deed.class);
        for (Deed d : values()) {
            for (String known : Headings.words(d.word())) {
                if (known.equals(words)) {
                    return EnumSet.of(d);
                }
                if ((" " + words + " ").contains(" " + known + " ")) {
                    some.add(d);
                }
            }
        }
        return some;
    }

    /** Whether the deed's own word stands behind the chain. */
    boolean remarks() {
        return command.equals("remark");
    }
}
