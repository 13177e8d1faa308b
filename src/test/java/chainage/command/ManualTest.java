package chainage.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import chainage.cli.Commands;
import chainage.cli.Main;
import chainage.cli.Run;
import chainage.host.OwnFiles;
import chainage.host.Terminal;
import chainage.manual.CommandPage;
import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.jr.ob.JSON;
import java.io.File;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sqlite.JDBC;
import picocli.CommandLine;
import picocli.CommandLine.Model.OptionSpec;

/** The manual and the completions say all that the help says, in the languages of those who read them. */
class ManualTest {
    private static final CommandLine PROGRAM = program();
    private static final Map<String, String> TEXTS = Manual.texts(PROGRAM);
    private static final String BASH = text("share/bash-completion/completions/chainage");
    private static final String ZSH = text("share/zsh/site-functions/_chainage");
    private static final String FISH = text("share/fish/vendor_completions.d/chainage.fish");

    @TempDir
    Path folder;

    private static CommandLine program() {
        PrintWriter nowhere = new PrintWriter(Writer.nullWriter());
        CommandLine line = new CommandLine(
                new Chainage(new Terminal(nowhere, nowhere, false, 0, Map.of(), Clock.systemUTC()), Main.RUNNER));
        Commands.addAllTo(line);
        Chainage.describe(line, 0, false);
        return line;
    }

    private static String text(String name) {
        return Objects.requireNonNull(TEXTS.get(name), name);
    }

    private static Stream<Map.Entry<String, String>> pages() {
        return TEXTS.entrySet().stream().filter(t -> t.getKey().endsWith(".1"));
    }

    @Test
    void everyCommandAndOptionIsInAllOfThem() {
        assertEquals(Commands.names().size() + 1, pages().count());
        PROGRAM.getSubcommands().forEach((name, line) -> {
            String page = text("share/man/man1/chainage-" + name + ".1");
            require(line, page);
            line.getSubcommands().values().forEach(below -> require(below, page));
        });
    }

    private static void require(CommandLine line, String page) {
        String name = line.getCommandName();
        assertTrue(page.contains(roff(name)), name);
        assertTrue(FISH.contains(" -a " + name + " "), name);
        for (OptionSpec option : line.getCommandSpec().options()) {
            String longest = option.longestName();
            assertTrue(page.contains("\\fB" + roff(longest) + "\\fR"), name + " " + longest);
            assertTrue(BASH.contains(longest), longest);
            assertTrue(ZSH.contains("'" + longest + ":"), longest);
            assertTrue(FISH.contains(longest.startsWith("--") ? " -l " + longest.substring(2) : longest), longest);
        }
    }

    private static String roff(String words) {
        return words.replace("-", "\\-");
    }

    @Test
    void nothingOfTheHelpsOwnLanguageIsLeft() {
        TEXTS.forEach((name, text) -> {
            assertFalse(text.contains("%%") || text.contains("%n") || text.contains("${DEFAULT"), name);
            assertTrue(text.contains(OwnFiles.MARK), name);
        });
    }

    /** As man(7) has it: a line that begins with a dot is a request; the rest is text, here in ASCII alone. */
    @Test
    void noLineOfAPageIsTakenForAnother() {
        pages().forEach(page -> page.getValue().lines().forEach(line -> {
            assertTrue(
                    !line.startsWith(".") || line.matches("\\.(TH|SH|SS) .*|\\.(TP|PP|nf|fi|nh)|\\.ad l|\\.\\\\\" .*"),
                    page.getKey() + ": " + line);
            assertFalse(line.startsWith("'"), line);
            assertTrue(StandardCharsets.US_ASCII.newEncoder().canEncode(line), line);
        }));
    }

    /** Of the 80 columns a reader has, seven are left free before the text; only prose is wrapped by it. */
    @Test
    void whatIsNotWrappedFitsIntoTheColumns() {
        for (CommandPage page : Manual.page(PROGRAM).all()) {
            Stream.of(page.synopsis(), page.examples())
                    .flatMap(List::stream)
                    .forEach(line -> assertTrue(line.length() <= 73, line));
        }
    }

    @Test
    void groffHasNothingToSayAgainstThePages() throws Exception {
        assumeTrue(there("groff"), "groff is not installed");
        for (Map.Entry<String, String> page : pages().toList()) {
            Path file = Files.writeString(folder.resolve("page.1"), page.getValue());
            assertEquals("", run("groff -man -ww -Tutf8 '" + file + "' 2>&1 >/dev/null"), page.getKey());
        }
    }

