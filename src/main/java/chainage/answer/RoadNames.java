package chainage.answer;

import chainage.condition.Condition;
import chainage.condition.Wetness;
import chainage.ledger.Grit;

/** A road in words. */
public final class RoadNames {
    private RoadNames() {}

    /** For example {@code wet 30%, gritty}; a clean road goes without saying. */
    public static String words(Condition c) {
        String moisture = wetness(c.wetness().get(0).value());
        return c.grit() == Grit.CLEAN ? moisture : moisture + ", " + c.grit().word();
    }

    /** For example {@code wet 30%, damp 20%}. */
    public static String wetness(Wetness w) {
        if (w.wet() > 0 && w.damp() > 0) {
            return "wet" + part(w.wet()) + ", damp" + part(w.damp());
        }
        return w.moisture().word() + (w.wet() > 0 ? part(w.wet()) : w.damp() > 0 ? part(w.damp()) : "");
    }

    private static String part(double share) {
        return share < 1 ? " " + Math.max(1, Math.round(share * 100)) + "%" : "";
    }
}
