package chainage.page;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.temporal.TemporalAdjusters;
import java.util.ArrayList;
import java.util.List;

/**
 * Where values lie on a line of pixels.
 *
 * @param low value at its start
 * @param high value at its end, above low
 * @param from pixel of its start
 * @param to pixel of its end
 */
record Scale(double low, double high, double from, double to) {
    /** Letters of a month and the space to the next, pixels. */
    private static final double MONTH_ROOM = 34;

    private static final String[] MONTHS = {
        "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"
    };

    Scale {
        if (!(high > low)) {
            throw new IllegalArgumentException("scale from " + low + " to " + high);
        }
    }

    /** A mark on an axis. */
    record Tick(double value, String text) {}

    /** The pixel of a value; values beyond the ends lie on them. */
    double at(double value) {
        return from + (Math.max(low, Math.min(high, value)) - low) / (high - low) * (to - from);
    }

    /** Round values between the ends, about so many. */
    List<Tick> ticks(int about) {
        double rough = (high - low) / about;
        double power = Math.pow(10, Math.floor(Math.log10(rough)));
        double step = power * (rough / power < 1.5 ? 1 : rough / power < 3.5 ? 2 : rough / power < 7.5 ? 5 : 10);
        List<Tick> ticks = new ArrayList<>();
        for (long i = (long) Math.ceil(low / step - 1e-9); i * step <= high + step * 1e-9; i++) {
            double value = i * step;
            ticks.add(new Tick(
                    value,
                    BigDecimal.valueOf(value)
                            .setScale(Math.max(0, (int) -Math.floor(Math.log10(step))), RoundingMode.HALF_UP)
                            .toPlainString()));
        }
        return ticks;
    }

    /** Round values of an upright scale as lines across the plot, their figures left of it. */
    List<Drawing.Shape> rungs(int about, double left, double right) {
        List<Drawing.Shape> shapes = new ArrayList<>();
        for (Tick t : ticks(about)) {
            shapes.add(Drawing.line("grid", left, at(t.value()), right, at(t.value())));
            shapes.add(Drawing.label("axis", left - 6, at(t.value()) + 4, "end", t.text()));
        }
        return shapes;
    }

    /** The first days of months, fewer where they would crowd, or Mondays in a short span; values are days since 1970. */
    List<Tick> days() {
        return high - low < 100 ? mondays() : months();
    }

    private List<Tick> mondays() {
        double room = Math.abs(to - from) / (MONTH_ROOM * 1.6);
        int every = 1 + (int) ((high - low) / 7 / room);
        List<Tick> ticks = new ArrayList<>();
        LocalDate day =
                LocalDate.ofEpochDay((long) Math.ceil(low)).with(TemporalAdjusters.nextOrSame(DayOfWeek.MONDAY));
        for (; day.toEpochDay() <= high; day = day.plusWeeks(every)) {
            ticks.add(new Tick(day.toEpochDay(), day.getDayOfMonth() + " " + MONTHS[day.getMonthValue() - 1]));
        }
        return ticks;
    }

    private List<Tick> months() {
        double months = (high - low) / 30.44;
        double room = Math.abs(to - from) / MONTH_ROOM;
        int every = 1;
        for (int n : new int[] {2, 3, 6, 12, 24, 60, 120}) {
            every = months / every > room ? n : every;
        }
        List<Tick> ticks = new ArrayList<>();
        LocalDate day = LocalDate.ofEpochDay((long) Math.ceil(low));
        day = day.getDayOfMonth() == 1 ? day : day.withDayOfMonth(1).plusMonths(1);
        for (; day.toEpochDay() <= high; day = day.plusMonths(1)) {
            long index = day.getYear() * 12L + day.getMonthValue() - 1;
            if (index % every == 0) {
                boolean january = day.getMonthValue() == 1;
                ticks.add(new Tick(
                        day.toEpochDay(), january ? String.valueOf(day.getYear()) : MONTHS[day.getMonthValue() - 1]));
            }
        }
        return ticks;
    }
}
