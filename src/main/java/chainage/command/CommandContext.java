package chainage.command;

import chainage.analysis.Analysis;
import chainage.analysis.Snapshot;
import chainage.analysis.Tables;
import chainage.answer.beside.NamedRides;
import chainage.answer.things.WrittenAnswer;
import chainage.attribution.AttributedRide;
import chainage.exposure.Factors;
import chainage.host.Resource;
import chainage.host.Terminal;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.quantity.LocalClock;
import chainage.quantity.Moment;
import chainage.quantity.PlainText;
import chainage.recall.Memory;
import chainage.recall.Recall;
import chainage.render.Answer;
import chainage.render.CsvTable;
import chainage.render.Formatter;
import chainage.render.Out;
import chainage.ride.LocalTimes;
import chainage.store.LedgerFile;
import chainage.typed.CliError;
import chainage.typed.ExitCode;
import chainage.typed.RideSelection;
import chainage.typed.Setting;
import chainage.typed.TypedMoment;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * What every command works with: the ledger, the clock, the units, and the two ways to use them, to answer and to
 * change.
 */
public class CommandContext {
    private final Runner runner;
    private final Terminal terminal;
    private final Out out;
    private final Out err;
    private final Path ledgerPath;
    private final Asked asked;
    private final Instant clock;
    private @Nullable Instant now;
    private final boolean json;
    private final boolean quiet;
    private final Tables tables;
    private @Nullable SortedMap<String, List<String>> settings;
    private @Nullable Formatter format;
    private final Meant meant = new Meant(new HashMap<>(), new HashMap<>());
    private final Memory memory;
    private String done = "";

    public CommandContext(Terminal terminal, Path ledgerPath, Asked asked, boolean json, boolean quiet, Runner runner) {
        this.runner = runner;
        this.terminal = terminal;
        this.out = new Out(terminal.out(), terminal.columns(), quiet, Colour.on(asked.color(), terminal));
        this.err = new Out(terminal.err(), Integer.MAX_VALUE, quiet);
        this.ledgerPath = ledgerPath;
        this.asked = asked;
        this.json = json;
        this.quiet = quiet;
        this.memory = new Memory(
                terminal.environment(),
                ledgerPath,
                asked.zone() + " " + terminal.clock().getZone());
        this.tables = new Tables(
                Factors.parse(Resource.text("/chainage/exposure/factors.tsv")),
                Resource.text("/chainage/condition/words.tsv"),
                memory);
        // What is done now is not done to the millisecond, and a second can be written in a logbook.
        this.clock = terminal.clock().instant().truncatedTo(ChronoUnit.SECONDS);
    }

    /** Where warnings go; a line is never broken, since other programs read them as well. */
    public Out err() {
        return err;
    }

    /** Where answers go. */
    public Out out() {
        return out;
    }

    /** What knows all commands. */
    public Runner runner() {
        return runner;
    }

    public Terminal terminal() {
        return terminal;
    }

    /** How figures and dates are written; once there is an analysis, with the clock of its rides. */
    public Formatter format() {
        if (format == null) {
            format = home();
        }
        return format;
    }

    private Formatter home() {
        return asked.format(settings(), terminal.clock().getZone());
    }

    /** What the options of every command say. */
    public Asked asked() {
        return asked;
    }

    /** What the rider settled for every command, by the setting's name. */
    public SortedMap<String, List<String>> settings() {
        if (settings == null) {
            settings = readSettings();
        }
        return settings;
    }

    /** A ledger that cannot be read is told of by the command that reads it. */
    private SortedMap<String, List<String>> readSettings() {
        if (Files.isRegularFile(ledgerPath)) {
            try (LedgerFile file = LedgerFile.openReadOnly(ledgerPath)) {
                return Ledger.of(file.entries()).settings();
            } catch (IOException | IllegalArgumentException e) {
                return Collections.emptySortedMap();
            }
        }
        return Collections.emptySortedMap();
    }

    /** The value of a setting of one; null where the rider left it. */
    @Nullable
    public String setting(Setting setting) {
        List<String> own = setting.in(settings());
        return own.isEmpty() ? null : own.get(0);
    }

    /** The instant as of which is answered. */
    public Instant now() {
        if (now == null) {
            now = asked.at() == null ? clock : asked.now(clock, home().clock());
        }
        return now;
    }

    public boolean json() {
        return json;
    }

    public boolean quiet() {
        return quiet;
    }

    public Path ledgerPath() {
        return ledgerPath;
    }

    public Tables tables() {
        return tables;
    }

    public Moment moment(String typed) {
        Moment moment = TypedMoment.of(typed, now(), format().clock());
        meant.moments.put(typed, moment);
        return moment;
    }

