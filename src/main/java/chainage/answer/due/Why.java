package chainage.answer.due;

import chainage.analysis.Analysis;
import chainage.answer.LoadWords;
import chainage.answer.Reasons;
import chainage.answer.RoadNames;
import chainage.condition.Condition;
import chainage.drivetrain.Reference;
import chainage.exposure.ChainExposure;
import chainage.exposure.Factors;
import chainage.exposure.RideExposure;
import chainage.ledger.Event;
import chainage.ledger.Grit;
import chainage.ledger.Method;
import chainage.ledger.Moisture;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Out;
import chainage.render.Unit;
import chainage.standing.Dates;
import chainage.standing.Standing;
import chainage.treatment.ProductLife;
import chainage.treatment.TreatmentStanding;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/** The reasons behind one chain's line: rides, factors with their marks, arithmetic. */
public final class Why {
    private static final Columns<RideExposure> RIDES = Columns.of(
            Column.shown("RIDE", Unit.ID, (r, format) -> r.ride().id()),
            Column.shown("DAY", Unit.DAY, (r, format) -> format.date(r.start())),
            Column.shown(
                    "RIDDEN",
                    Unit.METRES,
                    (r, format) -> format.distance(r.metres().metres())),
            Column.shown("ROAD", Unit.ID, (r, format) -> RoadNames.words(r.condition())),
            Column.shown("TIMES", Unit.TIMES, (r, format) -> Formatter.fixed(r.treatmentFactor(), 2)),
            Column.shown("COUNTS", Unit.METRES, (r, format) -> format.distance(r.treatmentMetres())));

    private Why() {}

    static void print(Analysis analysis, Standing s, Formatter format, Out out) {
        out.line();
        out.lines(lines(analysis, s, format));
        List<RideExposure> rides = s.exposure().sinceTreatment();
        if (!rides.isEmpty()) {
            out.table(RIDES.table(rides, format, r -> {
                String sum = arithmetic(analysis.factors(), r);
                return "road: " + Reasons.of(r.condition(), format) + "; distance: "
                        + Reasons.of(r.metres(), r.ride().filed().ride()) + (sum.isEmpty() ? "" : "; " + sum);
            }));
        }
    }

    /** The same in sentences, one a step of the sum. */
    public static List<String> lines(Analysis analysis, Standing s, Formatter format) {
        List<String> lines = new ArrayList<>();
        lines.addAll(treatment(analysis, s, format));
        lines.addAll(wear(analysis, s, format));
        return lines;
    }

    private static List<String> treatment(Analysis analysis, Standing s, Formatter format) {
        ChainExposure e = s.exposure();
        TreatmentStanding t = s.treatment();
        Method method = e.product().method();
        List<String> lines = new ArrayList<>();
        lines.add(s.chain() + ": "
                + (e.treatedAt() == null
                        ? "no treatment noted, so taken as " + method.words()
                        : e.product().product() + " (" + method.words() + ") since " + format.time(e.treatedAt())));
        ProductLife product = t.product();
        if (product == null) {
            lines.add("untreated: it has no treatment that could wear off, and wears at the untreated rate");
        } else {
            lines.addAll(LifeWhy.lines(analysis, product, t, format));
            int rides = e.sinceTreatment().size();
            lines.add(Formatter.count(rides, "ride", "rides") + " since, " + format.distance(e.metresSinceTreatment())
                    + ", counting as " + format.distance(t.exposureMetres()) + " of "
                    + format.distance(t.limitMetres()) + " = " + Formatter.percent(t.exposureMetres() / t.limitMetres())
                    + ", " + (t.exposureMetres() > t.limitMetres() ? "" : "left ")
                    + format.left(t.limitMetres() - t.exposureMetres()));
            if (s.leftMetres() > 0 && Math.abs(s.usualCounts() - 1) >= 0.005) {
                lines.add("on the roads that its bike usually rides, where a " + format.unit() + " counts as "
                        + Formatter.fixed(s.usualCounts(), 2) + ", that is " + format.distance(s.leftMetres()));
            }
            lines.addAll(factors(analysis.factors(), e.sinceTreatment(), "treatment", "." + method.word()));
        }
        if (s.bike() != null && t.used() < 1) {
            lines.add(dates("treat", analysis, s, s.treatBy(), format));
            lines.add(dates("worn off", analysis, s, s.treatOn(), format));
        }
        if (t.noisy() != null) {
            lines.add("you heard it on " + format.date(t.noisy()) + ", so the treatment counts as worn off");
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
            String value =
                    f.mark().equals(Factors.LEARNT) ? Formatter.fixed(f.value(), 2) : Formatter.number(f.value());
            parts.add(key.split("\\.", -1)[1] + " × " + value + " (" + f.mark() + ")");
        }
        return parts.isEmpty() ? List.of() : List.of("factors for " + of + ": " + String.join(", ", parts));
    }

    /** For example {@code (0.6 + 0.4 × 4) × 2}; empty where nothing is weighted. */
    private static String arithmetic(Factors factors, RideExposure r) {
        Condition c = r.condition();
        double grit = factors.treatmentFactor(c.grit(), r.method());
        String wet = shares(factors, r);
        String dirty = grit == 1 ? "" : Formatter.number(grit);
        // A single factor stands in the row already.
        return wet.isEmpty() || dirty.isEmpty() ? (wet.startsWith("(") ? wet : "") : wet + " × " + dirty;
    }

