package chainage.exposure;

import chainage.ledger.Grit;
import chainage.ledger.Method;
import chainage.ledger.Moisture;
import java.util.List;

/**
 * What was ridden on a treatment, in sums from which its exposure follows for any {@link Leaning}: the fold stays linear
 * while the factors are still to be learnt.
 *
 * @param plain metres, and what the rider's own factors add to them
 * @param wet what damp and wet roads add, by the table
 * @param grit what dusty and gritty roads add, by the table
 * @param both what roads add that are the one and the other
 */
public record Mix(double plain, double wet, double grit, double both) {
    public static final Mix NONE = new Mix(0, 0, 0, 0);

    /** Of one ride. A factor that the rider set is kept as it was set. */
    public static Mix of(RideExposure ride, Factors factors) {
        return of(
                ride.method(),
                ride.metres().metres(),
                ride.condition().wetShare(),
                ride.condition().dampShare(),
                ride.condition().grit(),
                factors);
    }

    /**
     * Of a stretch.
     *
     * @param wet share of it on a wet road
     * @param damp share of it on a damp one
     */
    public static Mix of(Method method, double metres, double wet, double damp, Grit road, Factors factors) {
        if (wet == 0 && damp == 0 && road == Grit.CLEAN) {
            return new Mix(metres, 0, 0, 0);
        }
        double grit = factors.treatmentFactor(road, method) - 1;
        boolean ownGrit = grit != 0 && factors.isOwn("treatment." + road.word() + "." + method.word());
        double fixed = 0;
        double free = 0;
        for (Moisture m : List.of(Moisture.WET, Moisture.DAMP)) {
            double share = m == Moisture.WET ? wet : damp;
            double adds = share == 0 ? 0 : share * (factors.treatmentFactor(m, method) - 1);
            if (adds != 0 && factors.isOwn("treatment." + m.word() + "." + method.word())) {
                fixed += adds;
            } else {
                free += adds;
            }
        }
        double dry = metres * (1 + fixed);
        double more = metres * free;
        return ownGrit
                ? new Mix(dry * (1 + grit), more * (1 + grit), 0, 0)
                : new Mix(dry, more, dry * grit, more * grit);
    }

    public Mix plus(Mix other) {
        return new Mix(plain + other.plain, wet + other.wet, grit + other.grit, both + other.both);
    }

    /** Metres of dry clean road. */
    public double metres(Leaning leaning) {
        return plain + wet * leaning.wet() + grit * leaning.grit() + both * leaning.wet() * leaning.grit();
    }
}
