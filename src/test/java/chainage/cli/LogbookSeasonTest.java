package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.intake.InventedSeason;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A season that was noted in a logbook alone is the season that was typed at the terminal, also from a phone. */
class LogbookSeasonTest {
    private static final Pattern LINE = Pattern.compile("(\\d{4}-\\d\\d-\\d\\d(?: \\d\\d:\\d\\d)?) (.*?) *(?:#.*)?");

    @TempDir
    Path folder;

    /** A line of a logbook as it is typed at the terminal: the date is an option there, or names the rides. */
    private static List<String> typed(String date, String line) {
        List<String> words = InventedSeason.words(line);
        switch (words.get(0)) {
            case "tag" -> words.add(1, date);
            case "chain" -> {}
            default -> words.addAll(List.of("--on", date));
        }
        return words;
    }

    private static List<String> answers(SeasonRuns runs, String ledger) {
        List<String> answers = new ArrayList<>();
        for (List<String> question : List.of(
                List.of("due", "--json"),
                List.of("rides", "--csv"),
                List.of("loss", "--json"),
                List.of("cost", "--json"),
                List.of("plan", "--json"))) {
            answers.add(runs.run(ledger, question));
        }
        return answers;
    }

    @Test
    void allThreeGiveTheSameAnswers() throws IOException {
        SeasonRuns runs = new SeasonRuns(folder);
        Path setUp = SeasonRuns.SEASON.resolve("setup.txt");
        Path logbook = SeasonRuns.SEASON.resolve("logbook.txt");
        String season = Files.readString(logbook);
        runs.type("typed", setUp);
        int typed = 0;
        for (String line : season.lines().toList()) {
            Matcher m = LINE.matcher(line);
            if (m.matches()) {
                runs.run("typed", typed(m.group(1), m.group(2)));
                typed++;
            }
        }
        assertTrue(typed > 50, typed + " lines");
        List<String> answers = answers(runs, "typed");

        runs.type("noted", setUp);
        runs.run("noted", "import", logbook.toString());
        assertEquals(answers, answers(runs, "noted"));

        // As a phone writes it: quotes that curl, two hyphens that became a dash, the ends of lines of another system,
        // a mark before the first letter, a list's dots, capitals, spaces at which no line breaks.
        String phone = "\uFEFF"
                + season.replaceAll("\"([^\"\n]*)\"", "\u201C$1\u201D")
                        .replaceAll("--(?=[a-z])", "\u2014")
                        .replaceAll("(?m)^(\\d{4}-\\d\\d-\\d\\d) (?=[a-z])", "\u2022 $1\u00a0")
                        .replace("\u00a0treat ", "\u00a0Treat ")
                        .replace("\n", "\r\n");
        assertTrue(phone.contains("\u2014cleaning deep") && phone.contains("\u201CKettle Block\u201D"), phone);
        Path file = folder.resolve("phone.txt");
        Files.writeString(file, phone);
        runs.type("phone", setUp);
        runs.run("phone", "import", file.toString());
        assertEquals(answers, answers(runs, "phone"));

        // A line is changed there, and its fact with it; written back as it was, all is as before.
        String was = "2026-08-27\u00a0Treat Ochre";
        assertTrue(phone.contains(was));
        Files.writeString(file, phone.replace(was, "2026-08-20\u00a0Treat Ochre"));
        String said = runs.run("phone", "import", file.toString());
        assertTrue(said.contains("lines 1 changed."), said);
        assertTrue(said.contains("undo"), said);
        assertNotEquals(answers, answers(runs, "phone"));
        Files.writeString(file, phone);
        said = runs.run("phone", "import", file.toString());
        assertTrue(said.contains("lines 1 changed."), said);
        assertEquals(answers, answers(runs, "phone"));
    }
}
