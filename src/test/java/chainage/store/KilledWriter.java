package chainage.store;

import chainage.ledger.Event;
import chainage.store.file.Scratch;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A process that writes to a ledger, says after each fact how many there are, and waits with the ledger open to be
 * killed: what SIGKILL leaves on the disk no connection of the test's own process can leave.
 */
public final class KilledWriter implements AutoCloseable {
    private static final Instant NOW = Instant.parse("2026-03-01T08:00:00Z");

    private final Process process;
    private final BufferedReader said;

    private KilledWriter(Process process) {
        this.process = process;
        this.said = new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8));
    }

    /** The process: the ledger, how many facts to write, and "store", "plain" for past it, or "scratch". */
    public static void main(String[] args) throws Exception {
        Path path = Path.of(args[0]);
        int facts = Integer.parseInt(args[1]);
        if (args[2].equals("plain")) {
            plain(path, facts);
        } else if (args[2].equals("scratch")) {
            Files.writeString(Scratch.in(path).file("part"), "half of it");
        } else {
            LedgerFile ledger = LedgerFile.open(path);
            for (int n = 0; n < facts; n++) {
                long number =
                        ledger.append(List.of(new Event.Undone(1)), NOW).get(0).number();
                ledger.appendRides(List.of(LedgerFileTest.delivery((int) number)));
                System.out.println(number);
            }
        }
        System.out.println("written");
        Thread.sleep(600_000);
    }

    /** As a program of an older version did, which knew of no stamps. */
    private static void plain(Path path, int facts) throws SQLException {
        Connection connection = DriverManager.getConnection("jdbc:sqlite:" + path);
        try (Statement statement = connection.createStatement()) {
            statement.execute("pragma journal_mode = wal");
            for (int n = 0; n < facts; n++) {
                statement.executeUpdate("insert into entry select max(number) + 1, max(number) + 1, 0, 'undone',"
                        + " '{\"target\":1}' from entry");
            }
        }
    }

    /**
     * Starts one.
     *
     * @param how "store", "plain" for past the program's own store, or "scratch"
     */
    public static KilledWriter start(Path path, int facts, String how) throws IOException {
        return new KilledWriter(new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-cp",
                        System.getProperty("java.class.path"),
                        KilledWriter.class.getName(),
                        path.toString(),
                        Integer.toString(facts),
                        how)
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .start());
    }

    /** Waits until it has written all, or as many facts as given; how many there are by then. */
    public long await(long facts) throws IOException {
        long last = 0;
        for (@Nullable String line = said.readLine(); line != null; line = said.readLine()) {
            if (line.equals("written") || (last = Long.parseLong(line)) >= facts) {
                return last;
            }
        }
        throw new IOException("the writer ended by itself");
    }

    /** Waits until it has written all. */
    public long await() throws IOException {
        return await(Long.MAX_VALUE);
    }

    /** Kills it; how many facts it had said were written. */
    public long kill() throws IOException, InterruptedException {
        // Not by the process itself, which would close the stream with what it said.
        process.toHandle().destroyForcibly();
        process.waitFor();
        long last = 0;
        for (@Nullable String line = said.readLine(); line != null; line = said.readLine()) {
            last = line.matches("\\d+") ? Long.parseLong(line) : last;
        }
        return last;
    }

    @Override
    public void close() {
        process.destroyForcibly().onExit().join();
    }
}
