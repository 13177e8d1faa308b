package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.analysis.Analysis;
import chainage.analysis.Snapshot;
import chainage.analysis.Tables;
import chainage.command.Asked;
import chainage.command.CommandContext;
import chainage.command.Errors;
import chainage.host.Terminal;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.typed.ExitCode;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

/** Undo is the way out of everything, also of a fact from which nothing can be worked out. */
class WayOutTest {
    private static final Instant NOW = Instant.parse("2026-06-01T12:00:00Z");

    @TempDir
    Path folder;

    private final StringWriter out = new StringWriter();

    private Path ledger() {
        return folder.resolve("ledger.sqlite");
    }

    /** A program that works nothing out as long as a bike is stated. */
    private CommandContext failing() {
        PrintWriter both = new PrintWriter(out);
        Terminal terminal = new Terminal(both, both, false, 0, Map.of(), Clock.fixed(NOW, ZoneOffset.UTC));
        return new CommandContext(terminal, ledger(), new Asked(null, "UTC", null, null), false, false, Main.RUNNER) {
            @Override
            public Analysis analysis(Snapshot snapshot) {
                Analysis sound = super.analysis(snapshot);
                boolean fails = Ledger.of(snapshot.entries()).inForce().stream()
                        .anyMatch(e -> e.event() instanceof Event.BikeDescribed);
                return fails
                        ? Analysis.of(snapshot, new Tables(tables().factors(), "a line that is no word"), now())
                        : sound;
            }
        };
    }

    private int run(String... words) {
        CommandContext context = failing();
        CommandLine line = Main.RUNNER.parser(context, words);
        line.setExecutionExceptionHandler((e, at, parsed) -> Errors.tell(context.terminal(), false, e, context.done()));
        return line.execute(words);
    }

    private List<Event> facts() {
        return failing().load().entries().stream().map(Entry::event).toList();
    }

    @Test
    void whatIsTakenBackIsWrittenBeforeAnythingIsWorkedOut() {
        Event bike = new Event.BikeDescribed("Dunlin", List.of(), List.of(), null);
        assertEquals(ExitCode.BUG.code(), run("bike", "add", "Dunlin"), out::toString);
        // Stated it is all the same, and the rider is told so.
        assertTrue(out.toString().contains("are kept all the same; please report"), out.toString());
        assertEquals(bike, facts().get(0));
        int stated = facts().size();
        assertEquals(0, run("log"), out::toString);
        assertEquals(0, run("undo", "--dry-run"), out::toString);
        assertEquals(stated, facts().size());
        assertEquals(0, run("undo"), out::toString);
        assertTrue(out.toString().contains("what this changes cannot be told"), out.toString());
        assertEquals(new Event.Undone(1), facts().get(stated));
        assertEquals(0, run("due"), out::toString);
    }
}
