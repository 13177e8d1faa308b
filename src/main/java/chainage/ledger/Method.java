package chainage.ledger;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** How a product treats a chain. The words are those of the trade. */
public enum Method {
    HOT_WAX("hot-wax", "hot-wax immersion"),
    COLD_DIP_WAX("cold-dip-wax", "cold-dip wax"),
    DRIP_WAX("drip-wax", "drip wax"),
    DRY_LUBE("dry-lube", "dry lube"),
    WET_LUBE("wet-lube", "wet lube"),
    GREASE("grease", "grease"),
    FACTORY("factory", "factory grease"),
    NONE("none", "none, or unknown");

    /** Words of earlier versions, which ledgers, exports and scripts hold. */
    private static final Map<String, String> FORMERLY =
            Map.of("liquid-wax", "cold-dip-wax", "dry-oil", "dry-lube", "wet-oil", "wet-lube");

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
        return this == HOT_WAX || this == COLD_DIP_WAX || this == DRIP_WAX;
    }

    /** The method of a word, of this version or an earlier one. */
    public static Optional<Method> of(String word) {
        String now = today(word);
        return Arrays.stream(values()).filter(m -> m.word.equals(now)).findFirst();
    }

    /** All words, also those of earlier versions: no product may be called so. */
    public static List<String> allWords() {
        List<String> all = new ArrayList<>(FORMERLY.keySet());
        for (Method m : values()) {
            all.add(m.word);
        }
        return all;
    }

    /** The word of this version for one of an earlier version; any other word as it is. */
    static String today(String word) {
        return FORMERLY.getOrDefault(word, word);
    }

    /** The key of a factor as this version writes it: one that ends in a method may hold that method's earlier word. */
    public static String keyToday(String key) {
        int last = key.lastIndexOf('.') + 1;
        return key.substring(0, last) + today(key.substring(last));
    }
}
