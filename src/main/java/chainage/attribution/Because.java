package chainage.attribution;

import org.jspecify.annotations.Nullable;

/** What a verdict rests on. */
public sealed interface Because {
    /** Said in full, such as {@code the file says running}. */
    record Words(String text) implements Because {}

    /**
     * It records what another one is counted for.
     *
     * @param counted id of that ride
     * @param disagreement how their distances differ; null where they do not by much
     */
    record SameOuting(String counted, @Nullable Disagreement disagreement) implements Because {}

    /**
     * The file states no sport, so its speed speaks.
     *
     * @param metresPerSecond median moving speed
     * @param cyclist whether it is a cyclist's
     */
    record Speed(double metresPerSecond, boolean cyclist) implements Because {}
}
