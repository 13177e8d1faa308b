package chainage.cli;

import chainage.importer.Options;

/** One line on the terminal that says how far an import is; silent when nobody watches. */
final class ProgressLine implements Options.Progress {
    private static final int WIDTH = 79;

    private final CommandContext context;
    private final boolean shown;
    private int last = -1;

    ProgressLine(CommandContext context) {
        this.context = context;
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
        String cut = line.length() > WIDTH ? line.substring(0, WIDTH) : line + " ".repeat(WIDTH - line.length());
        context.terminal().err().print("\r" + cut);
        context.terminal().err().flush();
    }

    /** Takes the line away. */
    void clear() {
        if (shown && last >= 0) {
            context.terminal().err().print("\r" + " ".repeat(WIDTH) + "\r");
            context.terminal().err().flush();
        }
    }
}
