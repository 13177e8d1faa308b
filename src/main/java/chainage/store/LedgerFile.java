package chainage.store;

import chainage.analysis.Snapshot;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.quantity.PlainText;
import chainage.ride.Ride;
import chainage.store.file.Disk;
import chainage.store.file.Failures;
import chainage.store.file.Folders;
import chainage.store.file.LedgerException;
import chainage.store.file.LeftLog;
import chainage.store.file.Schema;
import chainage.store.file.WholeFile;
import chainage.store.row.EventCodec;
import chainage.store.row.ExportFormat;
import chainage.store.row.JsonRow;
import chainage.store.row.RowSum;
import chainage.store.row.Sql;
import java.io.IOException;
import java.io.InputStream;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.locks.LockSupport;
import java.util.function.Consumer;
import java.util.stream.Collectors;

/**
 * An open ledger. Facts are appended, never changed; a {@link Snapshot} of all of them is loaded in one piece.
 *
 * <p>For one thread; several threads or processes each open their own. Writers wait for each other, for a while.
 */
public final class LedgerFile implements AutoCloseable {
    /** How long a writer waits for another before it gives up as busy; our guess at a rider's patience. */
    private static final Duration PATIENCE = Duration.ofSeconds(10);

    /** So many damaged rows are named where answers are given; check names all. */
    private static final int NAMED = 3;

    /** Pause between two tries at what SQLite itself does not wait for; our guess. */
    private static final Duration RETRY = Duration.ofMillis(5);

    private final Path path;
    private final Connection connection;
    private final FactReader reader;
    private final FactWriter writer;
    private final Consumer<String> tell;
    private String state = "";
    private boolean open = true;
    private boolean toldLate;

    private LedgerFile(Path path, Connection connection, Consumer<String> tell) {
        this.path = path;
        this.tell = tell;
        this.connection = connection;
        this.reader = new FactReader(path, connection, this::tellLate);
        this.writer = new FactWriter(connection);
    }

    /** As {@link #open(Path, Consumer)}, where there is no one to tell. */
    public static LedgerFile open(Path path) throws IOException {
        return open(path, line -> {});
    }

    /**
     * Opens a ledger for reading and writing; makes the file, and the folders it lies in, when there is none.
     *
     * @param tell is told, a line each, what had to be done to what lay beside the file
     */
    public static LedgerFile open(Path path, Consumer<String> tell) throws IOException {
        return open(path, PATIENCE, new Schema(Schema.SCRIPTS), tell);
    }

    /** As {@link #open(Path)}, waiting for other writers no longer than given. */
    public static LedgerFile open(Path path, Duration patience) throws IOException {
        return open(path, patience, new Schema(Schema.SCRIPTS));
    }

    public static LedgerFile open(Path path, Duration patience, Schema schema) throws IOException {
        return open(path, patience, schema, line -> {});
    }

    private static LedgerFile open(Path given, Duration patience, Schema schema, Consumer<String> tell)
            throws IOException {
        Path path = Folders.real(given);
        boolean there = Files.exists(path);
        if (there) {
            Disk.refuseOtherFiles(path);
            Disk.refuseSecondName(path);
        } else {
            Folders.createFolders(Folders.folder(path));
            Folders.createPrivate(path);
        }
        return entered(path, tell, () -> connectToWrite(path, patience, schema, there));
    }

    private static Connection connectToWrite(Path path, Duration patience, Schema schema, boolean there)
            throws IOException {
        if (there) {
            // Looked at through a connection that cannot write, so that a file we refuse stays as it is.
            Folders.Stamp before = Folders.stamp(path);
            try {
                look(path, patience, schema, before.atRest());
            } catch (LedgerException e) {
                // A look at a file at rest takes no lock, so what another process writes meanwhile may seem broken.
                if (before.equals(Folders.stamp(path))) {
                    throw e;
                }
                look(path, patience, schema, false);
            }
            if (!Files.isWritable(path)) {
                throw Failures.notWritable(path, null);
            }
        }
        return finish(path, Disk.connect(path, patience, false, false), connection -> {
            RowSum.register(connection);
            schema.upgrade(connection, path);
            keepLog(connection, patience);
        });
    }

