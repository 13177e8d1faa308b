package chainage.simulation;

import chainage.analysis.Analysis;
import chainage.exposure.Factors;
import chainage.ledger.Method;
import chainage.quantity.Estimate;
import chainage.treatment.ProductLife;
import chainage.treatment.TreatmentStanding;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;

/** What the program said of treatments' lives, beside what was true, by how much it had seen. */
final class LivesTable {
    /** Least lives seen in each row. */
    private static final int[] FROM = {0, 1, 5, 10, 20};

    private static final String[] ROWS = {"0", "1-4", "5-9", "10-19", "20+"};

    /** Without any evidence the rule of thumb renews after so many kilometres, whatever the road. */
    private static final Map<Method, Double> THUMB =
            Map.of(Method.HOT_WAX, 300.0, Method.DRIP_WAX, 600.0, Method.WET_LUBE, 350.0);

    private static double thumb(Method method) {
        return Objects.requireNonNull(THUMB.get(method));
    }

    /** One row's sums. */
    static final class Row {
        private int looks;
        private int ends;
        private int nextHeld;
        private int typicalHeld;
        private double bias;
        private double width;
        private int told;
        private int over;
        private int toldAhead;
        private int overAhead;
        private int toldKnowing;
        private int overKnowing;
        private final List<Double> errors = new ArrayList<>();
        private final List<Double> thumb = new ArrayList<>();
        private final List<Double> last = new ArrayList<>();

        int looks() {
            return looks;
        }

        /** Share of 80 % intervals of the running treatment's life that held its end, as its rides counted. */
        double nextHeld() {
            return (double) nextHeld / ends;
        }

        /** Share of 80 % intervals of the typical life that held it. */
        double typicalHeld() {
            return (double) typicalHeld / looks;
        }

        /** Share of lives that were over when the rider was told before the ride that would take it past the risk. */
        double overAhead() {
            return (double) overAhead / toldAhead;
        }

        /** The same told by one who knows how lives spread and what each ride takes of them. */
        double overKnowing() {
            return (double) overKnowing / toldKnowing;
        }

        /** Mean width of the interval of the next life, in the log, against that of one who knows the truth. */
        double width() {
            return width / looks;
        }

        double error() {
            return mean(errors);
        }

        double thumbError() {
            return mean(thumb);
        }

        double lastError() {
            return mean(last);
        }

        private static double mean(List<Double> of) {
            return of.stream().mapToDouble(d -> d).average().orElse(Double.NaN);
        }

        private String words() {
            return String.format(
                    Locale.ROOT,
                    "%5d | %3.0f | %3.0f | %+4.0f | %4.2f | %3.0f | %3.0f | %3.0f | %4.2f | %4.2f | %4.2f",
                    looks,
                    100 * nextHeld(),
                    100 * typicalHeld(),
                    100 * (Math.exp(bias / looks) - 1),
                    width / looks,
                    100.0 * over / told,
                    100 * overAhead(),
                    100 * overKnowing(),
                    error(),
                    thumbError(),
                    lastError());
        }
    }

    private final Map<Scenario, Row[]> rows = new TreeMap<>();

    /** Looks at a story at the start of some of its treatments. */
    void take(Story story, int[] which) {
        take(story, which, t -> {
            Analysis analysis = story.at(t.at());
            return new Known(analysis.standing(t.chain()).orElseThrow().treatment(), analysis.factors());
        });
    }

    /** What is known at the start of a treatment. */
    record Known(TreatmentStanding standing, Factors factors) {}

    /** Looks by what somebody makes of it. */
    void take(Story story, int[] which, Function<Story.Treatment, Known> making) {
        Row[] mine = rows.computeIfAbsent(story.scenario(), s -> {
            Row[] fresh = new Row[FROM.length];
            for (int i = 0; i < fresh.length; i++) {
                fresh[i] = new Row();
            }
            return fresh;
        });
        for (int i : which) {
            if (i < story.treatments().size()) {
                look(story, i, making.apply(story.treatments().get(i)), mine);
            }
        }
    }

