package chainage.cli;

import chainage.condition.Condition;
import chainage.condition.Wetness;
import chainage.drivetrain.Reference;
import chainage.exposure.ChainExposure;
import chainage.exposure.Factors;
import chainage.exposure.RideExposure;
import chainage.ledger.Event;
import chainage.ledger.Grit;
import chainage.ledger.Method;
import chainage.ledger.Moisture;
import chainage.standing.Dates;
import chainage.standing.Standing;
import chainage.treatment.ProductLife;
import chainage.treatment.TreatmentStanding;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/** The reasons behind one chain's line: rides, factors with their marks, arithmetic. */
final class WhyText {
    private final Desk desk;
    private final Picture picture;
    private final Words words;

    WhyText(Desk desk, Picture picture) {
        this.desk = desk;
        this.picture = picture;
        this.words = desk.words();
    }

    void print(Standing s) {
        desk.out().println();
        lines(picture, s, words).forEach(line -> desk.out().println(DueText.wrap(Words.safe(line))));
        Table table = new Table()
                .whole("RIDE")
                .whole("DAY")
                .right("RIDDEN")
                .whole("ROAD")
                .right("TIMES")
                .right("COUNTS");
        for (RideExposure r : s.exposure().sinceTreatment()) {
            table.row(
                    r.ride().id(),
                    words.date(r.start()),
                    words.distance(r.metres().metres()),
                    road(r.condition()),
                    String.format(Locale.ROOT, "%.2f", r.treatmentFactor()),
                    words.distance(r.treatmentMetres()));
            String sum = arithmetic(picture.factors(), r);
            table.note("road: " + r.condition().from() + "; distance: "
                    + r.metres().from() + (sum.isEmpty() ? "" : "; " + sum));
        }
        if (!s.exposure().sinceTreatment().isEmpty()) {
            table.print(desk.out(), desk.columns());
        }
    }

    static String road(Condition c) {
        String moisture = wetness(c.wetness().get(0).value());
        return c.grit() == Grit.CLEAN ? moisture : moisture + ", " + c.grit().word();
    }

    /** For example {@code wet 30%, damp 20%}. */
    static String wetness(Wetness w) {
        if (w.wet() > 0 && w.damp() > 0) {
            return "wet" + part(w.wet()) + ", damp" + part(w.damp());
        }
        return w.moisture().word() + (w.wet() > 0 ? part(w.wet()) : w.damp() > 0 ? part(w.damp()) : "");
    }

    private static String part(double share) {
        return share < 1 ? " " + Math.max(1, Math.round(share * 100)) + "%" : "";
    }

    /** The same in sentences, one a step of the sum. */
    static List<String> lines(Picture picture, Standing s, Words words) {
        List<String> lines = new ArrayList<>();
        lines.addAll(treatment(picture, s, words));
        lines.addAll(wear(picture, s, words));
        return lines;
    }

    private static List<String> treatment(Picture picture, Standing s, Words words) {
        ChainExposure e = s.exposure();
        TreatmentStanding t = s.treatment();
        Method method = e.product().method();
        List<String> lines = new ArrayList<>();
        lines.add(s.chain() + ": "
                + (e.treatedAt() == null
                        ? "no treatment noted, so taken as " + method.words()
                        : e.product().product() + " (" + method.words() + ") since " + words.time(e.treatedAt())));
        ProductLife product = t.product();
        if (product == null) {
            lines.add("untreated: it has no treatment to use up and wears at the untreated rate");
        } else {
            lines.addAll(LifeWhy.lines(picture, product, t, words));
            int rides = e.sinceTreatment().size();
            lines.add(Words.count(rides, "ride", "rides") + " since, " + words.distance(e.metresSinceTreatment())
                    + ", counting as " + words.distance(t.exposureMetres()) + " of "
                    + words.distance(t.limitMetres()) + " = " + Words.percent(t.exposureMetres() / t.limitMetres())
                    + ", left " + words.left(t.limitMetres() - t.exposureMetres()));
            lines.addAll(factors(picture.factors(), e.sinceTreatment(), "treatment", "." + method.word()));
        }
        if (s.bike() != null && t.used() < 1) {
            lines.add(dates("treat", s.treatBy(), words));
            lines.add(dates("used up", s.treatOn(), words));
        }
        if (t.noisy() != null) {
            lines.add("you heard it on " + words.date(t.noisy()) + ", so the treatment counts as used up");
        }
        return lines;
    }

    /** The factors that these rides met, each with its mark. */
    private static List<String> factors(Factors factors, List<RideExposure> rides, String of, String method) {
        Set<String> keys = new TreeSet<>();
        for (RideExposure r : rides) {
            Condition c = r.condition();
            if (c.wetShare() > 0) {
                keys.add(of + ".wet" + method);
            }
            if (c.dampShare() > 0) {
                keys.add(of + ".damp" + method);
            }
            if (c.grit() != Grit.CLEAN) {
                keys.add(of + "." + c.grit().word() + method);
            }
        }
        List<String> parts = new ArrayList<>();
        for (String key : keys) {
            Factors.Factor f = factors.factor(key);
            parts.add(key.split("\\.", -1)[1] + " × " + Words.number(f.value()) + " (" + f.mark() + ")");
        }
        return parts.isEmpty() ? List.of() : List.of("factors for " + of + ": " + String.join(", ", parts));
    }

