package chainage.simulation;

import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;

/** What is odd about a rider. The first is one that the table was made for. */
enum Scenario {
    TABLE_TRUE(t -> {}),
    LIFE_DOUBLE(t -> t.lifeTimes = 2),
    LIFE_HALF(t -> t.lifeTimes = 0.5),
    WEAR_TRIPLE(t -> t.wearTimes = 3),
    LATE_EARS(t -> {
        t.lateFrom = 0.1;
        t.lateTo = 0.5;
    }),
    NEVER_REMARKS(t -> t.noted = 0),
    FORGETS_A_THIRD(t -> t.noted = 2 / 3.0),
    ONE_FALSE_NOISE(t -> t.falseNoise = true),
    BIASED_RULER(t -> t.bias = 0.08),
    GROSS_READINGS(t -> t.gross = 0.08),
    GAUGE_ONLY(t -> t.gauge = true),
    WINTERS_OFF(t -> t.wintersOff = true),
    HABIT_CHANGED(t -> t.habitChanged = true),
    WET_HARDER(t -> t.wetTimes = 1.7),
    GRIT_SOFTER(t -> t.gritTimes = 0.6),
    PRODUCTS_DIFFER(t -> t.twoProducts = true);

    /** Without a state of its own, which the compiler cannot see. */
    @SuppressWarnings("ImmutableEnumChecker")
    private final Consumer<Traits> odd;

    Scenario(Consumer<Traits> odd) {
        this.odd = odd;
    }

    Traits traits() {
        return new Traits(odd);
    }

    /** Whether it is among those named in {@code -Dsimulation.only}, parted by commas; all are where none is. */
    boolean isAsked() {
        String only = System.getProperty("simulation.only");
        return only == null || List.of(only.split(",")).contains(name());
    }

    String words() {
        return name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }
}
