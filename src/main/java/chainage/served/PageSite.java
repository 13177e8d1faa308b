package chainage.served;

import chainage.analysis.Analysis;
import chainage.analysis.Nearest;
import chainage.analysis.Snapshot;
import chainage.answer.ChangeAnswer;
import chainage.answer.imports.ImportAnswer;
import chainage.answer.page.ChainsPage;
import chainage.answer.page.PageSources;
import chainage.answer.page.ServedPage;
import chainage.answer.page.ServedWords;
import chainage.answer.rides.RidesAnswer;
import chainage.answer.things.CheckAnswer;
import chainage.answer.things.FileTrouble;
import chainage.command.Action;
import chainage.command.BikeChoice;
import chainage.command.CommandContext;
import chainage.command.Errors;
import chainage.host.Program;
import chainage.host.Resource;
import chainage.importer.Handed;
import chainage.intake.ImportRun;
import chainage.intake.RefusedFiles;
import chainage.loopback.Ask;
import chainage.loopback.Reply;
import chainage.loopback.ServingLimits;
import chainage.loopback.Site;
import chainage.loopback.TurnedAway;
import chainage.page.Block;
import chainage.page.Page;
import chainage.page.PageText;
import chainage.standing.Standing;
import chainage.store.LedgerFile;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.ParseResult;

/**
 * The page as a browser on this machine has it, made anew from the ledger each time it is asked for. What is noted there
 * is carried out by the commands themselves: looked at by their dry run, then done, then taken back by {@code undo}.
 */
public final class PageSite implements Site {
    private static final String DONE = "done";
    private static final String IMPORT = "import";

    private final Supplier<PageContext> contexts;
    private final BikeChoice choice;
    private final List<ServedPage.Told> done = new ArrayList<>();
    private @Nullable Portions portions;

    /** What could not be read of files that were handed over, by their names, until they are handed over mended. */
    private final Map<String, List<FileTrouble>> unread = new LinkedHashMap<>();

    /**
     * A site.
     *
     * @param contexts one for each thing that is asked
     * @param choice whose part of the ledger is shown
     */
    public PageSite(Supplier<PageContext> contexts, BikeChoice choice) {
        this.contexts = contexts;
        this.choice = choice;
    }

    @Override
    public Reply reply(Ask ask) {
        ServedPage pages = new ServedPage(Map.of(Ask.TOKEN, List.of(ask.token())));
        try {
            if (!ask.change()) {
                return switch (ask.place()) {
                    case "" -> document(main(pages, ask.field(DONE)));
                    case ServedPage.RIDES -> rides(pages, ask);
                    default -> new Reply.Document(404, refused(TurnedAway.PLACE));
                };
            }
            return switch (ask.place()) {
                case "look", "do", "edit" -> saying(pages, ask);
                case "undo" -> undo(ask);
                case ServedPage.FILES -> files(pages, ask);
                case "end" ->
                    new Reply.Last(text(ServedPage.words(
                            ServedWords.ENDED,
                            List.of("The page is no longer served. To have it again: chainage page"))));
                default -> new Reply.Document(404, refused(TurnedAway.PLACE));
            };
        } catch (RuntimeException e) {
            return new Reply.Document(500, text(ServedPage.trouble(List.of(said(contexts.get(), e)))));
        }
    }

    private static Reply document(Page page) {
        return new Reply.Document(200, text(page));
    }

    /** The sentence that the terminal would have. */
    private static String said(PageContext context, RuntimeException e) {
        Errors.tell(context.terminal(), false, e, context.done());
        List<String> lines = context.remarks();
        boolean bug = lines.stream().anyMatch(l -> l.startsWith("\tat "));
        return bug
                ? lines.stream()
                        .filter(l -> l.contains("internal error"))
                        .findFirst()
                        .orElse("")
                : last(lines);
    }

    private static String last(List<String> lines) {
        return lines.isEmpty() ? "" : lines.get(lines.size() - 1);
    }

