package chainage.answer.due;

import chainage.answer.Safety;
import chainage.standing.Standing;

/**
 * Something that the rider is to hear of once.
 *
 * @param key the same as long as it is the same thing, whatever its figures are meanwhile; one line
 * @param text one sentence or more
 * @param care what to mind when doing it; may be empty
 */
public record Notice(String key, String text, String care) {
    /** Steps of a limit used up after which the same chain is spoken of again, should it not have been done; our guess. */
    private static final double STEPS = 2;

    /** So far past its limit nothing new can be said. */
    private static final double MOST = 10;

    /** A notice that is the same thing only in the same words. */
    public static Notice of(String line) {
        return new Notice(line, line, "");
    }

    /** What is to be done about a chain that is due, or would be after its next ride. */
    static Notice of(Standing s, Advice advice) {
        String key = String.join(
                " ", "due", reason(s), String.valueOf((int) (Math.min(s.used(), MOST) * STEPS)), s.chain(), place(s));
        return new Notice(
                key,
                Advice.place(s) + ". " + advice.advice(s),
                s.wear().used() >= 1
                        ? Safety.REPLACING
                        : Safety.treating(s.exposure().product().method()));
    }

    /** On another bike, or on one again, a chain that is due is another matter. */
    private static String place(Standing s) {
        return s.bike() == null ? "" : "on " + s.bike();
    }

    private static String reason(Standing s) {
        if (s.wear().outOfService() != null) {
            return "condemned";
        }
        if (s.nearest() == Standing.Limit.REPLACEMENT) {
            return s.wear().bad().isPresent() ? "reading" : "worn";
        }
        if (s.treatment().lifeMetres() == null) {
            return "untreated";
        }
        if (s.treatment().noisy() != null) {
            return "noisy";
        }
        return s.treatment().used() >= 1 ? "used" : "next-ride";
    }
}
