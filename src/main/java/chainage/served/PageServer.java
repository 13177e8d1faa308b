package chainage.served;

import chainage.answer.page.ServedWords;
import chainage.command.BikeChoice;
import chainage.command.CommandContext;
import chainage.host.Opener;
import chainage.loopback.LoopbackServer;
import chainage.loopback.ServingLimits;
import chainage.page.PageText;
import chainage.typed.CliError;
import chainage.typed.ExitCode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.function.Supplier;

/** Serves the page to the browsers of this machine. */
public final class PageServer {
    private PageServer() {}

    /**
     * Serves it until it is ended; answers the exit code.
     *
     * @param choice whose part of the ledger is shown
     * @param show whether a browser is opened on it
     */
    public static Integer serve(CommandContext context, BikeChoice choice, boolean show) {
        if (context.json()) {
            throw CliError.usage("a page is no JSON", "name a file with -o, and --json says what was written");
        }
        // The mistakes of an option are said before anything is served.
        choice.names(context.ledger());
        Supplier<PageContext> contexts = () -> PageContext.of(context);
        try (LoopbackServer server = LoopbackServer.open(new PageSite(contexts, choice), ServingLimits.USUAL)) {
            context.out().whole(server.address().toString());
            context.say("The address opens once, in one browser on this machine. Ctrl-C ends it, or an hour unused.");
            context.terminal().out().flush();
            context.terminal().err().flush();
            if (show) {
                show(context, server.address().toString());
            }
            server.await();
            return ExitCode.OK.code();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** By a file that leads there, since the words of a command that is started can be read by others on the machine. */
    private static void show(CommandContext context, String address) throws IOException {
        if (Opener.isThere(context.terminal().environment())) {
            Path way = Files.createTempFile("chainage-", ".html");
            way.toFile().deleteOnExit();
            Files.writeString(way, PageText.onward(ServedWords.READING, address, ServedWords.GO_ON));
            String trouble = Opener.open(way, context.terminal().environment());
            if (trouble != null) {
                context.warn(trouble);
            }
        }
    }
}