    /** What the page of the ledger's facts is made from. */
    public static PageSources sources(CommandContext context, BikeChoice choice) {
        if (!context.written()) {
            return sources(context, context.analysis(Snapshot.EMPTY), List.of(), List.of());
        }
        try (LedgerFile ledger = context.openToRead()) {
            Snapshot facts = ledger.load();
            List<String> refused = RefusedFiles.of(ledger, facts).stream()
                    .map(FileTrouble::line)
                    .toList();
            Analysis analysis = context.analysis(facts);
            List<String> notes = CheckAnswer.notes(facts, analysis, context.format());
            return sources(context, choice.of(analysis), refused, notes);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /**
     * The same, of facts that were worked out.
     *
     * @param refused files that could not be read, a line each
     * @param notes what to look over, a line each
     */
    public static PageSources sources(
            CommandContext context, Analysis analysis, List<String> refused, List<String> notes) {
        return new PageSources(analysis, refused, notes, Program.version(), context.missing());
    }

    private Page main(ServedPage pages, String number) {
        PageContext context = contexts.get();
        PageSources sources = sources(context, choice)
                .refusing(unread.values().stream()
                        .flatMap(List::stream)
                        .map(FileTrouble::line)
                        .toList());
        Analysis analysis = sources.analysis();
        Page page = ChainsPage.of(sources, context.format());
        List<ServedPage.Saying> sayings = PageForms.ALL.stream()
                .map(s -> saying(pages, s, form(s, context, analysis), Map.of(), ""))
                .toList();
        return pages.of(page, sayings, treatment(analysis), done(number));
    }

    private Reply rides(ServedPage pages, Ask ask) {
        PageContext context = contexts.get();
        PageForms form = form(PageForms.RIDES, context, context.analysis());
        Map<String, List<String>> filled = form.own(ask.fields());
        PageContext asked = contexts.get();
        Outcome outcome = run(asked, form.words(filled));
        RidesAnswer answer = asked.rides();
        ServedPage.Saying saying = saying(pages, PageForms.RIDES, form, filled, outcome.trouble());
        return answer == null
                ? new Reply.Document(
                        422,
                        text(pages.ridesRefused(
                                saying, form.at(filled, outcome.trouble()).isEmpty() ? outcome.trouble() : "")))
                : document(pages.rides(saying, answer));
    }

    /** The treatment that is advised, as a form sends it; empty where another thing is, or no product was named yet. */
    private static Map<String, List<String>> treatment(Analysis analysis) {
        Optional<Standing> nearest = Nearest.of(analysis.standings()).map(Nearest::chain);
        return nearest.filter(s -> s.nearest() == Standing.Limit.TREATMENT)
                .filter(s -> s.exposure().treatedAt() != null)
                .map(s -> Map.of(
                        ServedPage.FORM,
                        List.of("treat"),
                        "chain",
                        List.of(s.chain()),
                        "product",
                        List.of(s.exposure().product().product())))
                .orElse(Map.of());
    }

    private List<ServedPage.Told> done(String number) {
        return number.matches("\\d{1,6}") && Integer.parseInt(number) < done.size()
                ? List.of(done.get(Integer.parseInt(number)))
                : List.of();
    }

    private Reply.Onward then(ServedPage.Told told) {
        done.add(told);
        return new Reply.Onward("?" + DONE + "=" + (done.size() - 1));
    }

    private PageForms form(PageForms.Saying s, PageContext context, Analysis analysis) {
        return new PageForms(s, context.runner().declared(context, s.command()), analysis, context.format());
    }

    private ServedPage.Saying saying(
            ServedPage pages, PageForms.Saying s, PageForms form, Map<String, List<String>> filled, String trouble) {
        PageContext context = contexts.get();
        CommandSpec spec = context.runner().declared(context, s.command());
        List<String> declared = Arrays.stream(spec.usageMessage().description())
                .map(PageForms::plain)
                .filter(l -> !l.isBlank())
                .toList();
        // What it does is said up to the first stop; a longer sentence is given whole below.
        String first = declared.get(0);
        String title = first.replaceFirst("(?s)[.:](?: .*|$)", "");
        String rest = first.substring(title.length()).strip();
        List<String> help = Stream.concat(
                        rest.startsWith(":") ? Stream.of(first) : Stream.of(rest.replaceFirst("^\\. ?", "")),
                        declared.stream().skip(1))
                .filter(l -> !l.isEmpty())
                .toList();
        // Behind the examples stands what must not be forgotten.
        List<String> care = Arrays.stream(spec.usageMessage().footer())
                .filter(l -> !l.startsWith(" ") && !l.matches("Examples?:") && !l.isBlank())
                .map(PageForms::plain)
                .toList();
        return new ServedPage.Saying(
                s.id(),
                title,
                help,
                care.isEmpty() ? care : List.of(String.join(" ", care)),
                shown(pages, s),
                form.fields(filled, trouble));
    }

    /** What goes with a form that its command cannot declare. */
    private static List<Block> shown(ServedPage pages, PageForms.Saying s) {
        return switch (s.id()) {
            case IMPORT -> pages.files(ServingLimits.USUAL.files(), "");
            case "measure" -> List.of(ServedPage.howToMeasure());
            default -> List.of();
        };
    }

    private Reply saying(ServedPage pages, Ask ask) {
        PageForms.Saying s = PageForms.ALL.stream()
                .filter(x -> x.id().equals(ask.field(ServedPage.FORM)))
                .findFirst()
                .orElse(null);
        if (s == null) {
            return new Reply.Document(404, refused(TurnedAway.PLACE));
        }
        PageContext context = contexts.get();
        PageForms form = form(s, context, context.analysis());
        Map<String, List<String>> filled = form.own(ask.fields());
        if (ask.place().equals("edit")) {
            return document(pages.form(saying(pages, s, form, filled, ""), ""));
        }
        List<String> words = form.words(filled);
        boolean stale = false;
        if (ask.place().equals("do")) {
            try {
                Outcome outcome = run(words, ask.field(ServedPage.STATE));
                if (outcome.told() != null) {
                    return then(outcome.told());
                }
            } catch (PageContext.Stale e) {
                stale = true;
            }
        }
        List<String> dry = new ArrayList<>(words);
        dry.add(s.command().size(), "--dry-run");
        Outcome outcome = run(dry, "");
        if (outcome.told() == null) {
            String at = form.at(filled, outcome.trouble());
            return new Reply.Document(
                    422,
                    text(pages.form(
                            saying(pages, s, form, filled, outcome.trouble()), at.isEmpty() ? outcome.trouble() : "")));
        }
        return document(pages.look(saying(pages, s, form, filled, ""), outcome.told(), filled, outcome.state(), stale));
    }

    private Reply undo(Ask ask) {
        List<String> words = new ArrayList<>(List.of("undo", "--"));
        words.addAll(ask.fields().getOrDefault(ServedPage.ENTRY, List.of()));
        Outcome outcome = run(words, "");
        return outcome.told() == null
                ? new Reply.Document(422, text(ServedPage.trouble(List.of(outcome.trouble()))))
                : then(outcome.told());
    }

    /**
     * How a command line went.
     *
     * @param told what it said; null where it was refused
     * @param trouble why
     * @param state of the facts that it was planned from
     */
    private record Outcome(ServedPage.@Nullable Told told, String trouble, String state) {}

    /** Carries out a command line as if it had been typed. */
    private Outcome run(List<String> words, String expected) {
        PageContext context = contexts.get();
        context.expect(expected);
        return run(context, words);
    }

    private Outcome run(PageContext context, List<String> words) {
        String[] typed = words.toArray(String[]::new);
        return carriedOut(context, () -> {
            ParseResult parsed = context.runner().parser(context, typed).parseArgs(typed);
            while (parsed.hasSubcommand()) {
                parsed = parsed.subcommand();
            }
            ((Action) parsed.commandSpec().userObject()).call();
        });
    }

    private Outcome carriedOut(PageContext context, Runnable command) {
        try {
            command.run();
        } catch (PageContext.Stale e) {
            throw e;
        } catch (ParameterException e) {
            return new Outcome(null, context.runner().said(e), "");
        } catch (RuntimeException e) {
            return new Outcome(null, said(context, e), "");
        }
        ChangeAnswer changed = context.changed();
        ImportAnswer imported = context.imported();
        List<String> remarks = context.remarks();
        ServedPage.Told told = changed != null
                ? new ServedPage.Told(changed.said(), changed.changes(), remarks, changed.entries(), List.of(), true)
                : new ServedPage.Told(
                        context.answered(),
                        List.of(),
                        remarks,
                        imported == null ? List.of() : imported.entries(),
                        imported == null || imported.dryRun() ? List.of() : imported.rides(),
                        false);
        return new Outcome(told, "", context.state());
    }

    /**
     * What was taken in of files that come in several portions.
     *
     * @param of what the portions have in common
     * @param remarks on all of them
     */
    private record Portions(String of, ImportAnswer imported, List<String> remarks) {}

    /** Takes in files that were sent along: they are in memory alone, so that they cannot be looked at first. */
    private Reply files(ServedPage pages, Ask ask) {
        String portion = ask.field(ServedPage.PORTION);
        PageContext context = contexts.get();
        Portions before =
                portions != null && !portion.isEmpty() && portions.of().equals(portion) ? portions : null;
        List<String> large = ask.fields().getOrDefault(ServedPage.TOO_LARGE, List.of()).stream()
                .filter(name -> !name.isEmpty())
                .toList();
        if (ask.files().isEmpty() && large.isEmpty()) {
            return new Reply.Document(422, text(pages.filesAlone(ServingLimits.USUAL.files(), ServedWords.NO_FILES)));
        }
        context.join(before == null ? null : before.imported());
        List<Handed> files = ask.files().stream()
                .map(f -> new Handed(f.name(), f.size(), f::open))
                .toList();
        Outcome outcome =
                carriedOut(context, () -> ImportRun.handed(context, files).run());
        ServedPage.Told told = outcome.told();
        if (told == null) {
            return new Reply.Document(422, text(ServedPage.trouble(List.of(outcome.trouble()))));
        }
        List<String> remarks = new ArrayList<>(before == null ? List.of() : before.remarks());
        remarks.addAll(told.remarks());
        if (!large.isEmpty()) {
            remarks.add(ServedWords.tooLarge(large, ServingLimits.USUAL.files()));
        }
        ImportAnswer imported = context.imported();
        portions = imported == null ? null : new Portions(portion, imported, remarks);
        unread.putAll(imported == null ? Map.of() : imported.unread());
        List<String> all = new ArrayList<>(remarks);
        all.add(ServedWords.NOT_KEPT);
        Reply.Onward onward =
                then(new ServedPage.Told(told.said(), told.moved(), all, told.entries(), told.rides(), false));
        return portion.isEmpty() ? onward : document(ServedPage.portion("./" + onward.place()));
    }

    @Override
    public String entered() {
        return PageText.onward(ServedWords.READING, "./", ServedWords.GO_ON);
    }

    @Override
    public String refused(TurnedAway why) {
        return text(ServedPage.words(ServedWords.SHUT, List.of(words(why))));
    }

    private static String words(TurnedAway why) {
        return switch (why) {
            case HOST -> "this address is not the one that was handed out; use the one that chainage page printed";
            case ORIGIN -> "another page asked for this; do it from the page of chainage itself";
            case KEY ->
                "the key in this address was used, or is an old one; go on in the browser that has the page, or"
                        + " start again: chainage page";
            case SESSION ->
                "this browser was given no key; go on in the browser that has the page, or start again:"
                        + " chainage page";
            case TOKEN -> "this form is of a page that was served before; load the page again and fill it in anew";
            case PLACE -> "there is nothing here; go back to the page";
            case METHOD -> "a page is looked at, or a form of it sent; nothing else is understood";
            case SIZE ->
                "more was sent at once than is taken; name fewer rides at a time, choose fewer files (64 MB together), or"
                        + " name their folder";
            case FORM -> "what was sent is no form of the page; load the page again";
        };
    }

    private static String text(Page page) {
        return PageText.served(
                page,
                Resource.text("/chainage/page/page.css"),
                Resource.text("/chainage/page/page.js"),
                ServedWords.WAIT);
    }
}
