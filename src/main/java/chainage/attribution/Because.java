package chainage.attribution;

import chainage.ledger.Rule;
import org.jspecify.annotations.Nullable;

/** What a verdict rests on. */
public sealed interface Because {
    /** The rider says so of this activity. */
    record Rider() implements Because {}

    /** A rule of the rider's says so. */
    record ByRule(Rule.When when) implements Because {}

    /** The file says so, with the sport as it stands there; hostile text. */
    record Sport(String sport) implements Because {}

    /** The file states no sport, and nothing moved. */
    record Still() implements Because {}

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
