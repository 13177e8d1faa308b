package chainage.answer.page;

import chainage.analysis.Analysis;
import chainage.condition.Condition;
import chainage.exposure.CountedRide;
import chainage.ledger.Grit;
import chainage.ledger.Moisture;
import chainage.page.Block;
import chainage.page.Grid;
import chainage.page.MonthPlot;
import chainage.page.Page;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Unit;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.ToDoubleFunction;

/** Each bike's months by the road under them. */
final class BikesPart {
    private static final Columns<MonthPlot.Month> MONTHS = Columns.of(
            Column.<MonthPlot.Month>shown("Month", Unit.DAY, (m, f) -> m.name()),
            part("All", MonthPlot.Month::all),
            part("Dry", MonthPlot.Month::dry),
            part("Indoor", MonthPlot.Month::indoor),
            part("Damp", MonthPlot.Month::damp),
            part("Wet", MonthPlot.Month::wet),
            part("Dusty", MonthPlot.Month::dusty),
            part("Gritty", MonthPlot.Month::gritty));

    private final Analysis analysis;
    private final Formatter format;

    BikesPart(Analysis analysis, Formatter format) {
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
                        .computeIfAbsent(YearMonth.from(format.localDay(r.start())), m -> new Sum())
                        .add(r.condition(), r.metres().metres());
            }
        }
        List<Page.Section> sections = new ArrayList<>();
        bikes.forEach((bike, sums) -> sections.add(section("bike-" + (sections.size() + 1), bike, months(sums))));
        return new Page.Part("bikes", "Bikes", List.of(), sections);
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
        double all = months.stream().mapToDouble(MonthPlot.Month::all).sum();
        double wet = months.stream().mapToDouble(MonthPlot.Month::wet).sum();
        double gritty = months.stream().mapToDouble(MonthPlot.Month::gritty).sum();
        String unit = " " + format.unit();
        String said = Formatter.fixed(all, 0) + unit + ", " + Formatter.fixed(wet, 0) + unit + " of it wet, "
                + Formatter.fixed(gritty, 0) + unit + " gritty";
        Grid grid = MONTHS.grid(
                bike + " by month, " + format.unit() + "; dusty and gritty are parts of the same distance",
                months.stream().filter(m -> m.all() > 0).toList(),
                format,
                true);
        return new Page.Section(
                id,
                bike,
                said,
                List.of(new Block.Fold(
                        "Distance by month",
                        List.of(
                                new Block.Figure(new MonthPlot(months, format.unit())
                                        .plot(
                                                "Distance a month on " + bike + ": " + said,
                                                "Wide bars: distance by how wet the road was. Thin bars: the dusty or"
                                                        + " gritty part.")),
                                new Block.Table(grid)))));
    }

    private static Column<MonthPlot.Month> part(String head, ToDoubleFunction<MonthPlot.Month> distance) {
        return Column.shown(head, Unit.METRES, (m, f) -> Formatter.fixed(distance.applyAsDouble(m), 0));
    }
}
