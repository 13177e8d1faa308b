package chainage.exposure;

import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Method;
import java.time.Instant;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;

/** When a chain is treated, and with what: as the rider noted it, or as it might have been. */
public interface TreatmentSchedule {
    /**
     * A treatment in force.
     *
     * @param product the factory's own preservative before the first treatment
     * @param at when; null before the first treatment
     */
    record Treatment(
            Event.ProductDescribed product, @Nullable Instant at) {}

    /** What is on the chain before its first ride. */
    Treatment first();

    /**
     * What is on the chain when a ride starts. Anything but {@code now} is a new treatment, whose exposure starts from 0.
     *
     * @param now in force so far
     * @param start of the ride; {@link Instant#MAX} after the last
     * @param before treatment exposure so far, metres
     * @param after what it would be after the ride under {@code now}, metres
     */
    Treatment at(Treatment now, Instant start, double before, double after);

    /**
     * A chain's rides once more, each on the same road, under this schedule.
     *
     * @param lives likely life of a product's treatment, metres of dry clean road; NaN where it has none to lose
     */
    default ChainExposure over(ChainExposure chain, Factors factors, ToDoubleFunction<Event.ProductDescribed> lives) {
        ChainFold fold = new ChainFold(this, factors, chain.chain(), lives);
        chain.rides().forEach(r -> fold.take(r.ride(), r.condition(), r.metres(), r.load()));
        return fold.result();
    }

    /** As the rider noted it. A treatment at the very start of a ride comes before it. */
    static TreatmentSchedule noted(Ledger ledger, String chain) {
        TreeMap<Instant, Treatment> treatments = new TreeMap<>();
        for (Event.Treated t : ledger.treatments(chain)) {
            treatments.put(
                    t.at(), new Treatment(ledger.product(t.product()).orElseGet(() -> plain(Method.NONE)), t.at()));
        }
        return new TreatmentSchedule() {
            @Override
            public Treatment first() {
                Event.ChainDescribed described = ledger.chains().get(chain);
                return new Treatment(plain(described == null ? Method.FACTORY : described.first()), null);
            }

            @Override
            public Treatment at(Treatment now, Instant start, double before, double after) {
                Map.Entry<Instant, Treatment> last = treatments.floorEntry(start);
                return last == null ? now : last.getValue();
            }
        };
    }

    /**
     * One product, put on again before each ride that would take it past a limit. A ride that is longer than that by
     * itself starts on a fresh treatment.
     *
     * @param from when the first treatment was
     * @param limitMetres treatment exposure not to be passed; infinite never to renew
     */
    static TreatmentSchedule renewed(Event.ProductDescribed product, Instant from, double limitMetres) {
        return new TreatmentSchedule() {
            @Override
            public Treatment first() {
                return new Treatment(product, from);
            }

            @Override
            public Treatment at(Treatment now, Instant start, double before, double after) {
                return before > 0 && after > limitMetres ? new Treatment(product, start) : now;
            }
        };
    }

    private static Event.ProductDescribed plain(Method method) {
        return new Event.ProductDescribed(method.word(), method, null, null);
    }
}
