package chainage.friction;

import chainage.drivetrain.Drivetrain;
import chainage.drivetrain.Pedalled;
import chainage.drivetrain.Reference;
import chainage.exposure.ChainExposure;
import chainage.exposure.Factors;
import chainage.exposure.RideExposure;
import chainage.ledger.Cleaning;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;

/**
 * What rides lost in their chains, on the treatments that were on them or on others. What went into a chain does not
 * depend on what was on it, so it is worked out once a ride, and a bike's drivetrain once a bike. For one thread.
 */
public final class RideLosses {
    private final Ledger ledger;
    private final Factors factors;
    private final Friction friction;
    private final Reference reference;
    private final Map<String, Bike> bikes = new HashMap<>();
    private final Map<String, Work> works = new HashMap<>();

    /** A bike's gears, and what they lose. */
    private record Bike(Drivetrain drivetrain, LossModel model) {}

    /**
     * What went into a chain.
     *
     * @param joulesPerMu loss at a coefficient of 1
     */
    private record Work(Pedalled pedalled, double joulesPerMu) {}

    public RideLosses(Ledger ledger, Factors factors) {
        this.ledger = ledger;
        this.factors = factors;
        this.friction = new Friction(factors);
        this.reference = factors.reference();
    }

    /**
     * The losses of all rides on a chain, by start, on the treatments that were noted.
     *
     * @param lifeMetres likely life of a product, metres of dry clean road
     */
    public List<RideLoss> of(ChainExposure chain, ToDoubleFunction<Event.ProductDescribed> lifeMetres) {
        return of(
                chain, lifeMetres, r -> RideLoss.cleaning(ledger, chain.chain().chain(), r.treatedAt()));
    }

    /**
     * The same where treatments may be others than those noted.
     *
     * @param cleaning before the treatment that a ride was ridden on
     */
    public List<RideLoss> of(
            ChainExposure chain,
            ToDoubleFunction<Event.ProductDescribed> lifeMetres,
            Function<RideExposure, Cleaning> cleaning) {
        List<RideLoss> losses = new ArrayList<>();
        Instant treated = null;
        double exposure = 0;
        for (RideExposure r : chain.rides()) {
            if (!Objects.equals(treated, r.treatedAt())) {
                treated = r.treatedAt();
                exposure = 0;
            }
            double life = lifeMetres.applyAsDouble(r.product());
            double from = exposure / life;
            exposure += r.treatmentMetres();
            losses.add(of(r, cleaning.apply(r), from, exposure / life));
        }
        return List.copyOf(losses);
    }

    private RideLoss of(RideExposure r, Cleaning cleaning, double from, double to) {
        Work work = works.computeIfAbsent(r.ride().id(), id -> work(r));
        return new RideLoss(
                r,
                work.pedalled(),
                cleaning,
                from,
                to,
                friction.meanMu(r.method(), cleaning, from, to),
                friction.mu(r.method(), Cleaning.DEEP, 0),
                work.joulesPerMu());
    }

    private Work work(RideExposure r) {
        Bike bike = bike(r.ride().bike());
        Pedalled pedalled = Pedalled.of(r.ride().filed().ride(), bike.drivetrain(), reference);
        double perMu = 0;
        for (Pedalled.Stroke s : pedalled.strokes()) {
            perMu += s.rpm() > 0 && s.watts() > 0
                    ? bike.model()
                                    .loss(new Effort(s.watts(), s.gear(), s.rpm()), 1)
                                    .watts()
                            * s.seconds()
                    : 0;
        }
        return new Work(pedalled, perMu * pedalled.scale());
    }

    private Bike bike(@Nullable String name) {
        return bikes.computeIfAbsent(name == null ? "" : name, n -> {
            Drivetrain drivetrain = factors.drivetrain(ledger.bikes().get(n));
            return new Bike(drivetrain, friction.model(drivetrain));
        });
    }
}
