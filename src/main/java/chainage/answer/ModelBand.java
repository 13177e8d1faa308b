package chainage.answer;

import chainage.render.Formatter;

/** How far the model of losses can be trusted, in words. */
public final class ModelBand {
    private ModelBand() {}

    /**
     * The caution below every table of losses.
     *
     * @param watts half the band; 0 where it differs from row to row
     */
    public static String caution(double watts) {
        return "Model, not measurement: it may be off by one per cent of the power"
                + (watts > 0 ? " (" + Formatter.fixed(watts, 1) + " W)" : "")
                + " either way. By the model alone, states closer than that cannot be told apart.";
    }
}
