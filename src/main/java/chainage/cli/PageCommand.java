package chainage.cli;

import chainage.answer.page.ChainsPage;
import chainage.answer.things.WrittenAnswer;
import chainage.command.Action;
import chainage.command.BikeChoice;
import chainage.command.CommandContext;
import chainage.host.Opener;
import chainage.host.OutputFile;
import chainage.host.Resource;
import chainage.host.Terminal;
import chainage.page.PageText;
import chainage.render.Columns;
import chainage.served.PageServer;
import chainage.served.PageSite;
import chainage.typed.CliError;
import chainage.typed.ExitCode;
import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "page",
        description = {
            "Show one page to look at and to work with: which chain is next and what to do, then every chain, bike and"
                    + " product with its figures and plots.",
            "The page is served to the browsers of this machine alone, at an address that opens once, until Ctrl-C or an"
                    + " hour unused. With -o it is one HTML file that needs no network and reads on a phone, on paper, and"
                    + " without JavaScript.",
            "It tells when and how far you ride, never where: no position is in it. A file named with -o is readable"
                    + " by you alone; an older page there is replaced, any other file is left alone."
        },
        footer = {
            "Examples:",
            "  chainage page",
            "  chainage page -o chains.html",
            "  chainage page --open",
            "  chainage --units imperial --zone Europe/Lisbon page -o chains.html"
        })
final class PageCommand extends Action {
    private static final String FILE = "chains.html";

    @Mixin
    BikeChoice choice = new BikeChoice();

    @Option(
            names = {"-o", "--output"},
            paramLabel = "FILE",
            description = "write there in place of serving it (-, or where it is piped: standard output)")
    @Nullable
    Path output;

    @Option(names = "--open", description = "show the file in the browser (without -o: " + FILE + " beside the ledger)")
    boolean open;

    @Option(names = "--no-open", description = "serve the page wherever this is started, and only print the address")
    boolean noOpen;

    @Override
    public List<Columns<?>> fields() {
        return List.of(WrittenAnswer.FIELDS);
    }

    @Override
    public Integer call() {
        Terminal terminal = context().terminal();
        boolean person = terminal.columns() > 0 && terminal.errIsTerminal();
        return output == null && !open && (person || noOpen)
                ? PageServer.serve(context(), choice, !noOpen)
                : run(context());
    }

    Integer run(CommandContext context) {
        Path file = output == null && open ? context.ledgerPath().resolveSibling(FILE) : context.file(output, "a page");
        if (file == null && context.json()) {
            throw CliError.usage("a page is no JSON", "name a file with -o, and --json says what was written");
        }
        String html = html(context);
        if (file == null) {
            context.out().text(html);
            return ExitCode.OK.code();
        }
        OutputFile.renew(file, PageText.MARK, html);
        String trouble = open ? Opener.open(file, context.terminal().environment()) : null;
        context.written(file, null, open && trouble == null, file.toString());
        if (trouble != null) {
            context.warn(trouble);
        }
        return ExitCode.OK.code();
    }

    private String html(CommandContext context) {
        // Where there is no ledger nothing is written.
        context.mustBeWritten();
        return PageText.of(
                ChainsPage.of(PageSite.sources(context, choice), context.format()),
                Resource.text("/chainage/page/page.css"),
                Resource.text("/chainage/page/page.js"));
    }
}
