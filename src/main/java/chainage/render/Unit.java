package chainage.render;

import org.jspecify.annotations.Nullable;

/** What the values of a column are, which says how they are written and which way they are set. */
public enum Unit {
    /** A word or a sentence of ours. */
    WORD("text", false, false),
    /** A sentence that goes on below itself where the line would not fit. */
    PROSE("text", false, false),
    /** A name or title that a rider or a file gave. */
    NAME("text", false, false),
    /** A short word by which a thing is called up again, never cut. */
    ID("text", false, true),
    /** True or false. */
    TRUTH("true or false", false, true),
    /** A local date. */
    DAY("date", false, true),
    /** An instant, in UTC for scripts and in local time for people. */
    TIME("date and time", false, true),
    /** How many. */
    COUNT("number", true, true),
    METRES("metres", true, true),
    SECONDS("seconds", true, true),
    MINUTES("minutes", true, true),
    MILLILITRES("millilitres", true, true),
    WATTS("watts", true, true),
    JOULES("joules", true, true),
    KILOGRAMS("kilograms", true, true),
    SQUARE_METRES("square metres", true, true),
    DENSITY("kilograms a cubic metre", true, true),
    /** Elongation, per cent. */
    PERCENT("per cent", true, true),
    /** A part of a whole, 1 for all of it; per cent for people. */
    SHARE("share, 1 for all", true, true),
    /** A factor or a ratio. */
    TIMES("ratio", true, true),
    /** An amount with its currency. */
    MONEY("amount and currency", true, true),
    /** Other objects, each with columns of its own, or a list of words. */
    LIST("list", false, false);

    private final String words;
    private final boolean figure;
    private final boolean whole;

    Unit(String words, boolean figure, boolean whole) {
        this.words = words;
        this.figure = figure;
        this.whole = whole;
    }

    /** As documentation has it. */
    public String words() {
        return words;
    }

    /** Set flush right. */
    public boolean figure() {
        return figure;
    }

    /** Goes on in lines below rather than being cut. */
    boolean wrapped() {
        return this == PROSE;
    }

    /** Never cut to fit a line. */
    public boolean whole() {
        return whole;
    }

    /** How people read a value that nothing else is said of; a dash where there is none. */
    String shown(@Nullable Object value, Formatter format) {
        if (value == null) {
            return "–";
        }
        if (value instanceof java.time.Instant t) {
            return this == DAY ? format.date(t) : format.time(t);
        }
        if (value instanceof Number n && this != COUNT) {
            double v = n.doubleValue();
            return switch (this) {
                case METRES -> format.distance(v);
                case SHARE -> Formatter.percent(v);
                case PERCENT -> Formatter.elongation(v);
                case WATTS -> Formatter.fixed(v, 1);
                case TIMES -> Formatter.fixed(v, 2);
                case SECONDS, MINUTES, MILLILITRES, JOULES -> Formatter.fixed(v, 0);
                default -> Formatter.number(v);
            };
        }
        return value.toString();
    }
}
