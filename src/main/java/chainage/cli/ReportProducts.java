package chainage.cli;

import chainage.exposure.ChainExposure;
import chainage.exposure.RideExposure;
import chainage.ledger.Event;
import chainage.page.Block;
import chainage.page.Cell;
import chainage.page.Grid;
import chainage.page.Page;
import chainage.page.RowPlot;
import chainage.quantity.Estimate;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

/** The products as the rider's own chains met them. */
final class ReportProducts {
    private final Picture picture;
    private final Words words;

    ReportProducts(Picture picture, Words words) {
        this.picture = picture;
        this.words = words;
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
        for (ChainExposure chain : picture.exposures().chains().values()) {
            for (RideExposure r : chain.rides()) {
                Use use = uses.computeIfAbsent(r.product().product(), p -> new Use(r.product()));
                use.metres += r.metres().metres();
                use.percent += r.elongationPercent();
            }
            for (Event.Treated t : picture.ledger().treatments(chain.chain().chain())) {
                picture.ledger()
                        .product(t.product())
                        .ifPresent(p -> uses.computeIfAbsent(p.product(), k -> new Use(p)).treatments++);
            }
        }
        List<Block> blocks = new ArrayList<>();
        List<RowPlot.Row> rows = new ArrayList<>();
        double most = 1;
        for (Use u : uses.values()) {
            Estimate life = picture.lives().of(u.product);
            if (life != null) {
                Estimate shown = new Estimate(
                        words.ofMetres(life.low()), words.ofMetres(life.likely()), words.ofMetres(life.high()));
                most = Math.max(most, shown.high());
                rows.add(new RowPlot.Row(
                        Words.safe(u.product.product()),
                        words.distance(life.likely()),
                        List.of(new RowPlot.Mark(false, shown, words.distance(life.likely())))));
            }
        }
        if (!rows.isEmpty()) {
            blocks.add(new Block.Figure(new RowPlot(rows, 0, most * 1.05, null, "", false, "")
                    .plot(
                            "How long a treatment lasts",
                            "Likely life of one treatment with its 80 % interval, " + words.unit()
                                    + " of dry, clean road.")));
        }
        blocks.add(new Block.Table(grid(uses)));
        return new Page.Part(
                "products",
                "The products",
                List.of(),
                List.of(new Page.Section("products-list", "Life and wear", "by your own chains' rides", blocks)));
    }

    private Grid grid(SortedMap<String, Use> uses) {
        List<List<Cell>> rows = new ArrayList<>();
        for (Use u : uses.values()) {
            Estimate life = picture.lives().of(u.product);
            rows.add(List.of(
                    Cell.foreign(Words.safe(u.product.product())),
                    Cell.of(u.product.method().words()),
                    Cell.of(String.valueOf(u.treatments)),
                    Cell.of(Words.noDecimals(words.ofMetres(u.metres))),
                    Cell.of(life == null ? "–" : Words.noDecimals(words.ofMetres(life.low()))),
                    Cell.of(life == null ? "–" : Words.noDecimals(words.ofMetres(life.likely()))),
                    Cell.of(life == null ? "–" : Words.noDecimals(words.ofMetres(life.high()))),
                    Cell.of(u.metres == 0 ? "–" : Words.threeDecimals(u.percent / words.ofMetres(u.metres) * 1000))));
        }
        return new Grid(
                "Each product: treatments, " + words.unit() + " ridden on it, life of a treatment in " + words.unit()
                        + " of dry clean road, and the wear that the table of rates expects of those rides, % per 1000 "
                        + words.unit(),
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
