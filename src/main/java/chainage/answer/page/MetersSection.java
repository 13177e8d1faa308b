package chainage.answer.page;

import chainage.analysis.Analysis;
import chainage.analysis.Pairs;
import chainage.answer.loss.PairWords;
import chainage.friction.Friction;
import chainage.friction.RideLoss;
import chainage.ledger.Cleaning;
import chainage.ledger.Event;
import chainage.ledger.Method;
import chainage.meter.Laid;
import chainage.meter.MeasuredLoss;
import chainage.meter.MeasuredLoss.Pair;
import chainage.meter.MeasuredLoss.Seen;
import chainage.meter.MeasuredLoss.Share;
import chainage.meter.MeasuredLoss.State;
import chainage.meter.RidePair;
import chainage.page.Block;
import chainage.page.Page;
import chainage.page.RatioPlot;
import chainage.quantity.Estimate;
import chainage.render.Formatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/** What two power meters on one ride measured, as {@code chainage loss --pairs} has it. */
final class MetersSection {
    private static final int STEPS = 10;

    private final Analysis analysis;
    private final Formatter format;

    MetersSection(Analysis analysis, Formatter format) {
        this.analysis = analysis;
        this.format = format;
    }

    /** Empty where no ride has two meters whose places are known. */
    Optional<Page.Section> section() {
        Pairs pairs = analysis.pairs();
        if (pairs.rides().stream().noneMatch(this::isOfThisPage)) {
            return Optional.empty();
        }
        List<Block> blocks = new ArrayList<>(plots(pairs));
        if (!pairs.isEmpty()) {
            PairWords.rises(analysis, pairs).forEach(line -> blocks.add(Block.words(line)));
            PairWords.limits(pairs).forEach(line -> blocks.add(Block.note(line)));
        }
        for (RidePair p : pairs.rides()) {
            if (p.laid() instanceof Laid.Apart apart) {
                blocks.add(
                        Block.note(format.date(p.ride().filed().ride().start()) + " " + PairWords.apart(apart) + "."));
            }
        }
        String seen = Formatter.count(pairs.learnt().seen().size(), "ride", "rides") + " that count, of "
                + pairs.rides().size();
        return Optional.of(new Page.Section("products-measured", "Measured by two power meters", seen, blocks));
    }

    /** Whether a page that is narrowed to some bikes has its ride. */
    private boolean isOfThisPage(RidePair pair) {
        return analysis.rides().stream().anyMatch(r -> r.id().equals(pair.ride().id()));
    }

    /** By product, of the two meters that the latest ride had: another two are another offset. */
    private List<Block> plots(Pairs pairs) {
        MeasuredLoss learnt = pairs.learnt();
        if (learnt.seen().isEmpty()) {
            return List.of();
        }
        Pair latest = learnt.seen().get(learnt.seen().size() - 1).pair();
        SortedMap<String, List<RatioPlot.Point>> points = new TreeMap<>();
        SortedMap<String, List<RatioPlot.Fitted>> fitted = new TreeMap<>();
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (RidePair p : pairs.rides()) {
            Seen seen = p.seen().filter(s -> s.pair().equals(latest)).orElse(null);
            Event.ProductDescribed product = seen == null
                    ? null
                    : analysis.ledger().product(seen.product()).orElse(null);
            if (seen == null || product == null) {
                continue;
            }
            RideLoss loss = Objects.requireNonNull(p.loss());
            double percent = -100 * Math.expm1(seen.logRatio());
            String day = format.date(p.ride().filed().ride().start());
            points.computeIfAbsent(product.product(), k -> new ArrayList<>())
                    .add(new RatioPlot.Point(
                            (loss.usedFrom() + loss.usedTo()) / 2,
                            percent,
                            day + ": " + PairWords.percent(percent / 100, 2)));
            fitted.computeIfAbsent(product.product(), k -> fitted(learnt, latest, product.method(), seen));
            low = Math.min(low, percent);
            high = Math.max(high, percent);
        }
        for (List<RatioPlot.Fitted> line : fitted.values()) {
            for (RatioPlot.Fitted f : line) {
                low = Math.min(low, f.percent().low());
                high = Math.max(high, f.percent().high());
            }
        }
        List<Block> blocks = new ArrayList<>();
        for (String product : points.keySet()) {
            blocks.add(new Block.Figure(new RatioPlot(
                            Objects.requireNonNull(points.get(product)),
                            Objects.requireNonNull(fitted.get(product)),
                            low,
                            high)
                    .plot(
                            "Missing behind the chain on " + product,
                            "Share of the power before the chain that does not show behind it, %: the loss, and how far"
                                    + " the meters are off each other. By the share of the treatment's life that was"
                                    + " used, %; a dot a ride, the band what all rides say of them (80 %).")));
        }
        return blocks;
    }

    /** Over a life, in the gears and as clean as on a ride of it. */
    private List<RatioPlot.Fitted> fitted(MeasuredLoss learnt, Pair pair, Method method, Seen like) {
        Friction friction = new Friction(analysis.factors());
        List<RatioPlot.Fitted> line = new ArrayList<>();
        for (int i = 0; i <= STEPS; i++) {
            double used = (double) i / STEPS;
            double mu =
                    like.freshMu() + friction.mu(method, Cleaning.DEEP, used) - friction.mu(method, Cleaning.DEEP, 0);
            Share share = learnt.missing(pair, new State(like.product(), like.perMu(), like.freshMu(), mu));
            line.add(new RatioPlot.Fitted(
                    used, new Estimate(100 * share.low(), 100 * share.middle(), 100 * share.high())));
        }
        return line;
    }
}
