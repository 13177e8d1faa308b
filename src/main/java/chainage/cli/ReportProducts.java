package chainage.cli;

import chainage.analysis.Analysis;
import chainage.cost.CostPeriod;
import chainage.cost.CostedProduct;
import chainage.cost.Currencies;
import chainage.cost.ProductCosts;
import chainage.exposure.ChainExposure;
import chainage.exposure.RideExposure;
import chainage.ledger.Event;
import chainage.page.Block;
import chainage.page.Cell;
import chainage.page.Grid;
import chainage.page.Page;
import chainage.page.RowPlot;
import chainage.quantity.Estimate;
import chainage.render.Formatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/** The products as the rider's own chains met them. */
final class ReportProducts {
    private final Analysis analysis;
    private final Formatter format;

    ReportProducts(Analysis analysis, Formatter format) {
        this.analysis = analysis;
        this.format = format;
    }

    /** What a product was used for. */
    private static final class Use {
        private final Event.ProductDescribed product;
        private int treatments;
        private double metres;
        private double percent;

        Use(Event.ProductDescribed product) {
            this.product = product;
        }
    }

    Page.Part part() {
        SortedMap<String, Use> uses = new TreeMap<>();
        for (ChainExposure chain : analysis.exposures().chains().values()) {
            for (RideExposure r : chain.rides()) {
                Use use = uses.computeIfAbsent(r.product().product(), p -> new Use(r.product()));
                use.metres += r.metres().metres();
                use.percent += r.elongationPercent();
            }
            for (Event.Treated t : analysis.ledger().treatments(chain.chain().chain())) {
                analysis.ledger()
                        .product(t.product())
                        .ifPresent(p -> uses.computeIfAbsent(p.product(), k -> new Use(p)).treatments++);
            }
        }
        List<Block> blocks = new ArrayList<>();
        List<RowPlot.Row> rows = new ArrayList<>();
        double most = 1;
        for (Use u : uses.values()) {
            Estimate life = analysis.lives().of(u.product);
            if (life != null) {
                Estimate shown = format.ofMetres(life);
                most = Math.max(most, shown.high());
                rows.add(new RowPlot.Row(
                        u.product.product(),
                        format.distance(life.likely()),
                        List.of(new RowPlot.Mark(false, shown, format.distance(life.likely())))));
            }
        }
        if (!rows.isEmpty()) {
            blocks.add(new Block.Figure(new RowPlot(rows, 0, most * 1.05, null, "", false, "")
                    .plot(
                            "How long a treatment lasts",
                            "Likely life of one treatment with its 80 % interval, " + format.unit()
                                    + " of dry, clean road.")));
        }
        blocks.add(new Block.Table(grid(uses)));
        List<Page.Section> sections = new ArrayList<>(
                List.of(new Page.Section("products-list", "Life and wear", "by your own chains' rides", blocks)));
        costs().ifPresent(sections::add);
        return new Page.Part("products", "The products", List.of(), sections);
    }

    /** As chainage cost has it where nothing else is asked for. */
    private Optional<Page.Section> costs() {
        List<Event.ProductDescribed> products =
                List.copyOf(analysis.ledger().products().values());
        CostPeriod season = CostCommand.season(analysis, null, analysis.at());
        if (season.rides() == 0 || products.isEmpty()) {
            return Optional.empty();
        }
        SortedMap<String, List<String>> currencies = Currencies.of(season, products, null);
        String since = format.distance(season.metres()) + " from " + format.date(season.from());
        if (currencies.size() > 1) {
            return Optional.of(new Page.Section(
                    "products-cost",
                    "Watts and money",
                    since,
                    List.of(Block.note("Prices in several currencies cannot be added up: "
                            + String.join(", ", currencies.keySet()) + ". Set them in one."))));
        }
        ProductCosts comparison = CostCommand.comparison(
                season, null, new EffortOptions(), CostCommand.powered(season), currencies, null);
        List<CostedProduct> ranked = comparison.rank(products, comparison.usual());
        List<Block> blocks = new ArrayList<>(List.of(
                Block.words(
                        "These rides, replayed as if every chain had been treated with one product alone, in time."),
                new Block.Table(watts(ranked)),
                Block.note(LossCommand.bandWords(ranked.get(0).loss().band())),
                new Block.Table(money(ranked, currencies.isEmpty() ? "" : comparison.currency() + " ")),
                Block.note(
                        "A watt-year is one watt saved for a year. Where the band reaches down to no saving at all, its"
                                + " cost has no high end.")));
        ranked.stream()
                .filter(c -> !CostText.missing(c).isEmpty())
                .forEach(c -> blocks.add(Block.note((c.name() + ": " + CostText.missing(c)))));
        return Optional.of(new Page.Section("products-cost", "Watts and money", since, blocks));
    }