    /**
     * Turns the write-ahead log on, which stays on. For this one statement SQLite never waits: it would have to ask for
     * the whole file while it holds a part of it, so while others open the same new ledger it says busy at once.
     */
    private static void keepLog(Connection connection, Duration patience) throws SQLException {
        long end = System.nanoTime() + patience.toNanos();
        while (true) {
            try {
                execute(connection, "wal");
                return;
            } catch (SQLException e) {
                if (!Failures.isBusy(e) || System.nanoTime() > end) {
                    throw e;
                }
            }
            LockSupport.parkNanos(RETRY.toNanos());
        }
    }

    private static void look(Path path, Duration patience, Schema schema, boolean frozen) throws LedgerException {
        try (Connection look = Disk.connect(path, patience, true, frozen)) {
            schema.check(look, path);
        } catch (SQLException e) {
            throw Failures.failure(path, e);
        }
    }

    /** As {@link #openReadOnly(Path, Consumer)}, where there is no one to tell. */
    public static LedgerFile openReadOnly(Path path) throws IOException {
        return openReadOnly(path, new Schema(Schema.SCRIPTS));
    }

    /**
     * Opens a ledger for reading only; no fact is made or changed.
     *
     * @param tell is told, a line each, what had to be done to what lay beside the file
     * @throws NoSuchFileException when there is none
     */
    public static LedgerFile openReadOnly(Path path, Consumer<String> tell) throws IOException {
        return openReadOnly(path, new Schema(Schema.SCRIPTS), tell);
    }

    public static LedgerFile openReadOnly(Path path, Schema schema) throws IOException {
        return openReadOnly(path, schema, line -> {});
    }

    private static LedgerFile openReadOnly(Path given, Schema schema, Consumer<String> tell) throws IOException {
        Path path = Folders.real(given);
        if (!Files.exists(path)) {
            throw new NoSuchFileException(given.toString());
        }
        Disk.refuseOtherFiles(path);
        Disk.refuseSecondName(path);
        return entered(path, tell, () -> connectToRead(path, schema));
    }

    private static Connection connectToRead(Path path, Schema schema) throws IOException {
        return finish(path, connectWithoutWriting(path), connection -> {
            execute(connection, "query-only");
            int version = schema.check(connection, path);
            if (version < schema.version()) {
                throw new LedgerException(
                        LedgerException.Kind.READ_ONLY,
                        path + (version == 0 ? " holds nothing yet" : " is of an older version"),
                        "run a command that writes, such as import, to bring it up to date",
                        null);
            }
        });
    }

    /** Connects to a file that is only read, with its log where there is one. */
    static Connection connectWithoutWriting(Path path) throws IOException {
        // A connection that could write tidies the log away when it closes, one that cannot leaves two files behind. In
        // a folder that cannot be written SQLite cannot share the log's index; where there is no log, no one is
        // writing, and the file can be read without.
        boolean writable = Files.isWritable(Folders.folder(path)) && Files.isWritable(path);
        boolean frozen = !writable && Folders.isAtRest(path);
        return Disk.connect(path, PATIENCE, !writable, frozen);
    }

    private interface Step {
        void on(Connection connection) throws SQLException, IOException;
    }

    private interface Connecting {
        Connection connect() throws IOException;
    }

    /** Connects to a file once it is settled that what lies beside it is its own. */
    private static LedgerFile entered(Path path, Consumer<String> tell, Connecting connecting) throws IOException {
        LeftLog.enter(path, tell);
        boolean done = false;
        try {
            Object key = Folders.key(path);
            Connection connection = connecting.connect();
            // Another file may have been put in its place meanwhile (restore); this one is nobody's ledger any more.
            while (!key.equals(Folders.key(path))) {
                close(path, connection);
                key = Folders.key(path);
                connection = connecting.connect();
            }
            done = true;
            return new LedgerFile(path, connection, tell);
        } finally {
            if (!done) {
                LeftLog.leave(path);
            }
        }
    }

    private static Connection finish(Path path, Connection connection, Step step) throws IOException {
        boolean done = false;
        try {
            step.on(connection);
            done = true;
            return connection;
        } catch (SQLException e) {
            throw Failures.failure(path, e);
        } finally {
            if (!done) {
                close(path, connection);
            }
        }
    }

    /**
     * All facts, in one read transaction. Rows that are not as they were written, or that no one can have meant, are left
     * out, and the one who opened the ledger is told.
     */
    public Snapshot load() throws LedgerException {
        Snapshot snapshot = transaction("begin-read", reader::snapshot);
        tellWhatIsLeftOut();
        return snapshot;
    }