    public RideSelection rides(Analysis analysis) {
        List<AttributedRide> rides = analysis.rides();
        return new RideSelection(
                rides,
                rides.stream().map(AttributedRide::filed).toList(),
                format(),
                now(),
                List.of(),
                meant.rides::put);
    }

    /** What words of the command that can mean something else another time have meant now. */
    public Meant meant() {
        return meant;
    }

    /**
     * What typed words meant.
     *
     * @param moments by what was typed
     * @param rides ids, by the words that named them
     */
    public record Meant(Map<String, Moment> moments, Map<List<String>, List<String>> rides) {}

    /** How a fact is given another date. */
    public String redating(long entry, String on) {
        return "chainage redate " + entry + " --on " + PlainText.typed(on);
    }

    /** Says something beside the answer: a hint, a warning. */
    public void say(String line) {
        if (!quiet) {
            err.line(line);
        }
    }

    /** Says what must not be missed, also where it is to be quiet. */
    public void warn(String line) {
        err.line("chainage: " + line);
    }

    /** True when there is a ledger; an empty file is one whose making was cut short. */
    public boolean written() {
        try {
            BasicFileAttributes file = Files.readAttributes(ledgerPath, BasicFileAttributes.class);
            return !file.isRegularFile() || file.size() > 0;
        } catch (AccessDeniedException e) {
            // There may be one, and to say that there is none would be a fright.
            throw new UncheckedIOException(e);
        } catch (IOException e) {
            return false;
        }
    }

    /** Where there is no ledger yet; null where there is one. */
    @Nullable
    public String missing() {
        return Files.exists(ledgerPath) ? null : ledgerPath.toString();
    }

