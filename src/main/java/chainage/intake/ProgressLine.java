package chainage.intake;

import chainage.command.CommandContext;
import chainage.importer.Options;
import chainage.render.Width;

/** One line on the terminal that says how far an import is; silent when nobody watches. */
final class ProgressLine implements Options.Progress {
    private static final int USUAL = 80;

    private final CommandContext context;
    private final boolean shown;
    private final int width;
    private int last = -1;

    public ProgressLine(CommandContext context) {
        this.context = context;
        int columns = context.terminal().columns();
        // The last column stays free: some terminals begin a new line behind it.
        this.width = (columns > 0 ? columns : USUAL) - 1;
        this.shown = context.terminal().errIsTerminal() && !context.quiet() && !context.json();
    }

    @Override
    public void at(int done, int total, String file) {
        int thousandth = (int) (1000L * done / Math.max(1, total));
        if (!shown || thousandth == last) {
            return;
        }
        last = thousandth;
        String line = done + " of " + total + "  " + file;
        context.terminal().err().print("\r" + Width.fitted(line, width));
        context.terminal().err().flush();
    }

    /** Takes the line away. */
    public void clear() {
        if (shown && last >= 0) {
            context.terminal().err().print("\r" + " ".repeat(width) + "\r");
            context.terminal().err().flush();
        }
    }
}
