package chainage.cli;

import chainage.answer.imports.ExportsAnswer;
import chainage.answer.imports.ImportAnswer;
import chainage.command.Action;
import chainage.intake.ImportRun;
import chainage.render.Columns;
import chainage.typed.CliError;
import java.nio.file.Path;
import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "import",
        description = {
            "Read ride files: name the folder in which they arrive, each time anew; what is known is skipped. They are FIT,"
                    + " GPX and TCX, also as .gz and in .zip, in folders however deep.",
            "A file that chainage export wrote is brought in too, into an empty ledger or onto the same facts.",
            "A text file whose first line is \"chainage logbook\" is read as a logbook: each line a date and the words of a"
                    + " command (chainage explain logbook).",
            "A file that cannot be read is named, and tried again when it changes, or when a date in it is no longer ahead of the clock. Your files stay as they are."
        },
        footer = {
            "Examples:",
            "  chainage import ~/exports",
            "  chainage import 2026.zip reservoir-loop.fit",
            "  chainage import ~/exports --dry-run",
            "  chainage import ~/exports --table ~/exports/rides.csv",
            "",
            "To leave a folder's rides out: chainage assign --path FOLDER --not-a-ride"
        })
final class ImportCommand extends Action {
    @Parameters(arity = "1..*", paramLabel = "PATH", description = "files and folders")
    List<Path> paths = List.of();

    @Option(names = "--jobs", paramLabel = "N", description = "how many files to read at once (default: all cores)")
    int jobs = ImportRun.Wish.ALL_CORES;

    @Option(
            names = "--again",
            description = "read known files once more, to bring back what the disk has damaged (chainage check)")
    boolean again;

    @Option(names = "--dry-run", description = "say what would be imported, and write nothing")
    boolean dryRun;

    @Option(
            names = "--yes",
            description = "take back what a logbook no longer says, also where more than a third of it is gone")
    boolean yes;

    @Mixin
    RideTableOptions tables = new RideTableOptions();

    @Override
    public List<Columns<?>> fields() {
        return List.of(ImportAnswer.FIELDS, ExportsAnswer.FIELDS);
    }

    @Override
    public boolean needsLedger() {
        return false;
    }

    @Override
    public Integer call() {
        if (jobs < 1 || jobs > 256) {
            throw CliError.usage("--jobs " + jobs + " cannot be", "give 1 to 256");
        }
        ImportRun.Wish wish = new ImportRun.Wish(paths, tables.of(paths), jobs, again, dryRun, yes);
        return new ImportRun(context(), wish).run();
    }
}
