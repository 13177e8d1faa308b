package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import chainage.answer.things.TopicAnswer;
import chainage.command.Action;
import chainage.command.Chainage;
import chainage.host.Terminal;
import chainage.render.Columns;
import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import picocli.CommandLine;

/** What {@code explain json} says of the answers. */
class AnswersTest {
    /**
     * Commands that answer with no object of their own: they only start other things, or lead to commands below.
     */
    private static final Set<String> WITHOUT = Set.of("demo", "install-self", "logbook", "nightly");

    @Test
    void everyCommandThatAnswersHasItsFieldsThere() {
        Set<String> found = new TreeSet<>();
        PrintWriter nowhere = new PrintWriter(Writer.nullWriter());
        CommandLine root = new CommandLine(
                new Chainage(new Terminal(nowhere, nowhere, false, 0, Map.of(), Clock.systemUTC()), Main.RUNNER));
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

    /** What an answer holds under all its names: a list's objects under the name of the list. */
    private static void names(String of, Object value, Map<String, Set<Object>> found) {
        if (value instanceof Map<?, ?> object) {
            object.forEach((name, v) -> names(of.isEmpty() ? name.toString() : of + "." + name, v, found));
        } else if (value instanceof List<?> list && !list.isEmpty() && list.get(0) instanceof Map) {
            list.forEach(v -> names(of, v, found));
        } else {
            found.computeIfAbsent(of, k -> new HashSet<>()).add(String.valueOf(value));
        }
    }

    /** The fields of a command's answers by their names, an estimate's three among them. */
    private static Map<String, Columns.Field> fields(String command) {
        Map<String, Columns.Field> fields = new HashMap<>();
        Commands.answers().stream()
                .filter(a -> a.commands().contains(command))
                .flatMap(a -> a.columns().fields().stream())
                .forEach(f -> {
                    fields.put(f.name(), f);
                    List.of("low", "likely", "high").forEach(end -> fields.putIfAbsent(f.name() + "." + end, f));
                });
        return fields;
    }

    private static String command(List<String> words) {
        CommandLine root = new CommandLine(
                new Chainage(Run.terminal(Instant.EPOCH, new StringWriter(), new StringWriter()), Main.RUNNER));
        int at = Commands.firstWord(root.getCommandSpec(), words.toArray(String[]::new));
        String two = words.get(at) + (at + 1 < words.size() ? " " + words.get(at + 1) : "");
        return fields(two).isEmpty() ? words.get(at) : two;
    }

    /** Every object that a golden session holds is what the documentation says. */
    @TestFactory
    Stream<DynamicTest> everyFieldThatIsGivenIsDocumented() throws IOException {
        List<Path> sessions;
        try (Stream<Path> files = Files.list(Path.of("src/test/resources/golden"))) {
            sessions = files.sorted().toList();
        }
        List<DynamicTest> tests = new ArrayList<>();
        for (Path session : sessions) {
            String typed = "";
            StringBuilder answer = new StringBuilder();
            for (String line : (Files.readString(session) + "\n$ ").lines().toList()) {
                if (line.startsWith("$ ") || line.startsWith("% ") || line.startsWith("# ")) {
                    if (answer.toString().startsWith("{\n") && typed.contains("--json")) {
                        String json = answer.toString();
                        String of = typed.substring(11);
                        tests.add(dynamicTest(of, () -> documented(of, json)));
                    }
                    typed = line;
                    answer.setLength(0);
                } else if (!line.startsWith("! ") && !line.startsWith("[")) {
                    answer.append(line).append('\n');
                }
            }
        }
        assertTrue(tests.size() > 20, tests.size() + " answers");
        return tests.stream();
    }

    private static void documented(String typed, String answer) throws IOException {
        String command = command(List.of(typed.split(" ")));
        Map<String, Set<Object>> found = new TreeMap<>();
        names("", JSON.std.mapFrom(answer), found);
        Map<String, Columns.Field> said = fields(command);
        if (!found.keySet().equals(Set.of("error", "exit_code"))) {
            // What is null somewhere says when.
            found.entrySet()
                    .removeIf(f -> said.containsKey(f.getKey())
                            && (!f.getValue().contains("null")
                                    || said.get(f.getKey()).meaning().contains("null")));
            assertEquals(Map.of(), found, command);
        }
    }
}