    /** The shares of the road with their factors; one bare factor for a whole ride, empty for a dry one. */
    private static String shares(Factors factors, RideExposure r) {
        Condition c = r.condition();
        double wet = factors.treatmentFactor(Moisture.WET, r.method());
        double damp = factors.treatmentFactor(Moisture.DAMP, r.method());
        if (c.wetShare() == 1 || c.dampShare() == 1) {
            return Formatter.number(c.wetShare() == 1 ? wet : damp);
        }
        double dry = 1 - c.wetShare() - c.dampShare();
        return dry > 1 - 1e-9
                ? ""
                : "(" + (dry > 1e-9 ? Formatter.number(dry) + " + " : "")
                        + (c.dampShare() > 0 ? Formatter.number(c.dampShare()) + " × " + Formatter.number(damp) : "")
                        + (c.dampShare() > 0 && c.wetShare() > 0 ? " + " : "")
                        + (c.wetShare() > 0 ? Formatter.number(c.wetShare()) + " × " + Formatter.number(wet) : "")
                        + ")";
    }

    private static String dates(String what, Analysis analysis, Standing s, @Nullable Dates d, Formatter format) {
        return d == null
                ? what + ": no date, " + undated(analysis, s)
                : what + " about " + format.date(d.likely()) + ", between " + format.date(d.low()) + " and "
                        + format.date(d.high()) + " (80 %), by its bike's last "
                        + Formatter.count(d.weeks(), "week", "weeks")
                        + (d.share() > 0.995 ? "" : ", of whose rides it has " + Formatter.percent(d.share()));
    }

    /** Why a chain's dates cannot be given. */
    private static String undated(Analysis analysis, Standing s) {
        Instant stale = analysis.at().minus(Duration.ofDays(7L * Dates.STALE_WEEKS));
        boolean ridden = analysis.lastRide(String.valueOf(s.bike()))
                .filter(last -> last.isAfter(stale))
                .isPresent();
        return ridden
                ? "it is over " + Dates.HORIZON_YEARS + " years off"
                : "no ride of " + s.bike() + " in the last " + Dates.STALE_WEEKS + " weeks tells how fast it comes";
    }

    /** A chain on the shelf has no pace of its own; in a rotation it is wanted when the chain on its bike is due. */
    private static String shelf(Analysis analysis, Standing s, Formatter format) {
        List<RideExposure> rides = s.exposure().rides();
        String bike =
                rides.isEmpty() ? null : rides.get(rides.size() - 1).ride().bike();
        String waits = "on the shelf its treatment waits, so that has no date";
        return analysis.standings().stream()
                .filter(other -> bike != null && bike.equals(other.bike()) && other.treatBy() != null)
                .findFirst()
                .map(other -> waits + "; if you alternate, it is wanted when " + other.chain() + " on " + bike
                        + " is to be treated, "
                        + format.due(other.treatBy(), other.treatment().used() >= 1))
                .orElse(waits);
    }

    /** How the table's elongation came about, treatment by treatment, since new. */
    private static List<String> worn(Analysis analysis, Standing s, Formatter format) {
        List<RideExposure> rides = s.exposure().rides();
        Map<String, double[]> sums = new LinkedHashMap<>();
        for (RideExposure r : rides) {
            double[] sum = sums.computeIfAbsent(r.product().product(), k -> new double[3]);
            sum[0] += r.metres().metres();
            sum[1] += r.wearMetres();
            sum[2] += r.elongationPercent();
        }
        List<String> lines = new ArrayList<>();
        sums.forEach((product, sum) -> lines.add("  " + product + ": " + format.distance(sum[0])
                + " ridden, counting as "
                + format.distance(sum[1]) + ", at "
                + Formatter.fixed(format.perThousand(sum[2] / sum[1]), 3) + " % per 1000 " + format.unit() + " = "
                + Formatter.fixed(sum[2], 3) + " %"));
        lines.addAll(factors(analysis.factors(), rides, "wear", ""));
        return lines;
    }

    /** What the rides' loads rest on: the same reason said once. */
    private static List<String> load(Factors factors, List<RideExposure> rides) {
        Map<String, Integer> reasons = new LinkedHashMap<>();
        double metres = 0;
        double weighed = 0;
        for (RideExposure r : rides) {
            // chainage rides --why has all of each.
            reasons.merge(LoadWords.first(r.load()), 1, Integer::sum);
            metres += r.metres().metres();
            weighed += r.metres().metres() * r.load().value();
        }
        if (metres == 0) {
            return List.of();
        }
        List<String> parts = new ArrayList<>();
        reasons.forEach((reason, n) -> parts.add(Formatter.count(n, "ride", "rides") + ": " + reason));
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

    private static List<String> wear(Analysis analysis, Standing s, Formatter format) {
        List<String> lines = new ArrayList<>();
        lines.add("elongation of its rides since new by the built-in table (our guess): "
                + WearWhy.percent(s.wear().expectedPercent()));
        lines.addAll(worn(analysis, s, format));
        lines.addAll(load(analysis.factors(), s.exposure().rides()));
        lines.addAll(WearWhy.lines(analysis, s.chain(), s.wear(), format));
        Event.Remarked outOfService = s.wear().outOfService();
        if (outOfService != null) {
            lines.add("you noted it as " + outOfService.remark().word() + " on " + format.date(outOfService.at())
                    + ": replace it whatever the figures say");
        }
        if (s.bike() != null || s.replaceOn() != null) {
            lines.add(dates("replace", analysis, s, s.replaceOn(), format));
        }
        if (s.bike() == null) {
            lines.add(shelf(analysis, s, format));
        }
        return lines;
    }
}
