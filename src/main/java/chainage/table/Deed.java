package chainage.table;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;

/** What a row can say was done, as a command and the cells that are its words. */
public enum Deed {
    TREAT("treat", Part.CHAIN, Part.PRODUCT),
    INSTALL("install", Part.CHAIN, Part.BIKE),
    REMOVE("remove", Part.CHAIN),
    MEASURE("measure", Part.CHAIN, Part.VALUE),
    NOISY("remark", Part.CHAIN, Part.NOTE),
    DAMAGED("remark", Part.CHAIN, Part.NOTE),
    RETIRED("remark", Part.CHAIN, Part.NOTE),
    NOTE("remark", Part.CHAIN, Part.NOTE),
    TAG("tag", Part.VALUE),
    BUY("product buy", Part.PRODUCT),
    BIKE("bike add", Part.BIKE),
    CHAIN("chain add", Part.CHAIN),
    PRODUCT("product add", Part.PRODUCT),
    ASSIGN("assign");

    private final String command;
    private final List<Part> parts;

    Deed(String command, Part... parts) {
        this.command = command;
        this.parts = List.of(parts);
    }

    /** The command that states it, without the program's name. */
    public String command() {
        return command;
    }

    /** What is named behind the command, in order. */
    List<Part> parts() {
        return parts;
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
