package chainage.exposure;

import chainage.attribution.AttributedRide;
import chainage.condition.Condition;
import chainage.drivetrain.Load;
import chainage.ledger.Event;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;

/** One chain while its rides are folded in, in order of their start. */
final class ChainFold {
    private final TreatmentSchedule schedule;
    private final Factors factors;
    private final Event.ChainDescribed chain;
    private final ToDoubleFunction<Event.ProductDescribed> lives;
    private final List<RideExposure> rides = new ArrayList<>();
    private TreatmentSchedule.Treatment now;
    private WearRate rate;
    private double exposure = 0;

    /**
     * A chain without rides.
     *
     * @param lives likely life of a product's treatment, metres of dry clean road; NaN where it has none to lose
     */
    ChainFold(
            TreatmentSchedule schedule,
            Factors factors,
            Event.ChainDescribed chain,
            ToDoubleFunction<Event.ProductDescribed> lives) {
        this.schedule = schedule;
        this.factors = factors;
        this.chain = chain;
        this.lives = lives;
        this.now = schedule.first();
        this.rate = rate();
    }

    private WearRate rate() {
        return WearRate.of(factors, now.product().method(), lives.applyAsDouble(now.product()));
    }

    RideExposure take(AttributedRide ride, Condition condition, ChainMetres metres, Load load) {
        double treatmentFactor =
                factors.treatmentFactor(condition, now.product().method());
        if (treat(ride.filed().ride().start(), metres.metres() * treatmentFactor)) {
            treatmentFactor = factors.treatmentFactor(condition, now.product().method());
        }
        double after = exposure + metres.metres() * treatmentFactor;
        RideExposure done = new RideExposure(
                ride,
                condition,
                metres,
                now.product(),
                now.at(),
                treatmentFactor,
                factors.wearFactor(condition),
                load,
                rate.mean(exposure, after));
        exposure = after;
        rides.add(done);
        return done;
    }

    /** True when another treatment came before what follows. */
    private boolean treat(Instant start, double coming) {
        TreatmentSchedule.Treatment next = schedule.at(now, start, exposure, exposure + coming);
        if (next.equals(now)) {
            return false;
        }
        now = next;
        rate = rate();
        exposure = 0;
        return true;
    }

    ChainExposure result() {
        treat(Instant.MAX, 0);
        return new ChainExposure(chain, rides, now.product(), now.at());
    }
}