    /** For example {@code (0.6 + 0.4 × 4) × 2}; empty where nothing is weighted. */
    private static String arithmetic(Factors factors, RideExposure r) {
        Condition c = r.condition();
        double grit = factors.treatmentFactor(c.grit(), r.method());
        String wet = shares(factors, r);
        String dirty = grit == 1 ? "" : Words.number(grit);
        // A single factor stands in the row already.
        return wet.isEmpty() || dirty.isEmpty() ? (wet.startsWith("(") ? wet : "") : wet + " × " + dirty;
    }

    /** The shares of the road with their factors; one bare factor for a whole ride, empty for a dry one. */
    private static String shares(Factors factors, RideExposure r) {
        Condition c = r.condition();
        double wet = factors.treatmentFactor(Moisture.WET, r.method());
        double damp = factors.treatmentFactor(Moisture.DAMP, r.method());
        if (c.wetShare() == 1 || c.dampShare() == 1) {
            return Words.number(c.wetShare() == 1 ? wet : damp);
        }
        double dry = 1 - c.wetShare() - c.dampShare();
        return dry > 1 - 1e-9
                ? ""
                : "(" + (dry > 1e-9 ? Words.number(dry) + " + " : "")
                        + (c.dampShare() > 0 ? Words.number(c.dampShare()) + " × " + Words.number(damp) : "")
                        + (c.dampShare() > 0 && c.wetShare() > 0 ? " + " : "")
                        + (c.wetShare() > 0 ? Words.number(c.wetShare()) + " × " + Words.number(wet) : "")
                        + ")";
    }

    private static String dates(String what, @Nullable Dates d, Words words) {
        return d == null
                ? what + ": no date, for its bike has no ride in 12 weeks, or it is over 30 years off"
                : what + " about " + words.date(d.likely()) + ", 80 % between " + words.date(d.low()) + " and "
                        + words.date(d.high()) + ", by its bike's last " + Words.count(d.weeks(), "week", "weeks");
    }

    /** A chain on the shelf has no pace of its own; in a rotation it is wanted when the chain on its bike is due. */
    private static String shelf(Picture picture, Standing s, Words words) {
        List<RideExposure> rides = s.exposure().rides();
        String bike =
                rides.isEmpty() ? null : rides.get(rides.size() - 1).ride().bike();
        String waits = "on the shelf it waits, so it has no dates";
        return picture.standings().stream()
                .filter(other -> bike != null && bike.equals(other.bike()) && other.treatBy() != null)
                .findFirst()
                .map(other -> waits + "; if you alternate, it is wanted when " + other.chain() + " on " + bike
                        + " is to be treated, "
                        + words.due(other.treatBy(), other.treatment().used() >= 1))
                .orElse(waits);
    }

    /** How the table's elongation came about, treatment by treatment, since new. */
    private static List<String> worn(Picture picture, Standing s, Words words) {
        List<RideExposure> rides = s.exposure().rides();
        Map<String, double[]> sums = new LinkedHashMap<>();
        for (RideExposure r : rides) {
            double[] sum = sums.computeIfAbsent(r.product().product(), k -> new double[3]);
            sum[0] += r.metres().metres();
            sum[1] += r.wearMetres();
            sum[2] += r.elongationPercent();
        }
        List<String> lines = new ArrayList<>();
        sums.forEach((product, sum) -> lines.add("  " + product + ": " + words.distance(sum[0]) + " ridden, weighing "
                + words.distance(sum[1]) + ", at "
                + String.format(Locale.ROOT, "%.3f %% per 1000 km = %.3f %%", sum[2] / sum[1] * 1e6, sum[2])));
        lines.addAll(factors(picture.factors(), rides, "wear", ""));
        return lines;
    }

    /** What the rides' loads rest on: the same reason said once. */
    private static List<String> load(Factors factors, List<RideExposure> rides) {
        Map<String, Integer> reasons = new LinkedHashMap<>();
        double metres = 0;
        double weighed = 0;
        for (RideExposure r : rides) {
            // What follows the first semicolon differs from ride to ride; chainage rides --why has it.
            reasons.merge(
                    r.load().from().split(";", 2)[0] + (r.load().known() ? "" : ", so taken as 1"), 1, Integer::sum);
            metres += r.metres().metres();
            weighed += r.metres().metres() * r.load().value();
        }
        if (metres == 0) {
            return List.of();
        }
        List<String> parts = new ArrayList<>();
        reasons.forEach((reason, n) -> parts.add(n + " × " + reason));
        Reference reference = factors.reference();
        return List.of(String.format(
                        Locale.ROOT,
                        "load: %.2f times the sliding work a metre of the reference rider (%.0f W in %s, %s): ",
                        weighed / metres,
                        reference.watts(),
                        reference.gear(),
                        factors.factor("load.watts").mark())
                + String.join("; ", parts));
    }

    private static List<String> wear(Picture picture, Standing s, Words words) {
        List<String> lines = new ArrayList<>();
        lines.add("table elongation of its rides since new (our guess): "
                + WearWhy.percent(s.wear().expectedPercent()));
        lines.addAll(worn(picture, s, words));
        lines.addAll(load(picture.factors(), s.exposure().rides()));
        lines.addAll(WearWhy.lines(picture, s.wear(), words));
        Event.Remarked condemned = s.wear().condemned();
        if (condemned != null) {
            lines.add("you noted it as " + condemned.remark().word() + " on " + words.date(condemned.at())
                    + ": replace it whatever the figures say");
        }
        if (s.bike() != null) {
            lines.add(dates("replace", s.replaceOn(), words));
        } else {
            lines.add(shelf(picture, s, words));
        }
        return lines;
    }
}