    /** What bash itself makes of the script. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '>',
            value = {
                "chainage d                       > due demo",
                "chainage bike ''                 > add set rename",
                "chainage bike add --w            > --wheel",
                "chainage bike add Dunlin --w     > --wheel",
                "chainage --ledger x.sqlite cond  > conditions",
                "chainage --units ''              > metric imperial",
                "chainage due --units = m         > metric",
                "chainage treat due --cl          > --cleaning",
                "chainage explain pl              > plan",
                "chainage import x                >",
                "chainage treat due hot           > hot-wax",
                "chainage remark due da           > damaged",
                "chainage tag last mu             > muddy",
                "chainage factors set treatment.wet.h > treatment.wet.hot-wax",
                "chainage due --why ''            > Amber Moss",
                "chainage treat ''                > Amber Moss",
                "chainage treat Amber K           > Kettle\\ Block",
                "chainage install Amber ''        > Dunlin",
                "chainage --ledger none treat ''  >",
                "chainage chain add ''            >",
            })
    void bashCompletes(String typed, String offered) throws Exception {
        assumeTrue(there("bash"), "bash is not installed");
        Path script = Files.writeString(folder.resolve("script"), BASH);
        String said = run("bash -c 'source \"$1\"; shift; COMP_WORDS=(\"$@\"); COMP_CWORD=$(($#-1)); _chainage;"
                + " echo \"${COMPREPLY[*]}\"' - '" + script + "' " + typed);
        assertEquals(offered == null ? "" : offered, said.strip());
    }

    /** What fish itself makes of the script; what it knows of files is not asked. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '>',
            value = {
                "chainage bike add --wh           > --wheel",
                "chainage explain pl              > plan",
                "chainage --ledger x.sqlite cond  > conditions",
                "chainage --ledger due cond       > conditions",
                "chainage --ledger=x bike a       > add",
                "chainage treat due --cl          > --cleaning",
                "chainage --units i               > imperial",
                "chainage remark due da           > damaged",
                "chainage treat Amber K           > Kettle Block",
                "chainage treat M                 > Moss",
                "chainage install Amber D         > Dunlin",
                "chainage due --bike D            > Dunlin",
            })
    void fishCompletes(String typed, String offered) throws Exception {
        assumeTrue(there("fish"), "fish is not installed");
        Path script = Files.writeString(folder.resolve("script"), FISH);
        String said = run("cd '" + folder + "' && HOME='" + folder + "' fish -c 'source \"'" + script
                + "'\"; complete -C \"" + typed + "\"'");
        assertEquals(
                List.of(offered), said.lines().map(l -> l.split("\t", 2)[0]).toList(), said);
    }

    /** What zsh itself makes of the script; how it shows a list is not asked. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '>',
            value = {
                "chainage bike ''                 > add set rename",
                "chainage --units ''              > metric imperial",
                "chainage explain ''              > distance",
                "chainage due --why ''            > Amber Moss",
                "chainage treat Amber ''          > hot-wax Kettle Block",
                "chainage install Amber ''        > Dunlin",
                "chainage tag ''                  > last muddy",
                "chainage --ledger none treat ''  > (files)",
                "chainage import x                > (files)",
            })
    void zshCompletes(String typed, String offered) throws Exception {
        assumeTrue(there("zsh"), "zsh is not installed");
        Path script = Files.writeString(folder.resolve("script"), ZSH);
        String said = run("zsh -f -c '_describe() { [[ $1 == -o ]] && shift; print -rl -- ${(P)2%%:*} };"
                + " _files() { print \"(files)\" }; s=$1; shift; words=(\"$@\"); CURRENT=$#; source $s' - '" + script
                + "' "
                + typed);
        List<String> all = said.lines().toList();
        for (String word : offered.replace("Kettle Block", "Kettle_Block").split(" ", -1)) {
            assertTrue(all.contains(word.replace('_', ' ')), said);
        }
    }

    @Test
    void ridesAreNamedTheLatestFirst() throws IOException {
        String ledger = folder.resolve("rides.sqlite").toString();
        for (int day : new int[] {1, 2}) {
            StringBuilder points = new StringBuilder();
            for (int minute = 10; minute < 30; minute++) {
                points.append("<trkpt lat='0' lon='0.0" + minute + "'><time>2026-03-0" + day + "T10:" + minute
                        + ":00Z</time></trkpt>");
            }
            Files.writeString(
                    folder.resolve(day + ".gpx"),
                    "<gpx version='1.1'><trk><type>cycling</type><trkseg>" + points + "</trkseg></trk></gpx>");
        }
        assertEquals(0, Run.of("--ledger", ledger, "import", folder.toString()).code());
        List<String> ids = Run.of("--ledger", ledger, "rides", "--csv")
                .out()
                .lines()
                .skip(1)
                .map(l -> l.split(",", 2)[0])
                .toList();
        assertEquals(
                ids.get(1) + "\t2026-03-02, 2 km\n" + ids.get(0) + "\t2026-03-01, 2 km\n",
                Run.of("complete", "ride", ledger).out());
    }

    @Test
    void nothingIsSaidOfWhatGoesWrong() throws IOException {
        Path noLedger = Files.writeString(folder.resolve("text"), "no ledger");
        for (String ledger : List.of(folder.resolve("none").toString(), folder.toString(), noLedger.toString())) {
            assertEquals(new Run(0, "", ""), Run.of("complete", "chain", ledger), ledger);
        }
        assertEquals(new Run(0, "", ""), Run.of("complete", "unicorn"));
    }

    /** The program as it is started, with names in its ledger. */
    private void program(Path ledger) throws Exception {
        if (Files.exists(ledger)) {
            return;
        }
        for (String said : List.of(
                "bike add Dunlin", "chain add Amber", "chain add Moss", "product add Kettle_Block --method hot-wax")) {
            List<String> words = new ArrayList<>(List.of("--ledger", ledger.toString()));
            Arrays.stream(said.split(" ", -1)).map(w -> w.replace('_', ' ')).forEach(words::add);
            assertEquals(0, Run.of(words.toArray(String[]::new)).code());
        }
        List<String> parts = new ArrayList<>();
        for (Class<?> part : List.of(Main.class, CommandLine.class, JDBC.class, JSON.class, JsonFactory.class)) {
            parts.add(Path.of(part.getProtectionDomain()
                            .getCodeSource()
                            .getLocation()
                            .toURI())
                    .toString());
        }
        Path program = Files.writeString(
                folder.resolve("chainage"),
                "#!/bin/sh\nexec '" + System.getProperty("java.home") + "/bin/java' -XX:TieredStopAtLevel=1 -cp '"
                        + String.join(File.pathSeparator, parts) + "' chainage.cli.Main \"$@\"\n");
        assertTrue(program.toFile().setExecutable(true));
    }

