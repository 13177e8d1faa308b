package chainage.command;

import chainage.render.Width;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import picocli.CommandLine.Help;
import picocli.CommandLine.Help.Ansi.Text;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;

/** The help of a command, in which the options that every command has are told once, by the program's own help. */
final class OwnHelp extends Help {
    /** Help is read in lines of a book's width; the parser breaks no narrower. */
    private static final int NARROWEST = 60;

    private static final int WIDEST = 200;
    private static final int USUAL = 80;

    OwnHelp(CommandSpec spec, ColorScheme colours) {
        super(spec, colours);
    }

    /** How wide the help is on a terminal; 0 stands for none. */
    static int width(int columns) {
        return columns == 0 ? USUAL : Math.min(WIDEST, Math.max(NARROWEST, columns));
    }

    @Override
    protected Text createDetailedSynopsisOptionsText(
            Collection<ArgSpec> done, List<OptionSpec> options, Comparator<OptionSpec> sort, boolean cluster) {
        return super.createDetailedSynopsisOptionsText(done, own(options), sort, cluster);
    }

    @Override
    public String optionListExcludingGroups(
            List<OptionSpec> options, Layout layout, Comparator<OptionSpec> sort, IParamLabelRenderer labels) {
        return super.optionListExcludingGroups(own(options), layout, sort, labels);
    }

    @Override
    public String description(Object... params) {
        return wrapped(commandSpec().usageMessage().description());
    }

    @Override
    public String footer(Object... params) {
        return wrapped(commandSpec().usageMessage().footer())
                + (commandSpec().parent() == null
                        ? ""
                        : String.format(Locale.ROOT, "%nOptions of every command: chainage --help%n"));
    }

    /** Broken at spaces alone, where the parser would break a file's name; a command is there to be copied, and stays whole. */
    private String wrapped(String... formats) {
        int width = commandSpec().usageMessage().width();
        StringBuilder text = new StringBuilder();
        for (String format : formats) {
            String line = String.format(Locale.ROOT, format);
            String indent =
                    line.substring(0, line.length() - line.stripLeading().length());
            int column = 0;
            for (String word : line.startsWith("  chainage ") ? new String[] {line.strip()} : words(line)) {
                if (column > 0 && column + 1 + Width.of(word) > width) {
                    text.append(System.lineSeparator());
                    column = 0;
                }
                String before = column == 0 ? indent : " ";
                text.append(before).append(word);
                column += before.length() + Width.of(word);
            }
            text.append(System.lineSeparator());
        }
        return text.toString();
    }

    /** Several spaces in a row set words apart, as in a list. */
    private static String[] words(String line) {
        return line.strip().split("(?<! ) (?! )", -1);
    }

    private static List<OptionSpec> own(List<OptionSpec> options) {
        return options.stream()
                .filter(o -> !o.inherited() || o.command().parent() == null)
                .toList();
    }
}
