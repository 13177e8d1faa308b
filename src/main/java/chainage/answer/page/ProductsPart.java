package chainage.answer.page;

import chainage.analysis.Analysis;
import chainage.analysis.Costs;
import chainage.answer.ModelBand;
import chainage.answer.cost.CostAnswer;
import chainage.cost.CostPeriod;
import chainage.cost.Currencies;
import chainage.cost.PricedThing;
import chainage.exposure.ChainExposure;
import chainage.exposure.RideExposure;
import chainage.ledger.Event;
import chainage.page.Block;
import chainage.page.Grid;
import chainage.page.Page;
import chainage.page.RowPlot;
import chainage.quantity.Estimate;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Unit;
import chainage.treatment.OtherRiders;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.ToDoubleFunction;

/** The products as the rider's own chains met them. */
final class ProductsPart {
    private final Analysis analysis;
    private final Formatter format;

    ProductsPart(Analysis analysis, Formatter format) {
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
        boolean ringed = false;
        for (Use u : uses.values()) {
            Estimate life = analysis.lives().of(u.product);
            if (life != null) {
                Estimate shown = format.ofMetres(life);
                most = Math.max(most, shown.high());
                List<RowPlot.Ring> rings = new ArrayList<>();
                for (OtherRiders.Single o : others(u.product)) {
                    double at = format.ofMetres(o.metres());
                    most = Math.max(most, at);
                    rings.add(new RowPlot.Ring(
                            at,
                            "another rider: " + format.distance(o.metres()) + ", "
                                    + Formatter.count(o.lives(), "life", "lives")));
                }
                ringed |= !rings.isEmpty();
                rows.add(new RowPlot.Row(
                        u.product.product(),
                        format.distance(life.likely()),
                        List.of(new RowPlot.Mark(false, shown, format.distance(life.likely()))),
                        rings));
            }
        }
        if (!rows.isEmpty()) {
            blocks.add(new Block.Figure(new RowPlot(rows, 0, most * 1.05, null, "", false, "")
                    .plot(
                            "How long a treatment lasts",
                            "Likely life of one treatment, with the range that holds 8 times in 10, " + format.unit()
                                    + " of dry, clean road."
                                    + (ringed
                                            ? " A ring is another rider's typical life, by that rider's treatments alone."
                                            : ""))));
        }
        List<Block> tables = new ArrayList<>(List.of(new Block.Table(grid(uses))));
        if (ringed) {
            tables.add(new Block.Table(riders(uses)));
        }
        blocks.add(new Block.Fold("Life and wear by product", tables));
        List<Page.Section> sections = new ArrayList<>(
                List.of(new Page.Section("products-list", "Life and wear", "by your own chains' rides", blocks)));
        new MetersSection(analysis, format).section().ifPresent(sections::add);
        costs().ifPresent(sections::add);
        return new Page.Part("products", "Products", List.of(), sections);
    }

    private List<OtherRiders.Single> others(Event.ProductDescribed product) {
        return analysis.others().weighed().each(product, analysis.factors());
    }

    /** A rider of others and what that rider has shown of a product. */
    private record Ring(String product, OtherRiders.Single of) {}

    private Grid riders(SortedMap<String, Use> uses) {
        List<Ring> rings = uses.values().stream()
                .flatMap(u -> others(u.product).stream().map(o -> new Ring(u.product.product(), o)))
                .toList();
        return Columns.of(
                        Column.<Ring>shown("Product", Unit.NAME, (r, f) -> r.product()),
                        Column.<Ring>shown(
                                "Typical life", Unit.METRES, (r, f) -> Formatter.fixed(f.ofMetres(r.of().metres()), 0)),
                        Column.<Ring>shown("Lives", Unit.COUNT, (r, f) -> String.valueOf(r.of().lives())))
                .grid(
                        "Other riders, a row for each and product: typical life in " + format.unit()
                                + " of dry clean road by that rider's treatments alone, and how many lives were seen",
                        rings,
                        format,
                        true);
    }