    /** What the rider stated, in the order of the numbers, without rides and without a word on what is damaged. */
    public List<Entry> entries() throws LedgerException {
        return transaction("begin-read", reader::entries);
    }

    /** As {@link #entries}, with a word on what is damaged. */
    public List<Entry> stated() throws LedgerException {
        List<Entry> entries = entries();
        tellWhatIsLeftOut();
        return entries;
    }

    /** Which state of the ledger was last read or written through this connection: each that is written has its own. */
    public String state() {
        return state;
    }

    /** How the file behind all links looks from outside: another where anything was written to it since. */
    public static String look(Path given) throws IOException {
        return Folders.stamp(Folders.real(given)).toString();
    }

    /** True when the file alone is the whole ledger, so that its look tells all that is in it. */
    public static boolean isAtRest(Path given) throws IOException {
        return Folders.isAtRest(Folders.real(given));
    }

    /** The file behind all links. */
    public static Path real(Path given) throws IOException {
        return Folders.real(given);
    }

    /** A ride by its shortest id. */
    public record Named(String id, Instant start, double metres) {}

    /** The rides that began last, the latest first. */
    public List<Named> latestRides(int most) throws LedgerException {
        return transaction("begin-read", () -> {
            List<Named> named = new ArrayList<>();
            try (PreparedStatement select = connection.prepareStatement(Sql.of("rides-latest"))) {
                select.setInt(1, most);
                try (ResultSet row = select.executeQuery()) {
                    while (row.next()) {
                        named.add(new Named(row.getString(1), Instant.ofEpochMilli(row.getLong(2)), row.getDouble(3)));
                    }
                }
            }
            return named;
        });
    }

    private void tellWhatIsLeftOut() {
        List<String> leftOut = reader.leftOut();
        if (!leftOut.isEmpty()) {
            tellLeftOut(leftOut.stream().limit(NAMED).collect(Collectors.joining("; "))
                    + (leftOut.size() > NAMED ? "; and " + (leftOut.size() - NAMED) + " more" : ""));
        }
    }

    /** The first of what is found once it is looked at; check names all. */
    private void tellLate(String what) {
        if (!toldLate) {
            toldLate = true;
            tellLeftOut(what);
        }
    }

    private void tellLeftOut(String what) {
        tell.accept(path + " is damaged, and what is damaged is left out: " + what + "; what to do: chainage check");
    }

    /**
     * Appends facts in one transaction.
     *
     * @return the entries as they are kept, instants cut to milliseconds
     */
    public List<Entry> append(List<Event> events, Instant recorded) throws LedgerException {
        return transaction("begin-write", () -> writer.entries(events, recorded));
    }

    /**
     * Reads, decides and appends in one transaction, so that no other process can write in between.
     *
     * @param decide what to append, given all facts; when it throws, nothing is written
     */
    public <T, X extends Exception> Written<T> update(Instant recorded, Decide<T, X> decide) throws LedgerException, X {
        return update(
                () -> {
                    Snapshot all = reader.snapshot();
                    tellWhatIsLeftOut();
                    return all;
                },
                recorded,
                decide);
    }

    /** As {@link #update}, from what is stated alone: without rides and weather. */
    public <T, X extends Exception> Written<T> updateFacts(Instant recorded, Decide<T, X> decide)
            throws LedgerException, X {
        return update(() -> Snapshot.of(reader.entries(), List.of(), Map.of()), recorded, decide);
    }

    private <T, X extends Exception> Written<T> update(
            Work<Snapshot, RuntimeException> load, Instant recorded, Decide<T, X> decide) throws LedgerException, X {
        return this.<Written<T>, X>transaction("begin-write", () -> {
            state = reader.state();
            Snapshot before = load.run();
            Decision<T> decision = decide.on(before);
            refuseAfterDamage(decision.events(), before.entries());
            return new Written<>(before, writer.entries(decision.events(), recorded), decision.answer());
        });
    }

    /** What notes the numbers of facts beside it must know where the numbers go on. */
    private void refuseAfterDamage(List<Event> events, List<Entry> before) throws LedgerException, SQLException {
        long next = before.isEmpty() ? 1 : before.get(before.size() - 1).number() + 1;
        if (next != writer.lastEntry() + 1 && events.stream().anyMatch(e -> e instanceof Event.LogbookRead)) {
            throw new LedgerException(
                    LedgerException.Kind.CORRUPT,
                    path + " is damaged in its last facts, so that no logbook is read",
                    "put a copy of it back (chainage restore COPY)",
                    null);
        }
    }

