package chainage.page;

import java.util.function.Function;

/**
 * A plot with its words.
 *
 * @param title what it shows, for those who do not see it
 * @param caption how to read it and what is to be seen, for everyone
 * @param wide for a desk
 * @param narrow the same for a hand, with letters of the same size
 */
public record Plot(String title, String caption, Drawing wide, Drawing narrow) {
    private static final int WIDE = 720;
    private static final int NARROW = 324;

    /** The same plot drawn at both widths. */
    static Plot of(String title, String caption, Function<Integer, Drawing> drawn) {
        return new Plot(title, Block.tied(caption), drawn.apply(WIDE), drawn.apply(NARROW));
    }
}
