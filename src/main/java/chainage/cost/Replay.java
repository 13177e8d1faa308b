package chainage.cost;

import chainage.exposure.ChainExposure;
import chainage.exposure.RideExposure;
import chainage.exposure.TreatmentSchedule;
import chainage.friction.RideLoss;
import chainage.ledger.Cleaning;
import chainage.ledger.Event;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;

/**
 * A period's rides as they would have been had every chain been treated with one product, freshly before its first ride
 * and again before each ride that would have taken it past a limit.
 *
 * @param product in place of whatever was used
 * @param dose what a treatment takes
 * @param cleaning before each treatment
 * @param limitMetres treatment exposure not to be passed; infinite for a product without a life
 * @param chains by name
 * @param losses of all rides, chain by chain
 * @param usage in all
 */
public record Replay(
        Event.ProductDescribed product,
        Dose dose,
        Cleaning cleaning,
        double limitMetres,
        List<ChainExposure> chains,
        List<RideLoss> losses,
        Usage usage) {
    public Replay {
        chains = List.copyOf(chains);
        losses = List.copyOf(losses);
    }

    /**
     * Replays a period.
     *
     * @param limitMetres treatment exposure not to be passed; infinite for a product without a life
     */
    public static Replay of(
            CostPeriod period, Event.ProductDescribed product, Dose dose, Cleaning cleaning, double limitMetres) {
        TreatmentSchedule schedule = TreatmentSchedule.renewed(product, period.from(), limitMetres);
        List<ChainExposure> chains = new ArrayList<>();
        List<RideLoss> losses = new ArrayList<>();
        Map<String, Double> byChain = new TreeMap<>();
        Map<String, Double> byBike = new TreeMap<>();
        double treatments = 0;
        for (ChainExposure ridden : period.chains()) {
            ChainExposure chain = schedule.over(ridden, period.factors(), period.lives()::likelyMetres);
            chains.add(chain);
            losses.addAll(period.losses().of(chain, period.lives()::likelyMetres, r -> cleaning));
            treatments += treatments(chain.rides(), limitMetres);
            double limit = period.limitPercent().applyAsDouble(chain.chain());
            for (RideExposure r : chain.rides()) {
                double share = r.elongationPercent() / limit;
                byChain.merge(chain.chain().chain(), share, Double::sum);
                byBike.merge(Objects.requireNonNull(r.ride().bike()), share, Double::sum);
            }
        }
        return new Replay(
                product,
                dose,
                cleaning,
                limitMetres,
                chains,
                losses,
                new Usage(treatments, dose.millilitres() * treatments, dose.minutes() * treatments, byChain, byBike));
    }

    /** Treatments used up: each that another followed is one, the last counts by the share of its limit ridden. */
    private static double treatments(List<RideExposure> rides, double limitMetres) {
        double full = 0;
        double metres = 0;
        Instant at = rides.get(0).treatedAt();
        for (RideExposure r : rides) {
            if (!Objects.equals(at, r.treatedAt())) {
                at = r.treatedAt();
                full++;
                metres = 0;
            }
            metres += r.treatmentMetres();
        }
        return full + Math.min(1, metres / limitMetres);
    }

    /** Metres of dry clean road that would have used up as much of the treatments. */
    public double treatmentMetres() {
        return chains.stream()
                .flatMap(c -> c.rides().stream())
                .mapToDouble(RideExposure::treatmentMetres)
                .sum();
    }

    /** When chains would have been treated again, in order. */
    public List<Instant> renewals() {
        List<Instant> renewals = new ArrayList<>();
        for (ChainExposure c : chains) {
            Instant at = c.rides().get(0).treatedAt();
            for (RideExposure r : c.rides()) {
                if (!Objects.equals(at, r.treatedAt())) {
                    at = Objects.requireNonNull(r.treatedAt());
                    renewals.add(at);
                }
            }
        }
        return renewals.stream().sorted().toList();
    }
}