    private static void look(Story story, int which, Known here, Row[] rows) {
        Story.Treatment t = story.treatments().get(which);
        TreatmentStanding s = here.standing();
        ProductLife known = s.product();
        if (known == null) {
            throw new AssertionError(t);
        }
        int row = FROM.length - 1;
        while (known.lives().size() < FROM[row]) {
            row--;
        }
        Row r = rows[row];
        r.looks++;
        Estimate single = known.life();
        Estimate typical = known.typical();
        r.typicalHeld += held(typical, t.typicalMetres());
        r.bias += Math.log(typical.likely() / t.typicalMetres());
        r.width += Math.log(known.single(0.9) / known.single(0.1)) / Math.log(t.highMetres() / t.lowMetres());

        // Ridden on, whatever the rider did then: how far was the treatment when it would have been told?
        Factors factors = here.factors();
        double usual = median(story, which, o -> counts(o, factors, story.method()));
        double usualUsed = median(story, which, Story.Outing::used);
        double e = 0;
        double used = 0;
        double km = 0;
        double lastKm = lastKm(story, which);
        boolean ended = false;
        boolean told = false;
        boolean ahead = usual >= s.limitMetres();
        r.toldAhead += ahead ? 1 : 0;
        boolean knowing = usualUsed >= t.lowMetres();
        r.toldKnowing += knowing ? 1 : 0;
        boolean ours = false;
        boolean thumb = false;
        boolean last = false;
        for (Story.Outing o :
                story.outings().subList(t.firstRide(), story.outings().size())) {
            double counts = counts(o, factors, story.method());
            if (!ended && used + o.used() >= t.lifeMetres()) {
                ended = true;
                r.ends++;
                r.nextHeld += held(single, e + counts * (t.lifeMetres() - used) / o.used());
            }
            e += counts;
            used += o.used();
            km += o.metres() / 1000;
            double error = Math.abs(Math.log(used / t.lifeMetres()));
            if (!told && e >= s.limitMetres()) {
                told = true;
                r.told++;
                r.over += used >= t.lifeMetres() ? 1 : 0;
            }
            if (!ahead && e + usual >= s.limitMetres()) {
                ahead = true;
                r.toldAhead++;
                r.overAhead += used >= t.lifeMetres() ? 1 : 0;
            }
            if (!knowing && used + usualUsed >= t.lowMetres()) {
                knowing = true;
                r.toldKnowing++;
                r.overKnowing += used >= t.lifeMetres() ? 1 : 0;
            }
            if (!ours && e >= single.likely()) {
                ours = true;
                r.errors.add(error);
            }
            if (!thumb && km >= thumb(story.method())) {
                thumb = true;
                r.thumb.add(error);
            }
            if (!last && km >= lastKm) {
                last = true;
                r.last.add(error);
            }
            if (ended && told && ahead && knowing && ours && thumb && last) {
                return;
            }
        }
    }

    private static int held(Estimate interval, double truth) {
        return interval.low() <= truth && truth <= interval.high() ? 1 : 0;
    }

    private static double counts(Story.Outing o, Factors factors, Method method) {
        return o.metres() * factors.treatmentFactor(o.moisture(), method) * factors.treatmentFactor(o.grit(), method);
    }

    /** Of what the rides before counted, by somebody's measure, the last thirty of them. */
    private static double median(Story story, int which, ToDoubleFunction<Story.Outing> by) {
        int to = story.treatments().get(which).firstRide();
        double[] counts = story.outings().subList(Math.max(0, to - 30), to).stream()
                .mapToDouble(by)
                .sorted()
                .toArray();
        return counts.length == 0 ? 0 : counts[counts.length / 2];
    }

    /** Kilometres, as the computer counts them, to the last end that was noted. */
    private static double lastKm(Story story, int which) {
        for (int i = which - 1; i >= 0; i--) {
            Story.Treatment t = story.treatments().get(i);
            if (t.noted() && t.product().equals(story.treatments().get(which).product())) {
                return story.outings().subList(t.firstRide(), t.lastRide()).stream()
                                .mapToDouble(Story.Outing::metres)
                                .sum()
                        / 1000;
            }
        }
        return thumb(story.method());
    }

    /** Rows of a scenario, by how much was seen. */
    Row[] rows(Scenario scenario) {
        return Objects.requireNonNull(rows.get(scenario));
    }

    /** The table, a line a row. */
    String words() {
        StringBuilder text = new StringBuilder(
                "lives: 80 % intervals of the next life and of the typical one held the"
                        + " truth, bias of the typical one, width against one who knows; over when told after the ride, before"
                        + " it, before it by one who knows; mean error in the log of when it ends, ours, by fixed km, by the last"
                        + " life's km\n"
                        + "scenario           | seen  | looks | nxt | typ | bias | wdth | aft | bef | kno | ours | thmb | last\n");
        rows.forEach((scenario, rows) -> {
            for (int i = 0; i < rows.length; i++) {
                if (rows[i].looks > 0) {
                    text.append(String.format(
                            Locale.ROOT, "%-18s | %-5s | %s%n", scenario.words(), ROWS[i], rows[i].words()));
                }
            }
        });
        return text.toString();
    }
}
