package chainage.answer.cost;

import chainage.cost.Part;

/** Things with a price, or without, in words. */
public final class PartWords {
    private PartWords() {}

    public static String of(Part part) {
        return switch (part.kind()) {
            case PRODUCT -> part.name();
            case CHAIN -> "chain " + part.name();
            case CASSETTE -> "cassette of " + part.name();
            case RINGS -> "rings of " + part.name();
            case HOUR -> "the hour";
        };
    }
}
