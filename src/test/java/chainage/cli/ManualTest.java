package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import chainage.host.OwnFiles;
import chainage.host.Terminal;
import chainage.manual.CommandPage;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
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
                new Chainage(new Terminal(nowhere, nowhere, false, 0, Map.of(), Clock.systemUTC()), Main::run));
        Chainage.describe(line);
        Commands.addAllTo(line);
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
            })
    void fishCompletes(String typed, String offered) throws Exception {
        assumeTrue(there("fish"), "fish is not installed");
        Path script = Files.writeString(folder.resolve("script"), FISH);
        String said = run("cd '" + folder + "' && HOME='" + folder + "' fish -c 'source \"'" + script
                + "'\"; complete -C \"" + typed + "\"'");
        assertEquals(
                List.of(offered), said.lines().map(l -> l.split("\t", 2)[0]).toList(), said);
    }

    @Test
    void zshReadsTheScript() throws Exception {
        assumeTrue(there("zsh"), "zsh is not installed");
        Path script = Files.writeString(folder.resolve("script"), ZSH);
        assertEquals("", run("zsh -n '" + script + "' 2>&1"));
    }

    private static boolean there(String program) throws Exception {
        return !run("command -v " + program).isEmpty();
    }

    private static String run(String command) throws IOException, InterruptedException {
        Process process = new ProcessBuilder("sh", "-c", command)
                .redirectError(ProcessBuilder.Redirect.INHERIT)
                .start();
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
