package chainage.ledger;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** What a chain was like until it was treated anew, where the rider says so. */
public enum Heard {
    /** Its treatment was over: it had begun to be heard in the last ride. */
    NOISY,
    /** Nothing was to be heard yet. */
    QUIET;

    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    public static Optional<Heard> of(String word) {
        return Arrays.stream(values()).filter(h -> h.word().equals(word)).findFirst();
    }
}
