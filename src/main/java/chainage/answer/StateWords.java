package chainage.answer;

import chainage.analysis.ChainState;
import chainage.exposure.Factors;
import chainage.friction.Friction;
import chainage.ledger.Method;
import chainage.render.Formatter;
import chainage.standing.Standing;
import java.util.ArrayList;
import java.util.List;

/** A chain's state in words. */
public final class StateWords {
    private StateWords() {}

    /** A chain's name, or what the state is that a chain could be in. */
    public static String name(ChainState state) {
        Standing s = state.standing();
        if (s != null) {
            return s.chain();
        }
        return state.used() == 0 ? "freshly treated" : state.used() == 1 ? "end of its life" : "washed out";
    }

    /** Where the coefficient of friction comes from, each figure with its mark. */
    public static List<String> why(Factors factors, ChainState state) {
        Method method = state.method();
        String friction = "friction " + Formatter.fixed(state.mu(), 3);
        Factors.Factor bare = factors.factor("friction.mu.bare");
        if (method == Method.NONE) {
            return List.of(name(state) + ": untreated, " + friction + " (" + bare.mark() + ")");
        }
        Factors.Factor fresh = factors.factor("friction.mu.fresh." + method.word());
        List<String> lines = new ArrayList<>();
        lines.add(name(state) + ": " + method.words() + ", " + Formatter.percent(state.used())
                + " of its likely life used, "
                + friction + " (fresh " + Formatter.number(fresh.value()) + ", worn "
                + Formatter.number(factors.value("friction.mu.end." + method.word())) + ": " + fresh.mark()
                + "; from there to " + Formatter.number(bare.value()) + " at twice its life: " + bare.mark() + ")");
        String kept = Friction.keptKey(method, state.cleaning());
        if (!kept.isEmpty()) {
            lines.add("  cleaning " + state.cleaning().word() + " keeps "
                    + Formatter.percent(new Friction(factors).kept(method, state.cleaning()))
                    + " of the gain over a dirty chain (" + factors.factor(kept).mark() + ")");
        }
        return lines;
    }
}
