package chainage.ledger;

import java.util.Arrays;
import java.util.Optional;

/** How a product treats a chain. The words are those of the trade. */
public enum Method {
    HOT_WAX("hot-wax", "hot-wax immersion"),
    LIQUID_WAX("liquid-wax", "liquid wax by immersion"),
    DRIP_WAX("drip-wax", "drip wax"),
    DRY_OIL("dry-oil", "dry oil"),
    WET_OIL("wet-oil", "wet oil"),
    GREASE("grease", "grease"),
    FACTORY("factory", "factory preservative"),
    NONE("none", "none, or unknown");

    private final String word;
    private final String words;

    Method(String word, String words) {
        this.word = word;
        this.words = words;
    }

    /** What the rider types; also the name of the plain product of this method, which needs no entry. */
    public String word() {
        return word;
    }

    /** In full, for people. */
    public String words() {
        return words;
    }

    /** Whether it leaves wax, which more of it melts into or flakes off with. */
    public boolean waxes() {
        return this == HOT_WAX || this == LIQUID_WAX || this == DRIP_WAX;
    }

    public static Optional<Method> of(String word) {
        return Arrays.stream(values()).filter(m -> m.word.equals(word)).findFirst();
    }
}
