package chainage.answer.page;

import chainage.standing.Standing;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** What another answer says of chains, in sentences that the page repeats. */
public interface ChainWords {
    /** The chain to name first; null where there is none. */
    @Nullable
    Standing nearest();

    /** Chains on the shelf that are further gone than that one, a line each. */
    List<String> shelfAhead(Standing nearest);

    /** Which chain, and where it is. */
    String place(Standing s);

    /** How far it is gone, and what to do. */
    String advice(Standing s);

    /** What its figures rest on, a line each. */
    List<String> why(Standing s);
}
