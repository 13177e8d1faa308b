package chainage.exposure;

import chainage.attribution.AttributedRide;
import chainage.condition.Condition;
import chainage.drivetrain.Load;
import chainage.ledger.Event;
import chainage.ledger.Method;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

/** One chain while its rides are folded in, in order of their start. */
final class ChainFold {
    private final TreatmentSchedule schedule;
    private final Factors factors;
    private final Event.ChainDescribed chain;
    private final List<RideExposure> rides = new ArrayList<>();
    private TreatmentSchedule.Treatment now;
    private double exposure = 0;

    ChainFold(TreatmentSchedule schedule, Factors factors, Event.ChainDescribed chain) {
        this.schedule = schedule;
        this.factors = factors;
        this.chain = chain;
        this.now = schedule.first();
    }

    RideExposure take(AttributedRide ride, Condition condition, ChainMetres metres, Load load) {
        double treatmentFactor =
                factors.treatmentFactor(condition, now.product().method());
        if (treat(ride.filed().ride().start(), metres.metres() * treatmentFactor)) {
            treatmentFactor = factors.treatmentFactor(condition, now.product().method());
        }
        Method method = now.product().method();
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
                WearRate.of(factors, method).mean(exposure, after));
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
        exposure = 0;
        return true;
    }

    ChainExposure result() {
        treat(Instant.MAX, 0);
        return new ChainExposure(chain, rides, now.product(), now.at());
    }
}
