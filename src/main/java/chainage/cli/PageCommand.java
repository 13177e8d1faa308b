package chainage.cli;

import chainage.analysis.Analysis;
import chainage.analysis.Snapshot;
import chainage.answer.page.ChainsPage;
import chainage.answer.page.PageSources;
import chainage.answer.things.WrittenAnswer;
import chainage.host.Opener;
import chainage.host.OutputFile;
import chainage.host.Resource;
import chainage.page.Page;
import chainage.page.PageText;
import chainage.render.Columns;
import chainage.store.LedgerFile;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "page",
        description = {
            "Make one page to look at: which chain is next and what to do, then every chain, bike and product with its"
                    + " figures and plots. One HTML file that needs no network and reads on a phone, on paper, and"
                    + " without JavaScript.",
            "It tells when and how far you ride, never where: no position is in it. A file named with -o is readable"
                    + " by you alone; an older page there is replaced, any other file is left alone."
        },
        footer = {
            "Examples:",
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
            description = "write there (- or nothing: standard output)")
    @Nullable
    Path output;

    @Option(names = "--open", description = "show it in the browser (without -o: as " + FILE + " beside the ledger)")
    boolean open;

    @Override
    List<Columns<?>> fields() {
        return List.of(WrittenAnswer.FIELDS);
    }

    @Override
    public Integer call() {
        return run(context());
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
            context.err().line("chainage: " + trouble);
        }
        return ExitCode.OK.code();
    }

    private String html(CommandContext context) {
        try (LedgerFile ledger = context.openToRead()) {
            Snapshot facts = ledger.load();
            List<String> refused = ledger.refused().stream()
                    .filter(RefusedCommand::isThere)
                    .map(s -> RefusedCommand.trouble(s).line())
                    .toList();
            return PageText.of(
                    page(context, choice.of(context.analysis(facts)), refused),
                    Resource.text("/chainage/page/page.css"),
                    Resource.text("/chainage/page/page.js"));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /**
     * The page before it is written as HTML.
     *
     * @param refused files that could not be read, a line each
     */
    static Page page(CommandContext context, Analysis analysis, List<String> refused) {
        return ChainsPage.of(
                new PageSources(analysis, refused, new Version().getVersion()[0], context.missing()), context.format());
    }
}
