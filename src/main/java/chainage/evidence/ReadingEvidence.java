package chainage.evidence;

import chainage.exposure.Factors;
import chainage.exposure.RideExposure;
import chainage.ledger.Method;
import chainage.ledger.Reading;
import chainage.wear.Expected;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/**
 * One reading of somebody's chain.
 *
 * @param reading in hundredths of a per cent, with its error
 * @param ridden before it, since the chain was new here, by method and product
 */
public record ReadingEvidence(Reading reading, List<Ridden> ridden) {
    /**
     * What was ridden on one product.
     *
     * @param product in the rider's word; null where that is not told
     * @param load mean over its kilometres, against the reference rider's; in tenths
     * @param wornOff share of their wear for which the treatment was worn off, in hundredths
     */
    public record Ridden(Method method, @Nullable String product, double load, double wornOff, RoadKilometres km) {
        Expected expected(Factors factors) {
            double fresh = factors.wearRate(method);
            double rate = fresh + wornOff * (factors.wearRate(Method.NONE) - fresh);
            return km.expected(rate * load, factors);
        }
    }

    public ReadingEvidence {
        ridden = List.copyOf(ridden);
    }

    /**
     * Of a reading as its rider knows it.
     *
     * @param rides before it
     * @param told whether a product's word is told
     */
    static ReadingEvidence of(Reading reading, List<RideExposure> rides, Predicate<String> told, Factors factors) {
        Map<List<String>, List<RideExposure>> by = new LinkedHashMap<>();
        for (RideExposure r : rides) {
            String word = r.product().product();
            boolean named = !word.equals(r.method().word()) && told.test(word);
            by.computeIfAbsent(List.of(r.method().word(), named ? word : ""), k -> new ArrayList<>())
                    .add(r);
        }
        List<Ridden> ridden = new ArrayList<>();
        by.forEach((what, of) -> {
            RoadKilometres km = RoadKilometres.of(of);
            if (km.total() > 0) {
                ridden.add(ridden(of, what.get(1).isEmpty() ? null : what.get(1), km, factors));
            }
        });
        return new ReadingEvidence(rounded(reading), ridden);
    }

    private static Ridden ridden(
            List<RideExposure> rides, @Nullable String product, RoadKilometres km, Factors factors) {
        Method method = rides.get(0).method();
        double fresh = factors.wearRate(method);
        double more = factors.wearRate(Method.NONE) - fresh;
        double metres = 0;
        double load = 0;
        double wear = 0;
        double percent = 0;
        for (RideExposure r : rides) {
            metres += r.metres().metres();
            load += r.metres().metres() * r.load().value();
            wear += r.wearMetres();
            percent += r.elongationPercent();
        }
        // By what wears the chain, so that whoever reads it expects as much elongation as the rider does.
        double off = more == 0 ? 0 : Math.max(0, Math.min(1, (percent / wear - fresh) / more));
        return new Ridden(method, product, Math.rint(10 * load / metres) / 10, Math.rint(100 * off) / 100, km);
    }

    private static Reading rounded(Reading reading) {
        double error = Math.max(0.01, Math.rint(100 * reading.errorPercent()) / 100);
        return reading instanceof Reading.Elongation e
                ? length(Math.rint(100 * e.percent()) / 100, e.tool(), error)
                : edge(((Reading.Gauge) reading), error);
    }

    private static Reading edge(Reading.Gauge gauge, double error) {
        return edge(Math.rint(100 * gauge.edgePercent()) / 100, gauge.drops(), error);
    }

    /** A length of so many per cent. */
    static Reading length(double percent, Reading.Tool tool, double error) {
        return new Reading.Elongation(List.of(percent), Reading.Unit.PERCENT, tool, tool.usualPitches(), error, null);
    }

    /** An edge that drops at so many per cent, or does not. */
    static Reading edge(double percent, boolean drops, double error) {
        return new Reading.Gauge(percent, drops, error, null, Reading.Tool.GAUGE.usualPitches());
    }

    /** Kilometres in all. */
    public int total() {
        return ridden.stream().mapToInt(r -> r.km().total()).sum();
    }

    /** The same without the products' words. */
    ReadingEvidence unnamed() {
        return new ReadingEvidence(
                reading,
                ridden.stream()
                        .map(r -> new Ridden(r.method(), null, r.load(), r.wornOff(), r.km()))
                        .toList());
    }

    /** What the table expects of all that was ridden before it. */
    Expected expected(Factors factors) {
        return ridden.stream().map(r -> r.expected(factors)).reduce(Expected.NONE, Expected::plus);
    }

    /** What makes it the same, whoever knows how much of its kilometres. */
    String mark() {
        return "read " + reading + " at " + total();
    }
}