    /** A rule for what to append. */
    public interface Decide<T, X extends Exception> {
        Decision<T> on(Snapshot snapshot) throws X;
    }

    /**
     * What to append, and what to hand back.
     *
     * @param events in order; may be empty
     */
    public record Decision<T>(List<Event> events, T answer) {
        public Decision {
            events = List.copyOf(events);
        }
    }

    /**
     * What was appended.
     *
     * @param before all facts before
     * @param entries as they are kept
     * @param answer of the decision
     */
    public record Written<T>(Snapshot before, List<Entry> entries, T answer) {}

    /** Keeps a batch of files and their rides in one transaction; rides that are there already stay as they are. */
    public void appendRides(List<Delivery> batch) throws LedgerException {
        transaction("begin-write", () -> {
            writer.deliveries(batch);
            return batch.size();
        });
    }

    /**
     * Keeps the observations of one file in one transaction, with the entry that brought them; those that are known stay
     * as they are.
     *
     * @return the entry; empty when nothing was new
     */
    public <X extends Exception> Optional<Entry> appendWeather(WeatherFeed<X> feed, Instant recorded)
            throws LedgerException, X {
        return this.<Optional<Entry>, X>transaction("begin-write", () -> {
            Set<Long> inForce = Ledger.inForce(reader.entries()).stream()
                    .filter(e -> e.event() instanceof Event.WeatherAdded)
                    .map(Entry::number)
                    .collect(Collectors.toCollection(TreeSet::new));
            return writer.weather(feed, inForce, recorded);
        });
    }

    /**
     * What is remembered of every file read so far.
     *
     * @param latest no ride can start after this; files with dates that were refused as later, and are not, are left
     *     out, to be tried again
     */
    public SeenSources seen(Instant latest) throws LedgerException {
        return transaction("begin-read", () -> reader.seen(latest));
    }

    /** What the contents read so far recorded; asks this ledger, as long as it is open. */
    public Recordings recordings() {
        return new Recordings(this);
    }

    /** The contents with rides, by the starts of these. */
    Map<Instant, List<Long>> contentsByStart() throws LedgerException {
        return transaction("begin-read", reader::contentsByStart);
    }

    /** The rides of a content, by place in it. */
    List<Ride> ridesOf(long content) throws LedgerException {
        return transaction("begin-read", () -> reader.ridesOf(content));
    }

    /** Sources that were refused, whole or in part, by path. */
    public List<Source> refused() throws LedgerException {
        return transaction("begin-read", () -> reader.sources("sources-refused"));
    }

    /**
     * Writes all facts as lines of JSON, from one moment, row by row. The same facts give the same text.
     *
     * @throws IOException when {@code out} fails, or the ledger
     */
    public void export(Appendable out) throws IOException {
        this.<Boolean, IOException>transaction("begin-read", () -> {
            new ExportWriter(connection, reader).write(out);
            return true;
        });
        tellWhatIsLeftOut();
    }

    /**
     * As {@link #export(Appendable)}, into a file that only its owner reads.
     *
     * @param target where nothing may be yet; appears whole or not at all
     * @throws java.nio.file.FileAlreadyExistsException when something is there
     */
    public void export(Path target) throws IOException {
        write(target, this::export);
    }

    /** As {@link #exportInForce(Appendable)}, into a file as {@link #export(Path)} makes it. */
    public void exportInForce(Path target) throws IOException {
        write(target, this::exportInForce);
    }

    private interface Text {
        void to(Appendable out) throws IOException;
    }

    private static void write(Path target, Text text) throws IOException {
        WholeFile.whole(target, part -> {
            try (Writer out = Files.newBufferedWriter(part)) {
                text.to(out);
            }
        });
    }

    /**
     * Writes the facts in force, with all corrections made and without numbers: two ledgers that state the same give the
     * same text, whatever was taken back on the way. It cannot be brought in again.
     */
    public void exportInForce(Appendable out) throws IOException {
        Ledger ledger = Ledger.of(load().entries());
        out.append(new JsonRow()
                        .with("format", "chainage-facts")
                        .with("version", 1)
                        .toString())
                .append('\n');
        for (Entry e : ledger.facts()) {
            EventCodec.Encoded fact = EventCodec.encode(e.event());
            out.append(PlainText.escaped(new JsonRow()
                            .with("kind", fact.kind())
                            .with("fact", JsonRow.parse(fact.payload()))
                            .toString()))
                    .append('\n');
        }
    }

