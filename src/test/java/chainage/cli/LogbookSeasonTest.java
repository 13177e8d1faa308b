package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A season that was noted in a logbook alone is the season that was typed at the terminal, also from a phone. */
class LogbookSeasonTest {
    private static final Path SEASON = Path.of("fixtures/season");
    private static final Instant NOW = Instant.parse("2026-09-01T12:00:00Z");
    private static final Pattern WORD = Pattern.compile("\"([^\"]*)\"|(\\S+)");
    private static final Pattern LINE = Pattern.compile("(\\d{4}-\\d\\d-\\d\\d(?: \\d\\d:\\d\\d)?) (.*?) *(?:#.*)?");

    @TempDir
    Path folder;

    private String run(String ledger, String... words) {
        List<String> args =
                new ArrayList<>(List.of("--ledger", folder.resolve(ledger).toString(), "--zone", "UTC"));
        args.addAll(List.of(words));
        Run run = Run.at(NOW, args.toArray(String[]::new));
        // One file of the season's rides is broken on purpose.
        boolean rides = words[0].equals("import") && words[1].endsWith("rides");
        assertEquals(rides ? 65 : 0, run.code(), String.join(" ", words) + "\n" + run.out() + run.err());
        return run.out();
    }

    private static List<String> words(String line) {
        List<String> words = new ArrayList<>();
        Matcher m = WORD.matcher(line);
        while (m.find()) {
            words.add(m.group(1) == null ? m.group(2) : m.group(1));
        }
        return words;
    }

    private void setUp(String ledger) throws IOException {
        run(ledger, "import", SEASON.resolve("rides").toString());
        for (String line : Files.readAllLines(SEASON.resolve("setup.txt"))) {
            if (!line.isBlank() && !line.startsWith("#")) {
                run(ledger, words(line).toArray(String[]::new));
            }
        }
    }

    /** A line of a logbook as it is typed at the terminal: the date is an option there, or names the rides. */
    private static List<String> typed(String date, String line) {
        List<String> words = words(line);
        switch (words.get(0)) {
            case "tag" -> words.add(1, date);
            case "chain" -> {}
            default -> words.addAll(List.of("--on", date));
        }
        return words;
    }

    private List<String> answers(String ledger) {
        List<String> answers = new ArrayList<>();
        for (List<String> question : List.of(
                List.of("due", "--json"),
                List.of("rides", "--csv"),
                List.of("loss", "--json"),
                List.of("cost", "--json"),
                List.of("plan", "--json"))) {
            answers.add(run(ledger, question.toArray(String[]::new)));
        }
        return answers;
    }

    @Test
    void allThreeGiveTheSameAnswers() throws IOException {
        String season = Files.readString(SEASON.resolve("logbook.txt"));
        setUp("typed");
        int typed = 0;
        for (String line : season.lines().toList()) {
            Matcher m = LINE.matcher(line);
            if (m.matches()) {
                run("typed", typed(m.group(1), m.group(2)).toArray(String[]::new));
                typed++;
            }
        }
        assertTrue(typed > 50, typed + " lines");
        List<String> answers = answers("typed");

        setUp("noted");
        run("noted", "import", SEASON.resolve("logbook.txt").toString());
        assertEquals(answers, answers("noted"));

        // As a phone writes it: quotes that curl, two hyphens that became a dash, the ends of lines of another system,
        // a mark before the first letter.
        String phone = "\uFEFF"
                + season.replaceAll("\"([^\"\n]*)\"", "\u201C$1\u201D")
                        .replaceAll("--(?=[a-z])", "\u2014")
                        .replace("\n", "\r\n");
        assertTrue(phone.contains("\u2014cleaning deep") && phone.contains("\u201CKettle Block\u201D"), phone);
        Path file = folder.resolve("phone.txt");
        Files.writeString(file, phone);
        setUp("phone");
        run("phone", "import", file.toString());
        assertEquals(answers, answers("phone"));

        // A line is changed there, and its fact with it; written back as it was, all is as before.
        String was = "2026-08-27 treat Ochre";
        assertTrue(phone.contains(was));
        Files.writeString(file, phone.replace(was, "2026-08-20 treat Ochre"));
        String said = run("phone", "import", file.toString());
        assertTrue(said.contains("lines 1 changed."), said);
        assertTrue(said.contains("undo"), said);
        assertNotEquals(answers, answers("phone"));
        Files.writeString(file, phone);
        said = run("phone", "import", file.toString());
        assertTrue(said.contains("lines 1 changed."), said);
        assertEquals(answers, answers("phone"));
    }
}
