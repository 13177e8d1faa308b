package chainage.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.quantity.Estimate;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Scales, trails and what lies where in the plots. */
class DrawingTest {
    private static double day(String date) {
        return LocalDate.parse(date).toEpochDay();
    }

    private static List<String> texts(List<Scale.Tick> ticks) {
        return ticks.stream().map(Scale.Tick::text).toList();
    }

    @Test
    void ticksAreRoundAndInside() {
        assertEquals(List.of("0", "50", "100"), texts(new Scale(0, 120, 0, 300).ticks(3)));
        assertEquals(List.of("0.0", "0.1", "0.2", "0.3", "0.4", "0.5"), texts(new Scale(0, 0.56, 0, 300).ticks(5)));
        assertEquals(List.of("0", "5000", "10000"), texts(new Scale(0, 14_000, 0, 300).ticks(3)));
    }

    @Test
    void daysAreMondaysThenMonthsThenYears() {
        // 2026-08-31 is a Monday.
        assertEquals(
                List.of("31 Aug", "7 Sep", "14 Sep"),
                texts(new Scale(day("2026-08-30"), day("2026-09-20"), 0, 600).days()));
        assertEquals(
                List.of("Nov", "Dec", "2026", "Feb", "Mar"),
                texts(new Scale(day("2025-10-20"), day("2026-03-10"), 0, 600).days()));
        assertEquals(
                List.of("2024", "2025", "2026"), texts(new Scale(day("2023-06-01"), day("2026-06-01"), 0, 140).days()));
    }

    @Test
    void whatLiesBeyondAScaleIsDrawnAtItsEnd() {
        Scale x = new Scale(0, 100, 10, 210);
        assertEquals(List.of(10.0, 110.0, 210.0, 210.0), List.of(x.at(-5), x.at(50), x.at(100), x.at(1e9)));
        assertThrows(IllegalArgumentException.class, () -> new Scale(1, 1, 0, 10));
    }

    /** A long trail keeps its ends and never strays by more than it may. */
    @Test
    void aTrailLosesOnlyWhatCannotBeSeen() {
        long seed = 20261125;
        Random random = new Random(seed);
        Trail trail = new Trail();
        List<double[]> walked = new ArrayList<>();
        double x = 0;
        double y = 0;
        trail.move(0, 0);
        for (int i = 0; i < 5000; i++) {
            x += random.nextDouble() * 0.1;
            y += random.nextGaussian() * 0.2;
            trail.line(x, y);
            walked.add(new double[] {x, y});
        }
        List<double[]> kept = new ArrayList<>();
        for (String point : trail.data().substring(1).split("L", -1)) {
            String[] xy = point.split(" ", -1);
            kept.add(new double[] {Double.parseDouble(xy[0]), Double.parseDouble(xy[1])});
        }
        assertTrue(kept.size() < 2500, "seed " + seed + ": " + kept.size());
        assertEquals(x, kept.get(kept.size() - 1)[0], 0.051);
        assertEquals(y, kept.get(kept.size() - 1)[1], 0.051);
        for (double[] w : walked) {
            double nearest = kept.stream()
                    .mapToDouble(k -> Math.max(Math.abs(k[0] - w[0]), Math.abs(k[1] - w[1])))
                    .min()
                    .orElseThrow();
            assertTrue(nearest < 0.8, "seed " + seed + ": " + nearest);
        }
    }

    @Test
    void theFanEndsAtTheLimitWhereTheMetresSay() {
        Plot plot = new WearPlot(
                        List.of(new WearPlot.Point(0, 0), new WearPlot.Point(1000, 0.1)),
                        List.of(),
                        1000,
                        new Estimate(0.05, 0.1, 0.2),
                        new Estimate(3000, 4000, 4500),
                        0.5,
                        "km")
                .plot("Elongation", "words");
        Drawing.Path ahead = look(plot.wide(), "ahead");
        // From 48 to 712 px lie 0 to 5500 km and 2 % more; from 230 up to 20 px 0 to 0.56 %.
        double at = 48 + 664 * 5000 / (5500 * 1.02);
        double limit = 230 - 210 * 0.5 / 0.56;
        assertTrue(ahead.d().endsWith("L" + Drawing.px(at) + " " + Drawing.px(limit)), ahead.d());
        // The line of the past ends where the chain stands now.
        assertTrue(look(plot.wide(), "trace")
                .d()
                .endsWith(Drawing.px(48 + 664 * 1000 / (5500 * 1.02)) + " " + Drawing.px(230 - 210 * 0.1 / 0.56)));
    }

    private static Drawing.Path look(Drawing drawing, String look) {
        return drawing.shapes().stream()
                .filter(s -> s instanceof Drawing.Path p && p.look().equals(look))
                .map(Drawing.Path.class::cast)
                .findFirst()
                .orElseThrow();
    }

    @Test
    void aBarsPartsAddUp() {
        MonthPlot.Month m = new MonthPlot.Month("2026-03", 10, 60, 20, 10, 0, 40);
        assertEquals(100, m.all());
        Drawing drawing =
                new MonthPlot(List.of(m), "km").plot("Months", "words").wide();
        double height = 0;
        for (String look : List.of("dry", "indoor", "damp", "wet")) {
            // The first of each look is the legend's.
            Drawing.Path bar = drawing.shapes().stream()
                    .filter(s -> s instanceof Drawing.Path p && p.look().equals("bar " + look))
                    .map(Drawing.Path.class::cast)
                    .skip(1)
                    .findFirst()
                    .orElseThrow();
            height += Double.parseDouble(bar.d().replaceAll(".*v([0-9.]+)h.*", "$1"));
        }
        // 160 px are 112 % of the highest month.
        assertEquals(160 / 1.12, height, 0.3);
    }

    @Test
    void aRaggedTableIsRefused() {
        assertThrows(
                IllegalArgumentException.class,
                () -> new Grid("x", List.of(Grid.words("a"), Grid.words("b")), List.of(List.of(Cell.NONE)), false));
    }

    @Test
    void figuresAreTiedToTheirUnits() {
        assertEquals("80\u00a0% of 12.3\u00a0km, 5 kmh", Block.tied("80 % of 12.3 km, 5 kmh"));
    }
}
