package chainage.analysis;

import chainage.comparison.MoreToSee;
import chainage.comparison.PairComparison;
import chainage.comparison.PairComparison.Finding;
import chainage.drivetrain.Drivetrain;
import chainage.friction.Effort;
import chainage.inference.Normal;
import chainage.ledger.Event;
import chainage.meter.MeasuredLoss;
import chainage.meter.MeasuredLoss.Seen;
import chainage.meter.MeasuredLoss.Share;
import chainage.meter.MeasuredLoss.State;
import chainage.quantity.Estimate;
import chainage.standing.Standing;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;

/**
 * Two products by the loss that rides with two power meters measured, in the middle of their lives, at the reference
 * rider's effort.
 *
 * @param better the one that more likely loses less
 * @param worse the other
 * @param more share of the power that the worse loses more
 * @param chance that it does, 0.5 to 1
 * @param finding what that amounts to
 * @param needed rides more with each that would show it, if the difference stays; 0 unless not yet told and
 *     two meters are there to ride with, and more than
 *     {@link MoreToSee#MOST} where no number worth waiting for would do
 */
public record MeasuredComparison(
        Event.ProductDescribed better,
        Event.ProductDescribed worse,
        Share more,
        double chance,
        Finding finding,
        int needed) {
    /** Every two of some products; empty where no ride of this rider or of others measured anything. */
    public static List<MeasuredComparison> of(Analysis analysis, List<Event.ProductDescribed> products) {
        List<MeasuredComparison> all = new ArrayList<>();
        if (!analysis.pairs().isEmpty()) {
            for (int i = 0; i < products.size(); i++) {
                for (int j = i + 1; j < products.size(); j++) {
                    all.add(of(analysis, products.get(i), products.get(j)));
                }
            }
        }
        return List.copyOf(all);
    }

    private static MeasuredComparison of(Analysis analysis, Event.ProductDescribed a, Event.ProductDescribed b) {
        MeasuredLoss learnt = analysis.pairs().learnt();
        Share over = learnt.more(middle(analysis, a), middle(analysis, b));
        boolean first = over.positive() < 0.5;
        Event.ProductDescribed better = first ? a : b;
        Event.ProductDescribed worse = first ? b : a;
        Share more = learnt.more(middle(analysis, worse), middle(analysis, better));
        Finding finding = !seen(analysis, a, b)
                ? Finding.UNSEEN
                : more.positive() >= PairComparison.FIRM ? Finding.FIRM : Finding.NOT_YET;
        int needed = finding == Finding.NOT_YET && !learnt.seen().isEmpty()
                ? needed(analysis, better, worse, more.middle())
                : 0;
        return new MeasuredComparison(better, worse, more, more.positive(), finding, needed);
    }

    /**
     * What one product loses more than another, as a share of the power, 80 %.
     *
     * @return empty unless rides with two power meters, this rider's or others', have seen both
     */
    static Optional<Estimate> more(Analysis analysis, Event.ProductDescribed than, Event.ProductDescribed product) {
        MeasuredLoss learnt = analysis.pairs().learnt();
        if (analysis.pairs().isEmpty() || !seen(analysis, than, product)) {
            return Optional.empty();
        }
        Share more = learnt.more(middle(analysis, than), middle(analysis, product));
        return Optional.of(new Estimate(more.low(), more.middle(), more.high()));
    }

    /** Somebody must have ridden both: else their difference would be the model's, told as if it were measured. */
    private static boolean seen(Analysis analysis, Event.ProductDescribed a, Event.ProductDescribed b) {
        MeasuredLoss learnt = analysis.pairs().learnt();
        return (learnt.rides(a.product()) > 0 && learnt.rides(b.product()) > 0)
                || analysis.pairs().others().hasBoth(a, b);
    }

    private static State middle(Analysis analysis, Event.ProductDescribed product) {
        return at(analysis, product, 0.5);
    }

    private static State at(Analysis analysis, Event.ProductDescribed product, double used) {
        Drivetrain usual = analysis.factors().drivetrain(null);
        return Pairs.state(
                analysis, product, used, usual, Effort.of(analysis.factors().reference()));
    }

    private static int needed(
            Analysis analysis, Event.ProductDescribed better, Event.ProductDescribed worse, double difference) {
        MeasuredLoss learnt = analysis.pairs().learnt();
        double z = Normal.quantile(PairComparison.FIRM);
        int n = 1;
        while (n <= MoreToSee.MOST) {
            List<Seen> rides = new ArrayList<>();
            for (int i = 0; i < n; i++) {
                double used = (i + 0.5) / n;
                rides.add(ride(learnt, at(analysis, better, used)));
                rides.add(ride(learnt, at(analysis, worse, used)));
            }
            double spread = learnt.spreadAfter(middle(analysis, worse), middle(analysis, better), rides);
            if (difference >= z * spread) {
                break;
            }
            n++;
        }
        return n;
    }

    /** A ride to come, with the meters of the latest one. */
    private static Seen ride(MeasuredLoss learnt, State state) {
        Seen latest = learnt.seen().get(learnt.seen().size() - 1);
        return new Seen(latest.pair(), state.product(), state.perMu(), state.freshMu(), state.mu(), 0, latest.error());
    }

    /**
     * A chain whose next ride with both meters would tell the most.
     *
     * @param narrower how much narrower the widest of the open questions would get, as a share
     */
    public record Next(Standing chain, double narrower) {}

    /**
     * Which chain to ride next to learn most of the differences between its products and of what their lives cost: the
     * one whose ride leaves the least of their variances, all added up. Only chains are asked that fit the bike with the
     * two meters.
     *
     * @return empty where there is no chain or no measured ride yet
     */
    public static Optional<Next> next(Analysis analysis) {
        MeasuredLoss learnt = analysis.pairs().learnt();
        if (learnt.seen().isEmpty()) {
            return Optional.empty();
        }
        List<State[]> questions = new ArrayList<>();
        int speeds = speeds(analysis);
        List<Standing> fitting = analysis.standings().stream()
                .filter(s -> speeds == 0
                        || s.exposure().chain().speeds() == 0
                        || s.exposure().chain().speeds() == speeds)
                .toList();
        List<Event.ProductDescribed> products =
                fitting.stream().map(s -> s.exposure().product()).distinct().toList();
        for (int i = 0; i < products.size(); i++) {
            questions.add(new State[] {at(analysis, products.get(i), 1), at(analysis, products.get(i), 0)});
            for (int j = i + 1; j < products.size(); j++) {
                questions.add(new State[] {middle(analysis, products.get(i)), middle(analysis, products.get(j))});
            }
        }
        double before = left(learnt, questions, List.of());
        Next best = null;
        for (Standing s : fitting) {
            State now = at(
                    analysis, s.exposure().product(), Math.min(1, s.treatment().usedOfLikely()));
            double narrower = 1 - left(learnt, questions, List.of(ride(learnt, now))) / before;
            if (best == null || narrower > best.narrower() + 1e-9) {
                best = new Next(s, narrower);
            }
        }
        return Optional.ofNullable(best);
    }

    /** Of the chains that fit the bike with the two meters, as its latest one has it; 0 where that was not said. */
    private static int speeds(Analysis analysis) {
        return analysis.pairs().rides().stream()
                .map(r -> r.ride().chain())
                .filter(Objects::nonNull)
                .reduce((a, b) -> b)
                .map(c -> analysis.ledger().chains().get(c))
                .map(Event.ChainDescribed::speeds)
                .orElse(0);
    }

    private static double left(MeasuredLoss learnt, List<State[]> questions, List<Seen> more) {
        return questions.stream()
                .mapToDouble(q -> Math.pow(learnt.spreadAfter(q[0], q[1], more), 2))
                .sum();
    }
}
