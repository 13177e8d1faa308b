package chainage.condition;

import chainage.ledger.Moisture;

/**
 * How a ride's metres were shared between wet, damp and dry road.
 *
 * @param wet share on a wet road, 0 to 1
 * @param damp share on a damp one, 0 to 1; the rest was dry
 * @param indoor true for a ride that saw no road; both shares are 0 then
 */
public record Wetness(double wet, double damp, boolean indoor) {
    /** Sums of shares may stray from 1 by rounding. */
    private static final double ROUNDING = 1e-9;

    static final Wetness DRY = new Wetness(0, 0, false);
    static final Wetness INDOOR = new Wetness(0, 0, true);

    public Wetness {
        if (!(wet >= 0 && damp >= 0 && wet + damp <= 1 + ROUNDING) || (indoor && wet + damp > 0)) {
            throw new IllegalArgumentException("shares " + wet + " wet, " + damp + " damp");
        }
    }

    /** One moisture for a share of the ride, the rest dry. */
    static Wetness of(Moisture moisture, double share) {
        return switch (moisture) {
            case WET -> new Wetness(share, 0, false);
            case DAMP -> new Wetness(0, share, false);
            case DRY -> DRY;
            case INDOOR -> INDOOR;
        };
    }

    /** The wettest that any of the ride was. */
    public Moisture moisture() {
        return indoor ? Moisture.INDOOR : wet > 0 ? Moisture.WET : damp > 0 ? Moisture.DAMP : Moisture.DRY;
    }
}
