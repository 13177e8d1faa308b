package chainage.cli;

import chainage.answer.things.InstalledWords;
import chainage.command.Action;
import chainage.command.Chainage;
import chainage.command.CommandContext;
import chainage.command.Manual;
import chainage.host.OwnFiles;
import chainage.host.Program;
import chainage.host.QuickStart;
import chainage.render.Formatter;
import chainage.store.file.LedgerException;
import chainage.typed.CliError;
import chainage.typed.ExitCode;
import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.FileSystemException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        name = "install-self",
        description = {
            "Copy the program to where your shell finds it, with its manual pages and with completion for bash, zsh and"
                    + " fish.",
            "A file that chainage did not write stays as it is. Run it again after an upgrade. --remove takes all of it"
                    + " away; your ledger stays."
        },
        footer = {
            "Examples:",
            "  chainage install-self",
            "  chainage install-self --prefix /usr/local",
            "  chainage install-self --remove"
        })
final class InstallSelfCommand extends Action {
    @Option(
            names = "--prefix",
            paramLabel = "DIR",
            description = "the folder with bin and share in it (default: ~/.local)")
    @Nullable
    Path prefix;

    @Option(names = "--remove", description = "take away what was copied there")
    boolean remove;

    @Option(names = "--dry-run", description = "say what would change, and write nothing")
    boolean dryRun;

    @Override
    public boolean needsLedger() {
        return false;
    }

    @Override
    public Integer call() {
        try {
            Path to = prefix().toAbsolutePath().normalize();
            OwnFiles files = new OwnFiles(to, Manual.texts(whole()));
            return remove ? remove(files) : install(files);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private Path prefix() {
        String home = context().terminal().environment().getOrDefault("HOME", "");
        if (prefix == null && home.isEmpty()) {
            throw CliError.usage("there is no HOME, so no ~/.local", "name a folder with --prefix");
        }
        return prefix == null ? Path.of(home, ".local") : prefix;
    }

    private Integer install(OwnFiles files) throws IOException {
        CommandContext context = context();
        Path program = running();
        Optional<Path> foreign = files.foreign();
        if (foreign.isPresent()) {
            throw new CliError(
                    ExitCode.CANNOT_CREATE,
                    "\"" + foreign.get() + "\" is there already, and chainage did not write it",
                    "nothing was changed; move it away, or name another folder with --prefix");
        }
        String below = files.prefix().toString();
        if (dryRun) {
            context.out().line("Dry run, nothing is written. This would be, below " + below + ":");
            files.names().forEach(n -> context.out().line("  " + n));
            return ExitCode.OK.code();
        }
        try {
            files.write(program);
        } catch (FileSystemException e) {
            throw unwritable("\"" + e.getFile() + "\" cannot be written");
        } catch (LedgerException e) {
            throw unwritable(e.what());
        }
        long pages = files.names().stream().filter(n -> n.endsWith(".1")).count();
        context.out()
                .line("Installed below " + below + ": the program, " + pages
                        + " pages of the manual (man chainage), completion for bash, zsh and fish.");
        Map<String, String> environment = context.terminal().environment();
        List<String> path = List.of(environment.getOrDefault("PATH", "").split(File.pathSeparator, -1));
        new InstalledWords(
                        files.prefix().toString(),
                        prefix == null ? "" : " --prefix " + prefix,
                        environment.getOrDefault("SHELL", ""),
                        path.contains(files.prefix().resolve("bin").toString()))
                .lines()
                .forEach(context::say);
        return ExitCode.OK.code();
    }

    private static CliError unwritable(String what) {
        return new CliError(
                ExitCode.CANNOT_CREATE,
                what,
                "name a folder of yours with --prefix, or ask who keeps this one; then run it again");
    }

    private Integer remove(OwnFiles files) throws IOException {
        CommandContext context = context();
        List<Path> ours = files.present();
        String from = files.prefix().toString();
        if (ours.isEmpty()) {
            context.out().line("Nothing of chainage lies below " + from + ".");
        } else if (dryRun) {
            context.out().line("This would be taken away:");
            ours.forEach(f -> context.out().line("  " + f.toString()));
            context.say("nothing removed (dry run)");
        } else {
            files.remove();
            QuickStart.forget(files.program());
            context.out()
                    .line("Taken away from " + from + ": " + Formatter.count(ours.size(), "file", "files")
                            + "; your ledger stays as it is.");
        }
        return ExitCode.OK.code();
    }

    /** The file that runs now, where it is the one that can be copied. */
    private static Path running() throws IOException {
        Path file = Program.file();
        if (!OwnFiles.isProgram(file)) {
            throw new CliError(
                    ExitCode.NO_SUCH_FILE,
                    "what runs here is not the program's one file",
                    "build it (mvn package) and call target/chainage install-self");
        }
        return file;
    }

    /** The program with all its commands, whichever was typed. */
    private CommandLine whole() {
        CommandLine program =
                new CommandLine(new Chainage(context().terminal(), context().runner()));
        Commands.addAllTo(program);
        Chainage.describe(program, 0, false);
        return program;
    }
}