    private static Grid watts(List<CostedProduct> ranked) {
        return new Grid(
                "What each product's chain loses on the mean, and what that saves against " + ProductCosts.USUAL
                        + ", with the model's band; watts",
                List.of(
                        Grid.words("Product"),
                        Grid.figures("Lost"),
                        Grid.figures("Saved"),
                        Grid.figures("Saved, low"),
                        Grid.figures("Saved, high")),
                ranked.stream()
                        .map(c -> List.of(
                                Cell.foreign(c.name()),
                                Cell.of(Formatter.fixed(c.loss().watts(), 1)),
                                Cell.of(Formatter.fixed(c.saved(), 1)),
                                Cell.of(Formatter.fixed(c.savedLow(), 1)),
                                Cell.of(Formatter.fixed(c.savedHigh(), 1))))
                        .toList(),
                true);
    }

    private static Grid money(List<CostedProduct> ranked, String currency) {
        return new Grid(
                "What a watt-year costs, the cheapest first, with the model's band; and a whole year: treatments, hours,"
                        + " money",
                List.of(
                        Grid.words("Product"),
                        Grid.figures(currency + "a watt-year"),
                        Grid.figures("Low"),
                        Grid.figures("High"),
                        Grid.figures("Treated"),
                        Grid.figures("Hours"),
                        Grid.figures(currency + "a year")),
                ranked.stream()
                        .map(c -> List.of(
                                Cell.foreign(c.name()),
                                Cell.of(CostText.amount(c.perWatt())),
                                Cell.of(CostText.amount(c.perWattLow())),
                                Cell.of(CostText.amount(c.perWattHigh())),
                                Cell.of(Formatter.fixed(c.usageOfYear().treatments(), 0)),
                                Cell.of(Formatter.fixed(c.usageOfYear().minutes() / 60, 1)),
                                Cell.of(CostText.amount(c.year().total()))))
                        .toList(),
                true);
    }

    private Grid grid(SortedMap<String, Use> uses) {
        List<List<Cell>> rows = new ArrayList<>();
        for (Use u : uses.values()) {
            Estimate life = analysis.lives().of(u.product);
            rows.add(List.of(
                    Cell.foreign(u.product.product()),
                    Cell.of(u.product.method().words()),
                    Cell.of(String.valueOf(u.treatments)),
                    Cell.of(Formatter.fixed(format.ofMetres(u.metres), 0)),
                    Cell.of(life == null ? "–" : Formatter.fixed(format.ofMetres(life.low()), 0)),
                    Cell.of(life == null ? "–" : Formatter.fixed(format.ofMetres(life.likely()), 0)),
                    Cell.of(life == null ? "–" : Formatter.fixed(format.ofMetres(life.high()), 0)),
                    Cell.of(u.metres == 0 ? "–" : Formatter.fixed(u.percent / format.ofMetres(u.metres) * 1000, 3))));
        }
        return new Grid(
                "Each product: treatments, " + format.unit() + " ridden on it, life of a treatment in " + format.unit()
                        + " of dry clean road, and the wear that the table of rates expects of those rides, % per 1000 "
                        + format.unit(),
                List.of(
                        Grid.words("Product"),
                        Grid.words("Method"),
                        Grid.figures("Treated"),
                        Grid.figures("Ridden"),
                        Grid.figures("Life, low"),
                        Grid.figures("Life, likely"),
                        Grid.figures("Life, high"),
                        Grid.figures("Wear")),
                rows,
                true);
    }
}