    private boolean there(String program) throws Exception {
        return !run("command -v " + program).isEmpty();
    }

    private String run(String command) throws Exception {
        Path ledger = folder.resolve("ledger.sqlite");
        program(ledger);
        ProcessBuilder builder = new ProcessBuilder("sh", "-c", command).redirectError(ProcessBuilder.Redirect.INHERIT);
        builder.environment().put("CHAINAGE_LEDGER", ledger.toString());
        builder.environment().merge("PATH", folder.toString(), (path, own) -> own + ":" + path);
        Process process = builder.start();
        process.getOutputStream().close();
        String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        process.waitFor();
        return said;
    }

    @Test
    void whatIsInstalledIsTakenAwayWithoutATrace() throws IOException {
        Path program = Files.writeString(folder.resolve("program"), "#!/bin/sh\nexec java -Dchainage.program=$0\n");
        Path prefix = Files.createDirectory(folder.resolve("a prefix"));
        OwnFiles files = new OwnFiles(prefix, TEXTS);
        files.write(program);
        assertEquals(TEXTS.size() + 1, files.present().size());
        assertTrue(Files.isExecutable(files.program()));
        // Run from there, over itself.
        files.write(files.program());
        assertEquals(Files.readString(program), Files.readString(files.program()));
        Path page = Files.writeString(prefix.resolve("share/man/man1/other.1"), "another's");
        files.remove();
        try (Stream<Path> left = Files.walk(prefix)) {
            assertEquals(List.of(page), left.filter(Files::isRegularFile).toList());
        }
        Files.delete(page);
        files.write(program);
        files.remove();
        try (Stream<Path> left = Files.walk(prefix)) {
            assertEquals(List.of(prefix), left.toList());
        }
    }

    @Test
    void anothersFileInOurPlaceIsSeen() throws IOException {
        OwnFiles files = new OwnFiles(folder.resolve("prefix"), TEXTS);
        assertTrue(files.foreign().isEmpty());
        Path other = folder.resolve("prefix/share/man/man1/chainage-due.1");
        Files.createDirectories(other.resolveSibling(""));
        Files.writeString(other, "another's");
        assertEquals(other, files.foreign().orElseThrow());
        assertEquals(List.of(), files.present());
    }
}