    /** True when these first bytes of a file promise an export; a few hundred are enough. */
    public static boolean promisesExport(byte[] head) {
        return ExportFormat.promises(head);
    }

    /**
     * Brings in an export, all of it or nothing. Rides are merged by content; facts only go on where those of the ledger
     * end.
     *
     * @param dryRun true to take everything back at the end
     * @throws ExportException when a line cannot be used, or states other facts than this ledger
     */
    public Restored restore(InputStream in, boolean dryRun) throws IOException, ExportException {
        try {
            execute(connection, "begin-write");
            long changes = changes();
            boolean keep = false;
            try {
                Restored restored = new ExportReader(connection, in).read();
                if (!dryRun) {
                    commit(changes);
                    keep = true;
                }
                return restored;
            } finally {
                if (!keep) {
                    Disk.rollback(connection);
                }
            }
        } catch (SQLException e) {
            throw failure(e);
        }
    }

    /**
     * Copies the ledger as it stands at this moment, also while others write, into one file that only its owner reads.
     *
     * @param target where nothing may be yet; appears whole or not at all
     * @throws java.nio.file.FileAlreadyExistsException when something is there
     */
    public void backup(Path target) throws IOException {
        WholeFile.whole(target, part -> {
            // Counts as writing, although it leaves this file alone; nothing else is asked of this connection by then.
            try (Statement allow = connection.createStatement();
                    PreparedStatement copy = connection.prepareStatement(Sql.of("copy"))) {
                allow.execute(Sql.of("query-any"));
                copy.setString(1, part.toString());
                copy.execute();
                allow.execute(Sql.of("query-only"));
            } catch (SQLException e) {
                throw Failures.failure(target, e);
            }
        });
    }

    /** What is wrong with the file itself and with single facts in it; empty for a sound one. */
    public List<Fault> integrityCheck() throws LedgerException {
        try {
            return transaction(
                    "begin-read", () -> new Inspection(reader, new Schema(Schema.SCRIPTS), connection).faults());
        } catch (LedgerException e) {
            if (e.kind() == LedgerException.Kind.CORRUPT) {
                return List.of(new Fault(e.what(), Fault.Remedy.COPY));
            }
            throw e;
        }
    }

    public Path path() {
        return path;
    }

    @Override
    public void close() throws LedgerException {
        if (open) {
            open = false;
            try {
                close(path, connection);
            } finally {
                LeftLog.leave(path);
            }
        }
    }

    private static void close(Path path, Connection connection) throws LedgerException {
        try {
            connection.close();
        } catch (SQLException e) {
            throw Failures.failure(path, e);
        }
    }

    /** Ends a transaction; where it changed rows since, it is another state of the ledger, with a stamp of its own. */
    private void commit(long changesBefore) throws SQLException {
        if (changes() != changesBefore) {
            execute(connection, "stamp-renew");
        }
        state = reader.state();
        execute(connection, "commit");
    }

    /** Rows that were changed through this connection. */
    private long changes() throws SQLException {
        try (Statement statement = connection.createStatement();
                ResultSet row = statement.executeQuery(Sql.of("changes"))) {
            return row.getLong(1);
        }
    }

    private interface Work<T, X extends Exception> {
        T run() throws SQLException, LedgerException, X;
    }

    private <T, X extends Exception> T transaction(String begin, Work<T, X> work) throws LedgerException, X {
        try {
            execute(connection, begin);
            long changes = changes();
            boolean done = false;
            try {
                T result = work.run();
                commit(changes);
                done = true;
                return result;
            } finally {
                if (!done) {
                    Disk.rollback(connection);
                }
            }
        } catch (SQLException e) {
            throw failure(e);
        }
    }

    /** Where a file refuses what it should take, it is damaged, or the mistake is ours. */
    private LedgerException failure(SQLException e) throws LedgerException {
        List<Fault> faults = Failures.isConstraint(e) ? integrityCheck() : List.of();
        return faults.isEmpty()
                ? Failures.failure(path, e)
                : new LedgerException(
                        LedgerException.Kind.CORRUPT,
                        path + " is damaged, so that nothing can be added: "
                                + faults.get(0).what(),
                        "see what is damaged, and what to do: chainage check",
                        e);
    }

    private static void execute(Connection connection, String statement) throws SQLException {
        try (Statement s = connection.createStatement()) {
            s.execute(Sql.of(statement));
        }
    }
}
