package chainage.answer.page;

import chainage.analysis.Analysis;
import chainage.analysis.Nearest;
import chainage.answer.NextStep;
import chainage.answer.Safety;
import chainage.answer.due.Advice;
import chainage.answer.due.Why;
import chainage.exposure.ChainExposure;
import chainage.ledger.Method;
import chainage.page.Block;
import chainage.page.Page;
import chainage.page.RowPlot;
import chainage.quantity.Estimate;
import chainage.render.Formatter;
import chainage.standing.Standing;
import java.util.ArrayList;
import java.util.List;

/** The page's matter: the answer first, then each chain, the weeks to come, each bike and product, then the problems. */
public final class ChainsPage {
    private final PageSources sources;
    private final Analysis analysis;
    private final Formatter format;
    private final Advice advice;

    private ChainsPage(PageSources sources, Formatter format) {
        this.sources = sources;
        this.analysis = sources.analysis();
        this.format = format;
        this.advice = new Advice(analysis, format);
    }

    /** Makes the page. */
    public static Page of(PageSources sources, Formatter format) {
        return new ChainsPage(sources, format).page();
    }

    private Page page() {
        Standing nearest = Nearest.of(analysis.standings()).map(Nearest::chain).orElse(null);
        String day = format.homeTime(analysis.at()) + " " + format.zone().getId();
        List<Page.Part> parts = new ArrayList<>();
        if (nearest != null) {
            parts.add(new Page.Part("chains", "Chains", List.of(ChainPlots.KEY), chains()));
            parts.add(new WeeksPart(analysis, format).part());
        }
        if (!analysis.exposures().counted().isEmpty()) {
            parts.add(new BikesPart(analysis, format).part());
        }
        if (analysis.exposures().chains().values().stream()
                .anyMatch(c -> !c.rides().isEmpty())) {
            parts.add(new ProductsPart(analysis, format).part());
        }
        parts.add(new ProblemsPart(sources, format).part());
        return new Page(
                "chainage, " + format.date(analysis.at()) + (nearest == null ? "" : ": " + Advice.place(nearest)),
                "The chains on " + day,
                nearest == null ? "Nothing to show yet" : Advice.place(nearest),
                nearest == null ? nothing() : lead(nearest),
                nearest == null ? List.of() : List.of(tape()),
                parts,
                colophon());
    }

    private List<Block> nothing() {
        return NextStep.next(sources.missing(), analysis).stream()
                .map(Block::words)
                .toList();
    }

    private List<Block> lead(Standing nearest) {
        List<Block> lead = new ArrayList<>();
        lead.add(new Block.Words(Block.Tone.ADVICE, "Nearest its limit. " + advice.advice(nearest)));
        Nearest.of(analysis.standings()).ifPresent(n -> {
            advice.shelfAhead(n).forEach(line -> lead.add(Block.words(line)));
            advice.beforeNextRide(n.chain()).forEach(line -> lead.add(Block.words(line)));
        });
        String next = Advice.next(nearest);
        if (next != null) {
            lead.add(Block.words(nearest.due() ? "When it is done, note it:" : "When the time comes, note it:"));
            lead.add(new Block.Words(Block.Tone.COMMAND, next));
        }
        if (nearest.due()) {
            lead.add(new Block.Words(Block.Tone.CARE, care(nearest)));
        }
        return lead;
    }

    private static String care(Standing s) {
        if (s.nearest() == Standing.Limit.REPLACEMENT) {
            return Safety.REPLACING;
        }
        Method method = s.exposure().product().method();
        return method == Method.HOT_WAX ? Safety.TREATING : Safety.treating(method);
    }

    /** All chains on one rule from nothing to the limit. */
    private Block tape() {
        double most = 1.2;
        List<RowPlot.Row> rows = new ArrayList<>();
        for (Standing s : analysis.standings()) {
            List<RowPlot.Mark> marks = new ArrayList<>();
            Estimate life = s.treatment().lifeMetres();
            double used = s.treatment().used();
            double x = s.treatment().exposureMetres();
            if (life != null) {
                marks.add(new RowPlot.Mark(
                        false,
                        percent(Math.min(used, x / life.high()), used, Math.max(used, x / life.low())),
                        "treatment " + Formatter.percent(used)));
            }
            Estimate worn = s.wear().elongationPercent();
            double limit = s.wear().limitPercent();
            double gone = s.wear().used();
            marks.add(new RowPlot.Mark(
                    true,
                    percent(Math.min(gone, worn.low() / limit), gone, Math.max(gone, worn.high() / limit)),
                    "wear limit used " + Formatter.percent(gone)));
            most = Math.max(most, Math.min(2, s.used() * 1.1));
            rows.add(new RowPlot.Row(s.chain(), Formatter.percent(s.used()), marks));
        }
        return new Block.Figure(new RowPlot(rows, 0, most * 100, 100.0, "limit", false, " %")
                .plot(
                        "All chains, nearest its limit first: " + standings(),
                        "Circle: treatment used. Diamond: wear limit used. The larger stands at the right. A line reaches as"
                                + " far as 8 in 10 may be."));
    }

    private String standings() {
        List<String> said = new ArrayList<>();
        analysis.standings()
                .forEach(s -> said.add(s.chain() + ": treatment "
                        + (s.treatment().lifeMetres() == null
                                ? "none"
                                : Formatter.percent(s.treatment().used()))
                        + ", wear limit used " + Formatter.percent(s.wear().used())));
        return String.join("; ", said);
    }

    private static Estimate percent(double low, double likely, double high) {
        return new Estimate(low * 100, likely * 100, high * 100);
    }

    private List<Page.Section> chains() {
        List<Page.Section> sections = new ArrayList<>();
        for (Standing s : analysis.standings()) {
            sections.add(new ChainSection(analysis, format, s)
                    .section("chain-" + (sections.size() + 1), advice.advice(s), Why.lines(analysis, s, format)));
        }
        for (ChainExposure e : analysis.exposures().chains().values()) {
            String name = e.chain().chain();
            if (analysis.standing(name).isEmpty()) {
                sections.add(new Page.Section(
                        "chain-" + (sections.size() + 1),
                        name,
                        "out of use; " + format.distance(e.riddenMetres()) + " in all",
                        new HistoryBlocks(analysis, format, e).blocks()));
            }
        }
        return sections;
    }

    private List<Block> colophon() {
        return List.of(
                Block.words("Made from your own ledger on your own machine by " + sources.version()
                        + ". This page loads nothing and sends nothing; no position is in it, but it tells when and how"
                        + " far you ride."),
                new Block.Fold(
                        "How far to trust the figures",
                        List.of(Block.words(
                                "Distances of a treatment count dry, clean road: a ride in the wet or in grit"
                                        + " counts several times. Lives, factors and rates are common practice or our own guess"
                                        + " until your readings and remarks replace them; chainage factors lists each with its"
                                        + " mark. An interval from low to high holds the true figure four times out of five, if"
                                        + " the model is right. A forecast never overrules a reading, or damage that you can"
                                        + " see."))));
    }
}
