package chainage.cli;

import chainage.importer.Options;

/** One line on the terminal that says how far an import is; silent when nobody watches. */
final class ProgressLine implements Options.Progress {
    private static final int WIDTH = 79;

    private final Desk desk;
    private final boolean shown;
    private int last = -1;

    ProgressLine(Desk desk) {
        this.desk = desk;
        this.shown = desk.terminal().errIsTerminal() && !desk.quiet() && !desk.json();
    }

    @Override
    public void at(int done, int total, String file) {
        int thousandth = (int) (1000L * done / Math.max(1, total));
        if (!shown || thousandth == last) {
            return;
        }
        last = thousandth;
        String line = done + " of " + total + "  " + Words.safe(file);
        String cut = line.length() > WIDTH ? line.substring(0, WIDTH) : line + " ".repeat(WIDTH - line.length());
        desk.terminal().err().print("\r" + cut);
        desk.terminal().err().flush();
    }

    /** Takes the line away. */
    void clear() {
        if (shown && last >= 0) {
            desk.terminal().err().print("\r" + " ".repeat(WIDTH) + "\r");
            desk.terminal().err().flush();
        }
    }
}
