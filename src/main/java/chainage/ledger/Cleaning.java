package chainage.ledger;

import java.util.Arrays;
import java.util.Optional;

/** How thoroughly a chain was cleaned before a treatment. */
public enum Cleaning {
    NONE("none"),
    ON_BIKE("on-bike"),
    QUICK("quick"),
    DEEP("deep");

    private final String word;

    Cleaning(String word) {
        this.word = word;
    }

    public String word() {
        return word;
    }

    public static Optional<Cleaning> of(String word) {
        return Arrays.stream(values()).filter(c -> c.word.equals(word)).findFirst();
    }
}
