package chainage.cli;

import chainage.analysis.Analysis;
import chainage.condition.Condition;
import chainage.exposure.CountedRide;
import chainage.ledger.Grit;
import chainage.ledger.Moisture;
import chainage.page.Block;
import chainage.page.Cell;
import chainage.page.Grid;
import chainage.page.MonthPlot;
import chainage.page.Page;
import chainage.render.Formatter;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

/** Each bike's months by the road under them. */
final class ReportBikes {
    private final Analysis analysis;
    private final Formatter format;

    ReportBikes(Analysis analysis, Formatter format) {
        this.analysis = analysis;
        this.format = format;
    }

    /** Metres of a month. */
    private static final class Sum {
        private double indoor;
        private double dry;
        private double damp;
        private double wet;
        private double dusty;
        private double gritty;

        void add(Condition c, double metres) {
            if (c.moisture() == Moisture.INDOOR) {
                indoor += metres;
            } else {
                wet += metres * c.wetShare();
                damp += metres * c.dampShare();
                dry += metres * (1 - c.wetShare() - c.dampShare());
            }
            dusty += c.grit() == Grit.DUSTY ? metres : 0;
            gritty += c.grit() == Grit.GRITTY ? metres : 0;
        }
    }

    Page.Part part() {
        SortedMap<String, SortedMap<YearMonth, Sum>> bikes = new TreeMap<>();
        for (CountedRide r : analysis.exposures().counted().values()) {
            String bike = r.ride().bike();
            if (bike != null) {
                bikes.computeIfAbsent(bike, b -> new TreeMap<>())
                        .computeIfAbsent(YearMonth.from(r.start().atZone(format.zone())), m -> new Sum())
                        .add(r.condition(), r.metres().metres());
            }
        }
        List<Page.Section> sections = new ArrayList<>();
        bikes.forEach((bike, sums) -> sections.add(section("bike-" + (sections.size() + 1), bike, months(sums))));
        return new Page.Part("bikes", "The bikes, month by month", List.of(), sections);
    }

    /** Every month from the first to the last, those without a ride too. */
    private List<MonthPlot.Month> months(SortedMap<YearMonth, Sum> sums) {
        List<MonthPlot.Month> months = new ArrayList<>();
        for (YearMonth m = sums.firstKey(); !m.isAfter(sums.lastKey()); m = m.plusMonths(1)) {
            Sum s = sums.getOrDefault(m, new Sum());
            months.add(new MonthPlot.Month(
                    m.toString(),
                    format.ofMetres(s.indoor),
                    format.ofMetres(s.dry),
                    format.ofMetres(s.damp),
                    format.ofMetres(s.wet),
                    format.ofMetres(s.dusty),
                    format.ofMetres(s.gritty)));
        }
        return months;
    }

    private Page.Section section(String id, String bike, List<MonthPlot.Month> months) {
        List<List<Cell>> rows = new ArrayList<>();
        for (MonthPlot.Month m : months) {
            rows.add(List.of(
                    Cell.date(m.name(), m.name()),
                    plain(m.all()),
                    plain(m.dry()),
                    plain(m.indoor()),
                    plain(m.damp()),
                    plain(m.wet()),
                    plain(m.dusty()),
                    plain(m.gritty())));
        }
        double all = months.stream().mapToDouble(MonthPlot.Month::all).sum();
        double wet = months.stream().mapToDouble(MonthPlot.Month::wet).sum();
        double gritty = months.stream().mapToDouble(MonthPlot.Month::gritty).sum();
        String said = Formatter.fixed(all, 0) + " " + format.unit() + " in all, " + Formatter.fixed(wet, 0)
                + " of it on wet road and " + Formatter.fixed(gritty, 0) + " in grit";
        Grid grid = new Grid(
                bike + " by month, " + format.unit() + "; dusty and gritty are parts of the same distance",
                List.of(
                        Grid.words("Month"),
                        Grid.figures("All"),
                        Grid.figures("Dry"),
                        Grid.figures("Indoor"),
                        Grid.figures("Damp"),
                        Grid.figures("Wet"),
                        Grid.figures("Dusty"),
                        Grid.figures("Gritty")),
                rows,
                true);
        return new Page.Section(
                id,
                bike,
                said,
                List.of(
                        new Block.Figure(new MonthPlot(months, format.unit())
                                .plot(
                                        "Distance a month on " + bike,
                                        "Distance a month: the wide bar by how wet the road was, the thin one beside it"
                                                + " the part that was dusty or gritty. " + said + ".")),
                        new Block.Table(grid)));
    }

    private static Cell plain(double value) {
        return Cell.of(Formatter.fixed(value, 0));
    }
}
