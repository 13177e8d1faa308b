package chainage.cli;

import chainage.intake.RideTables;
import chainage.table.RideTable.Holds;
import chainage.typed.CliError;
import chainage.typed.ExitCode;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** Which table tells of an import's rides, and what its columns hold. */
final class RideTableOptions {
    private static final String COLUMN = "COLUMN";

    @Option(
            names = "--table",
            paramLabel = "FILE",
            description = "a table (CSV) that tells of the folder's rides: titles and notes tell of the road, bikes are"
                    + " assigned; it is read again at later imports of the folder")
    @Nullable
    Path table;

    @Option(
            names = "--file-column",
            paramLabel = COLUMN,
            description = "its column of file names, by heading or number (else found by the folder's files)")
    @Nullable
    String file;

    @Option(names = "--title-column", paramLabel = COLUMN, description = "of titles (else found by its heading)")
    @Nullable
    String title;

    @Option(names = "--notes-column", paramLabel = COLUMN, description = "of notes (else found by its heading)")
    @Nullable
    String notes;

    @Option(
            names = "--bike-column",
            paramLabel = COLUMN,
            description = "of bikes (else found by its heading, or by your bikes)")
    @Nullable
    String bike;

    /** The tables of an import of these folders; refuses what does not go together. */
    RideTables of(List<Path> roots) {
        boolean columns = Stream.of(file, title, notes, bike).anyMatch(Objects::nonNull);
        if (table == null && columns) {
            throw CliError.usage("columns are named, but no table", "name it: --table FILE");
        }
        if (table != null && roots.size() != 1) {
            throw CliError.usage(
                    "--table tells of the files of one folder, and " + roots.size() + " are named",
                    "import each with its own table");
        }
        if (table != null && !Files.isRegularFile(table)) {
            throw new CliError(
                    ExitCode.NO_SUCH_FILE, "\"" + table + "\" is no file", "name the table that tells of the rides");
        }
        return new RideTables(table, said());
    }

    private Map<Holds, String> said() {
        Map<Holds, String> said = new EnumMap<>(Holds.class);
        put(said, Holds.FILE, file);
        put(said, Holds.TITLE, title);
        put(said, Holds.NOTES, notes);
        put(said, Holds.BIKE, bike);
        return said;
    }

    private static void put(Map<Holds, String> said, Holds what, @Nullable String column) {
        if (column != null) {
            said.put(what, column);
        }
    }
}
