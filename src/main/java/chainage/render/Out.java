package chainage.render;

import chainage.quantity.PlainText;
import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * Where answers are written for people: every line is made harmless for the terminal and broken to its width here, so
 * that nobody else has to think of either.
 */
public final class Out {
    /** Where no terminal tells its width, such as in a file. */
    public static final int USUAL = 80;

    /** What a figure is in, with the stop after it: no line begins with one. */
    private static final Pattern UNIT = Pattern.compile("(?:%|km|mi|km/h|mph|m|mm|W|ml|s|h)[.,;:)]*");

    private static final Pattern COMMAND = Pattern.compile("(?<=: )chainage [^;()]*$");

    private final PrintWriter to;
    private final int columns;
    private final boolean quiet;
    private final boolean colour;

    /** An outlet without colour. */
    public Out(PrintWriter to, int columns, boolean quiet) {
        this(to, columns, quiet, false);
    }

    /**
     * An outlet.
     *
     * @param to takes the lines
     * @param columns of the terminal; 0 where there is none: prose is then broken at 80, and no table is cut
     * @param quiet true to leave hints out
     * @param colour true where headings and what is due may stand out
     */
    public Out(PrintWriter to, int columns, boolean quiet, boolean colour) {
        this.to = to;
        this.columns = columns;
        this.quiet = quiet;
        this.colour = colour;
    }

    /** True where only the answer is wanted. */
    public boolean quiet() {
        return quiet;
    }

    /** An empty line. */
    public void line() {
        to.println();
    }

    /** A sentence; the spaces that it starts with set in the lines that it is broken into as well. */
    public void line(String text) {
        String line = text.stripLeading();
        line(text.length() - line.length(), line);
    }

    /** The same, set in by so many spaces. */
    public void line(int indent, String text) {
        to.println(wrapped(text, indent));
    }

    /** A sentence on what is to be done; one that cannot wait stands out. */
    public void advice(String text, boolean now) {
        String lines = wrapped(text, 0);
        to.println(
                now
                        ? lines.lines().map(l -> inked(Ink.LOUD, l)).collect(Collectors.joining(System.lineSeparator()))
                        : lines);
    }

    /** Several sentences, each on a line of its own. */
    public void lines(List<String> sentences) {
        sentences.forEach(this::line);
    }

    /** A sentence that only helps; left out where it is to be quiet. */
    public void hint(String text) {
        if (!quiet) {
            line(text);
        }
    }

    /** A line that stays one: a command to paste, or one entry of a list that other programs look through. */
    public void whole(String text) {
        to.println(PlainText.marked(text));
    }

    /** Text that has its own lines, such as a document or a stream for other programs. */
    public void text(String text) {
        to.print(text);
    }

    /** A table, cut to the terminal's width. */
    public void table(TextTable table) {
        table.print(this, columns);
    }

    /** An object for scripts. */
    public void json(Json json) {
        to.println(json.text());
    }

    /** A row of a table, whose cells were made harmless and fitted already. */
    void row(String text) {
        to.println(text);
    }

    /** A text in an ink, where there is any. */
    String inked(Ink ink, String text) {
        return colour ? ink.on(text) : text;
    }

    /**
     * What of a text stays on one line: a word, a figure with its unit, and a command at its end, which is there to be
     * copied.
     */
    private static List<String> words(String text) {
        Matcher m = COMMAND.matcher(text);
        boolean command = m.find();
        List<String> words = new ArrayList<>();
        for (String word : (command ? text.substring(0, m.start()).stripTrailing() : text).split(" ", -1)) {
            int last = words.size() - 1;
            if (last >= 0 && isFigure(words.get(last)) && UNIT.matcher(word).matches()) {
                words.set(last, words.get(last) + " " + word);
            } else {
                words.add(word);
            }
        }
        if (command) {
            words.add(m.group());
        }
        return words;
    }

    private static boolean isFigure(String word) {
        return !word.isEmpty() && Character.isDigit(word.charAt(word.length() - 1));
    }

    /** Breaks a text at spaces so that no line is longer than the terminal is wide, where its words allow it. */
    private String wrapped(String text, int indent) {
        int width = columns > 0 ? columns : USUAL;
        StringBuilder b = new StringBuilder(" ".repeat(indent));
        int column = 0;
        for (String word : words(PlainText.marked(text))) {
            int length = Width.of(word);
            if (column > 0 && indent + column + 1 + length > width) {
                b.append(System.lineSeparator()).append(" ".repeat(indent));
                column = 0;
            } else if (column > 0) {
                b.append(' ');
                column++;
            }
            b.append(word);
            column += length;
        }
        return b.toString();
    }
}
