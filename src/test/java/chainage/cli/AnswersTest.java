package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.answer.things.TopicAnswer;
import chainage.host.Terminal;
import chainage.render.Columns;
import java.io.PrintWriter;
import java.io.Writer;
import java.time.Clock;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import picocli.CommandLine;

/** What {@code explain json} says of the answers. */
class AnswersTest {
    /**
     * Commands that answer with no object of their own: what they print is a document or a stream, or they only start
     * other things.
     */
    private static final Set<String> WITHOUT =
            Set.of("backup", "calendar", "demo", "export", "install-self", "logbook", "nightly", "page");

    @Test
    void everyCommandThatAnswersHasItsFieldsThere() {
        Set<String> found = new TreeSet<>();
        PrintWriter nowhere = new PrintWriter(Writer.nullWriter());
        CommandLine root = new CommandLine(
                new Chainage(new Terminal(nowhere, nowhere, false, 0, Map.of(), Clock.systemUTC()), Main::run));
        Commands.addAllTo(root);
        root.getSubcommands().values().forEach(line -> bare(line, found));
        found.removeIf(c -> WITHOUT.contains(c.split(" ", -1)[0]));
        assertEquals(Set.of(), found);
    }

    private static void bare(CommandLine line, Set<String> found) {
        if (line.getCommand() instanceof Action a && a.fields().isEmpty()) {
            found.add(line.getCommandSpec().qualifiedName(" ").replaceFirst("^chainage ", ""));
        }
        line.getSubcommands().values().forEach(below -> bare(below, found));
    }

    @Test
    void everyFieldHasItsUnitAndMeaningAndStandsOnce() {
        List<TopicAnswer.Fields> answers = Commands.answers();
        assertTrue(answers.size() > 15, answers.size() + " answers");
        for (TopicAnswer.Fields a : answers) {
            List<Columns.Field> fields = a.columns().fields();
            assertFalse(fields.isEmpty(), a.commands().toString());
            Set<String> names = new HashSet<>();
            for (Columns.Field f : fields) {
                assertTrue(names.add(f.name()), a.commands() + " " + f.name());
                assertFalse(f.meaning().isBlank() || f.meaning().endsWith("."), a.commands() + " " + f.name());
            }
        }
        assertEquals(
                answers.size(),
                answers.stream()
                        .map(TopicAnswer.Fields::columns)
                        .collect(Collectors.toSet())
                        .size());
    }
}
