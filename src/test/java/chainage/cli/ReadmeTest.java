package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.xpath.XPathConstants;
import javax.xml.xpath.XPathFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.NodeList;

/** What README shows is what the program answers, and what it lists is what the build puts in. */
class ReadmeTest {
    private static final String PROMPT = "$ demo ";
    /** Stands for any number of lines left out, but at least one. */
    private static final String LEFT_OUT = "...";

    private static List<String> readme() throws IOException {
        return Files.readAllLines(Path.of("README.md"));
    }

    /** The lines below a heading, up to the next one. */
    private static List<String> section(String heading) throws IOException {
        List<String> lines = readme();
        int from = lines.indexOf("## " + heading) + 1;
        assertTrue(from > 0, heading);
        int to = from;
        while (to < lines.size() && !lines.get(to).startsWith("## ")) {
            to++;
        }
        return lines.subList(from, to);
    }

    @Test
    void theTwoCommandsToStartWithStandOnTheFirstScreen() throws IOException {
        List<String> screen = readme().subList(0, 24);
        assertTrue(screen.stream().anyMatch(l -> l.contains("target/chainage demo")), screen.toString());
        assertTrue(screen.stream().anyMatch(l -> l.startsWith("mvn -q verify")), screen.toString());
    }

    /** The commands one after the other on the demo's season, as its alias runs them. */
    @Test
    void theTourIsWhatTheDemoAnswers(@TempDir Path dir) throws IOException {
        String folder = dir.resolve("demo").toString();
        Run demo = Run.of("demo", "--folder", folder);
        Matcher alias = Pattern.compile("alias demo='\\S+ ([^']+)'").matcher(demo.out());
        assertTrue(alias.find(), demo.out());
        List<String> tour = section("A tour");
        tour = tour.subList(tour.indexOf("```") + 1, tour.lastIndexOf("```"));
        int commands = 0;
        for (int i = 0; i < tour.size(); ) {
            assertTrue(tour.get(i).startsWith(PROMPT), tour.get(i));
            int end = i + 1;
            while (end < tour.size() && !tour.get(end).startsWith(PROMPT)) {
                end++;
            }
            String typed = tour.get(i).substring(PROMPT.length()).replace("DIR", folder);
            Run run = Run.of((alias.group(1) + " " + typed).split(" "));
            assertEquals(0, run.code(), typed + ": " + run.err());
            assertEquals("", run.err(), typed);
            List<String> shown = tour.subList(i + 1, end);
            assertTrue(
                    shows(shown, run.out().lines().toList()),
                    () -> "demo " + typed + " answers now:\n" + run.out() + "README shows:\n"
                            + String.join("\n", shown));
            commands++;
            i = end;
        }
        assertTrue(commands >= 10, commands + " commands");
    }

    /** True when the lines shown are those said, save where some are left out. */
    private static boolean shows(List<String> shown, List<String> said) {
        if (shown.isEmpty()) {
            return said.isEmpty();
        }
        List<String> rest = shown.subList(1, shown.size());
        if (!shown.get(0).equals(LEFT_OUT)) {
            return !said.isEmpty() && shown.get(0).equals(said.get(0)) && shows(rest, said.subList(1, said.size()));
        }
        for (int out = 1; out <= said.size(); out++) {
            if (shows(rest, said.subList(out, said.size()))) {
                return true;
            }
        }
        return false;
    }

    /** Each library that the pom puts into the program is listed with a licence, in the pom's order, and no other. */
    @Test
    void everyLibraryInTheProgramIsListedWithItsLicence() throws Exception {
        NodeList inPom = (NodeList) XPathFactory.newInstance()
                .newXPath()
                .evaluate(
                        "/*/*[local-name()='dependencies']/*[not(*[local-name()='scope' and .='test'])]"
                                + "/*[local-name()='artifactId']",
                        DocumentBuilderFactory.newInstance()
                                .newDocumentBuilder()
                                .parse(new ByteArrayInputStream(Files.readAllBytes(Path.of("pom.xml")))),
                        XPathConstants.NODESET);
        List<String> built = new ArrayList<>();
        for (int i = 0; i < inPom.getLength(); i++) {
            built.add(inPom.item(i).getTextContent());
        }
        Pattern row = Pattern.compile("\\| `([^`]+)`[^|]* \\| (\\S[^|]*) \\|");
        List<String> listed = section("Licence").stream()
                .map(row::matcher)
                .filter(Matcher::matches)
                .map(m -> m.group(1))
                .toList();
        assertEquals(built, listed);
    }
}
