package chainage.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A piece of the page's running matter. */
public sealed interface Block {
    /** A paragraph. */
    record Words(Tone tone, String text) implements Block {
        public Words {
            text = tone == Tone.COMMAND ? text : tied(text);
        }
    }

    /** How a paragraph is said. */
    enum Tone {
        PLAIN,
        /** What to do, larger. */
        ADVICE,
        /** A caution. */
        CARE,
        /** A remark on how to read what stands above. */
        NOTE,
        /** What to type. */
        COMMAND;

        /** Its class in the style sheet. */
        public String look() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /** A list of lines. */
    record Lines(List<String> lines) implements Block {
        public Lines {
            lines = List.copyOf(lines);
        }
    }

    /**
     * What is out of sight until it is asked for.
     *
     * @param id what links point at; empty where none do
     * @param open whether it is in sight from the start
     */
    record Fold(String summary, List<Block> blocks, String id, boolean open) implements Block {
        public Fold {
            blocks = List.copyOf(blocks);
        }

        /** One that nothing leads to. */
        public Fold(String summary, List<Block> blocks) {
            this(summary, blocks, "", false);
        }
    }

    /** A table. */
    record Table(Grid grid) implements Block {}

    /** A plot. */
    record Figure(Plot plot) implements Block {}

    /** Something to fill in and send. */
    record Sheet(Form form) implements Block {}

    /** A link: what it leads to, in words, and where that is. */
    record Way(String text, String place) implements Block {}

    /** What has just happened, said before all else. */
    record Notice(List<Block> blocks) implements Block {
        public Notice {
            blocks = List.copyOf(blocks);
        }
    }

    /** The same with figures tied to what they count, so that no line ends between them. */
    static String tied(String text) {
        return text.replaceAll("(?<=\\d) (?=(?:%|km|mi)(?!\\w))", "\u00a0");
    }

    /**
     * A part of a text.
     *
     * @param day true for a date, which is never broken over two lines
     */
    record Piece(String text, boolean day) {}

    /** A date or a month as ISO 8601 writes it. */
    Pattern DAY = Pattern.compile("(?<![\\w-])\\d{4}-\\d\\d(?:-\\d\\d)?(?![\\w-])");

    /** A text cut where dates begin and end. */
    static List<Piece> pieces(String text) {
        List<Piece> pieces = new ArrayList<>();
        Matcher day = DAY.matcher(text);
        int from = 0;
        while (day.find()) {
            if (day.start() > from) {
                pieces.add(new Piece(text.substring(from, day.start()), false));
            }
            pieces.add(new Piece(day.group(), true));
            from = day.end();
        }
        if (from < text.length()) {
            pieces.add(new Piece(text.substring(from), false));
        }
        return pieces;
    }

    static Block words(String text) {
        return new Words(Tone.PLAIN, text);
    }

    static Block note(String text) {
        return new Words(Tone.NOTE, text);
    }
}
