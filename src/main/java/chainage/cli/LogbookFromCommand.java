package chainage.cli;

import chainage.answer.imports.TableAnswer;
import chainage.bookkeeping.KnownWords;
import chainage.command.Action;
import chainage.command.CommandContext;
import chainage.host.OutputFile;
import chainage.intake.Inputs;
import chainage.logbook.Refusal;
import chainage.render.Columns;
import chainage.table.Part;
import chainage.table.Table;
import chainage.table.TableLines;
import chainage.typed.CliError;
import chainage.typed.ExitCode;
import chainage.typed.TypedTable;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "from",
        description = {
            "Make a logbook from a table of what you did: a row a fact, with its date, its chain, and what was done. Columns"
                    + " are found by what stands in them and by their headings; one that is headed like an option of the"
                    + " command, such as minutes or cleaning, becomes that option. What else a row holds becomes a note.",
            "Nothing is stated yet: look the lines over, then import the file. A spreadsheet program's own files are not"
                    + " read; save a copy as text with separators (CSV)."
        },
        footer = {
            "Examples:",
            "  chainage logbook from treatments.csv",
            "  chainage logbook from treatments.csv --dates day-first -o season.txt",
            "  chainage logbook from amber.csv --chain Amber --means \"gewachst=treat\""
        })
final class LogbookFromCommand extends Action {
    private static final String COLUMN = "COLUMN";

    @Parameters(
            index = "0",
            paramLabel = "TABLE",
            description = "a text with commas, semicolons or tabs, plain or gzipped")
    Path table = Path.of("");

    @Option(
            names = {"-o", "--output"},
            paramLabel = "FILE",
            description = "a new file for the lines (default: they are printed)")
    @Nullable
    Path output;

    @Option(
            names = "--date-column",
            paramLabel = COLUMN,
            description = "its heading, or its number from 1; so with the others; \"none\" for none")
    @Nullable
    String date;

    @Option(names = "--time-column", paramLabel = COLUMN, description = "time of day, where it stands apart")
    @Nullable
    String time;

    @Option(names = "--what-column", paramLabel = COLUMN, description = "what was done")
    @Nullable
    String what;

    @Option(names = "--chain-column", paramLabel = COLUMN, description = "the chain")
    @Nullable
    String chains;

    @Option(names = "--bike-column", paramLabel = COLUMN, description = "the bike")
    @Nullable
    String bikes;

    @Option(names = "--product-column", paramLabel = COLUMN, description = "what it was treated with")
    @Nullable
    String products;

    @Option(names = "--value-column", paramLabel = COLUMN, description = "what was measured")
    @Nullable
    String values;

    @Option(names = "--note-column", paramLabel = COLUMN, description = "your own words")
    @Nullable
    String notes;

    @Option(
            names = "--chain",
            paramLabel = "CHAIN",
            description = "of which chain the table is, where no column says so")
    @Nullable
    String chain;

    @Option(
            names = "--dates",
            paramLabel = "day-first|month-first",
            description = "how 3/4/2026 is meant (else told by the other dates, or refused)")
    @Nullable
    String dates;

    @Option(
            names = "--means",
            paramLabel = "WORD=DEED",
            description = "a word of yours for what was done: treat, install, remove, measure, noisy, damaged, retired,"
                    + " note, tag, buy, bike, chain, product, assign")
    List<String> means = List.of();

    @Override
    public List<Columns<?>> fields() {
        return List.of(TableAnswer.FIELDS);
    }

    @Override
    public boolean needsLedger() {
        return false;
    }

    @Override
    public Integer call() {
        CommandContext context = context();
        try {
            Table read = Table.of(Inputs.atMost(Table.LARGEST + 1, table), TableLines::isData);
            TableLines made = TableLines.of(
                    read,
                    new TableLines.Said(columns(read), chain, TypedTable.order(dates), TypedTable.meanings(means)),
                    KnownWords.of(context, context.ledger()));
            TableAnswer answer = new TableAnswer(table.toString(), output == null ? null : output.toString(), made);
            if (output != null) {
                OutputFile.make(output, answer.text());
            }
            if (!context.json()) {
                made.refused().forEach(r -> context.warn(table + ":" + r.number() + ": " + r.reason()));
            }
            context.show(answer, false);
            return (made.refused().isEmpty() ? ExitCode.OK : ExitCode.REFUSED).code();
        } catch (Refusal e) {
            throw new CliError(
                    ExitCode.REFUSED,
                    table + ": " + e.what(),
                    e.hint().isEmpty() ? "look at the table and at what you typed" : e.hint());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private Map<Part, Integer> columns(Table read) throws Refusal {
        Map<Part, @Nullable String> typed = new EnumMap<>(Part.class);
        typed.put(Part.DATE, date);
        typed.put(Part.TIME, time);
        typed.put(Part.WHAT, what);
        typed.put(Part.CHAIN, chains);
        typed.put(Part.BIKE, bikes);
        typed.put(Part.PRODUCT, products);
        typed.put(Part.VALUE, values);
        typed.put(Part.NOTE, notes);
        return TypedTable.columns(read, typed);
    }
}
