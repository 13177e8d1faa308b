package chainage.command;

import chainage.render.Answer;
import chainage.render.Columns;
import chainage.render.CsvTable;
import chainage.typed.ExitCode;
import java.util.List;
import picocli.CommandLine.Option;

/** A command that changes nothing: its answer comes as text, as JSON or as a table for spreadsheets. */
public abstract class Question extends Action {
    @Option(names = "--csv", description = CsvTable.HELP)
    private boolean csv;

    /** Whether a table for spreadsheets was asked for. */
    public final boolean csv() {
        return csv;
    }

    public abstract Answer answer();

    @Override
    public abstract List<Columns<?>> fields();

    @Override
    public Integer call() {
        show(answer());
        return ExitCode.OK.code();
    }

    /** Prints the answer in the form that was asked for. */
    public final void show(Answer answer) {
        context().show(answer, csv);
    }
}