    /** All facts; none when there is no ledger yet. */
    public Snapshot load() {
        if (!written()) {
            return Snapshot.EMPTY;
        }
        try (LedgerFile file = openToRead()) {
            return load(file);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** All facts of an open ledger. */
    public Snapshot load(LedgerFile file) throws IOException {
        Snapshot all = file.load();
        loaded(all, file.state());
        return all;
    }

    /** Notes that these are all facts of the ledger in that state. */
    public void loaded(Snapshot all, String state) {
        memory.loaded(all, state);
    }

    /** What earlier commands worked out, without a look at the rides; empty where nothing is kept that holds now. */
    private Optional<Analysis> remembered() {
        Recall.Kept kept = memory.kept().orElse(null);
        if (kept == null) {
            return Optional.empty();
        }
        try (LedgerFile file = openToRead()) {
            List<Entry> entries = file.stated();
            settled(entries);
            if (!kept.holds(file.state(), now())) {
                return Optional.empty();
            }
            tell(kept.gist().told());
            return Optional.of(Analysis.recalled(entries, kept.gist(), tables, now(), this::analysis));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /**
     * What follows from all facts now.
     *
     * @param later keeps it for later commands; for when the answer is given
     */
    public record Known(Analysis analysis, Runnable later) {}

    /**
     * What follows from all facts now.
     *
     * @param brief whether what earlier commands worked out is enough, where it is kept
     */
    public Known known(boolean brief) {
        return (brief ? remembered() : Optional.<Analysis>empty())
                .map(analysis -> new Known(analysis, () -> {}))
                .orElseGet(() -> {
                    Snapshot facts = load();
                    Analysis all = analysis(facts);
                    return new Known(all, () -> remember(facts, all));
                });
    }

    /** Keeps what was worked out for later commands. */
    public void remember(Snapshot facts, Analysis analysis) {
        memory.keep(facts, analysis, format().clock());
    }

    /** From here on nothing is taken from what earlier commands worked out. */
    public void doubt() {
        memory.doubt();
    }

    /** Whether what is kept of these facts is what follows from them, once {@link #doubt doubted}. */
    public boolean remembersRightly(Snapshot facts, Analysis analysis) throws IOException {
        analysis.others();
        return memory.agrees(facts, analysis, format().clock()) && !memory.keptWrong();
    }

    /** Refuses to go on where there is no ledger. */
    public void mustBeWritten() {
        if (!written()) {
            throw new CliError(
                    ExitCode.NO_SUCH_FILE,
                    "there is no ledger at " + ledgerPath + " yet",
                    "import your rides first: chainage import FOLDER");
        }
    }

    /** The ledger, for reading only. */
    public LedgerFile openToRead() throws IOException {
        mustBeWritten();
        return LedgerFile.openReadOnly(ledgerPath, this::warn);
    }

    /** The ledger, for reading and writing; made where there is none. */
    public LedgerFile openToWrite() throws IOException {
        return LedgerFile.open(ledgerPath, this::warn);
    }

    /** Notes what was changed for good, such as "entry 5 is kept", should the answer get lost on its way. */
    public void done(String what) {
        done = what;
    }

    public String done() {
        return done;
    }

    /** The facts in force now; no ride is read. */
    public Ledger ledger() {
        if (!written()) {
            return Ledger.asOf(List.of(), now());
        }
        try (LedgerFile file = openToRead()) {
            return Ledger.asOf(file.stated(), now());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** What follows from all facts now. */
    public Analysis analysis() {
        return analysis(load());
    }

    /** Takes what the rider settled from what is stated. */
    private void settled(List<Entry> entries) {
        if (settings == null) {
            settings = Ledger.of(entries).settings();
        }
    }

    /** From here on dates are those that rides told of. */
    private void tell(Map<Instant, LocalClock.Told> rides) {
        Formatter home = home();
        format = new Formatter(home.imperial(), LocalClock.of(home.zone()).with(rides));
    }

    public Analysis analysis(Snapshot snapshot) {
        dateBy(snapshot);
        return Analysis.of(snapshot, tables, now());
    }

    /**
     * The same before a change: where the chains stand is taken from what earlier commands worked out, where that holds.
     *
     * @param snapshot all facts
     * @param state the ledger's, whose facts they are
     */
    public Analysis analysis(Snapshot snapshot, String state) {
        dateBy(snapshot);
        Supplier<Analysis> whole = () -> Analysis.of(snapshot, tables, now());
        return memory.kept()
                .filter(k -> k.holds(state, now()))
                .map(k -> Analysis.recalled(snapshot.entries(), k.gist(), tables, now(), whole))
                .orElseGet(whole);
    }

    /** From here on dates are those of the places where the rides were. */
    public void dateBy(Snapshot snapshot) {
        settled(snapshot.entries());
        Formatter home = home();
        format = new Formatter(home.imperial(), LocalTimes.of(snapshot.rides(), LocalClock.of(home.zone())));
    }

    /**
     * Carries out a change: plans it, refuses what would contradict the facts, writes it, and prints what moved and how
     * to take it back. Reading, deciding and writing are one transaction.
     *
     * @param by the command
     * @param plan from the analysis before to what is to be written
     * @param dryRun true to stop short of writing
     */
    public Integer change(StatedBy by, Function<Analysis, Intended> plan, boolean dryRun) {
        try {
            FactsChange change = new FactsChange(this);
            return dryRun ? change.rehearse(plan) : change.write(by, plan);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** What is written beside the ledger when facts are. */
    public interface Beside {
        /**
         * What a command states, with what is to be remembered of its being written.
         *
         * @param by the command, carried out upon what was before
         */
        List<Event> noted(StatedBy by, List<Event> events, Analysis before);

        /**
         * Writes what is to be written, once facts are kept.
         *
         * @param facts all that are kept
         */
        void bringUpToDate(LedgerFile ledger, List<Entry> facts);
    }

    /** Notes that facts are kept. */
    public void keep(List<Entry> written) {
        if (!written.isEmpty()) {
            done((written.size() == 1 ? "entry " : "entries ")
                    + written.stream().map(e -> String.valueOf(e.number())).collect(Collectors.joining(", "))
                    + (written.size() == 1 ? " is kept" : " are kept"));
        }
    }

    /** Gives an answer in the form that was asked for. */
    public Integer show(Answer answer, boolean csv) {
        if (csv && json) {
            throw CliError.usage("--json and --csv are two forms of one answer", "give one of them");
        }
        if (csv) {
            out.text(CsvTable.of(answer.json()));
        } else if (json) {
            out.json(answer.json());
        } else {
            answer.print(out);
        }
        return ExitCode.OK.code();
    }

    /**
     * The file that an answer for other programs goes to, null for standard output. That is asked for by a dash where it
     * would fill the screen of a person.
     *
     * @param output as it was typed; null where it was left out
     * @param what it is, such as {@code a page}
     */
    @Nullable
    public Path file(@Nullable Path output, String what) {
        if (output == null && terminal.columns() > 0 && terminal.errIsTerminal()) {
            throw CliError.usage(
                    what + " is not for a screen",
                    "name a file with -o, or let a program read it; -o - prints it all the same");
        }
        return output == null || output.toString().equals("-") ? null : output;
    }

    /** Says that a file was written: to scripts as their answer, to people beside it. */
    public Integer written(Path file, @Nullable Integer items, @Nullable Boolean opened, String said) {
        if (json) {
            try {
                out.json(new WrittenAnswer(file.toString(), Files.size(file), items, opened).json());
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        } else {
            say("written: " + said);
        }
        return ExitCode.OK.code();
    }

    /** Rides in a few words. */
    public String named(Analysis analysis, List<AttributedRide> rides) {
        return NamedRides.of(analysis, rides, format());
    }

    /** What is said beside a fact, worked out where somebody hears it. */
    public List<String> beside(Supplier<List<String>> said) {
        return said.get();
    }
}
