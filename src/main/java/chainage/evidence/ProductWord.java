package chainage.evidence;

import java.util.Locale;

/** A product's word as it is held against another rider's: without regard to case and to how it is spaced. */
public final class ProductWord {
    private ProductWord() {}

    /** The same for all spellings that are one word. */
    public static String of(String typed) {
        return typed.strip().replaceAll("\\s+", " ").toLowerCase(Locale.ROOT);
    }
}