    /** As chainage cost has it where nothing else is asked for. */
    private Optional<Page.Section> costs() {
        List<Event.ProductDescribed> products =
                List.copyOf(analysis.ledger().products().values());
        CostPeriod period = Costs.period(analysis, null, analysis.at());
        if (period.rides() == 0 || products.isEmpty()) {
            return Optional.empty();
        }
        SortedMap<String, List<PricedThing>> currencies = Currencies.of(period, products, null);
        String since = format.distance(period.metres()) + " from " + format.date(period.from());
        if (currencies.size() > 1) {
            return Optional.of(new Page.Section(
                    "products-cost",
                    "Watts and money",
                    since,
                    List.of(Block.note("Prices in several currencies cannot be added up: "
                            + String.join(", ", currencies.keySet()) + ". Set them in one."))));
        }
        Costs costs = Costs.of(analysis, period, products, new Costs.Usual(), null, null, null);
        CostAnswer answer = new CostAnswer(analysis, costs, false, format, null);
        List<Block> blocks = new ArrayList<>(List.of(
                Block.words(
                        "These rides, worked out as if every chain had been treated with one product only, each time at"
                                + " its typical life."),
                new Block.Table(answer.watts()
                        .grid(
                                "What each product's chain loses on the mean, what that saves against "
                                        + CostAnswer.USUAL
                                        + ", and what each watt saved costs a year, the cheapest first; each with the model's band",
                                answer.rows(),
                                format,
                                true)),
                Block.note(ModelBand.caution(costs.ranked().get(0).loss().band())),
                new Block.Table(answer.year()
                        .grid(
                                "A whole year of such riding: treatments at the likely life and at the cautious one,"
                                        + " hours, money",
                                answer.rows(),
                                format,
                                true)),
                Block.note(
                        "What a watt saved costs in a year is the cost per watt-year. Where the band reaches down to no saving at all, its"
                                + " cost has no high end.")));
        costs.ranked().stream()
                .filter(c -> !CostAnswer.unknown(c).isEmpty())
                .forEach(c -> blocks.add(Block.note(c.name() + ": " + CostAnswer.unknown(c))));
        return Optional.of(new Page.Section(
                "products-cost",
                "Watts and money",
                since,
                List.of(new Block.Fold("What each product saves and costs", blocks))));
    }

    private Grid grid(SortedMap<String, Use> uses) {
        Columns<Use> columns = Columns.of(
                Column.<Use>shown("Product", Unit.NAME, (u, f) -> u.product.product()),
                Column.<Use>shown(
                        "Method", Unit.WORD, (u, f) -> u.product.method().words()),
                Column.<Use>shown("Treated", Unit.COUNT, (u, f) -> String.valueOf(u.treatments)),
                Column.<Use>shown("Ridden", Unit.METRES, (u, f) -> Formatter.fixed(f.ofMetres(u.metres), 0)),
                life("Life, low", Estimate::low),
                life("Life, likely", Estimate::likely),
                life("Life, high", Estimate::high),
                Column.<Use>shown(
                        "Wear",
                        Unit.PERCENT,
                        (u, f) -> u.metres == 0 ? "–" : Formatter.fixed(u.percent / f.ofMetres(u.metres) * 1000, 3)));
        return columns.grid(
                "Each product: treatments, " + format.unit() + " ridden on it, life of a treatment in " + format.unit()
                        + " of dry clean road, and the wear that the table of rates expects of those rides, % per 1000 "
                        + format.unit(),
                uses.values(),
                format,
                true);
    }

    private Column<Use> life(String head, ToDoubleFunction<Estimate> end) {
        return Column.shown(head, Unit.METRES, (u, f) -> {
            Estimate life = analysis.lives().of(u.product);
            return life == null ? "–" : Formatter.fixed(f.ofMetres(end.applyAsDouble(life)), 0);
        });
    }
}
