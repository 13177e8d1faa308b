package chainage.condition;

import chainage.condition.RoadText.Gap;
import chainage.condition.RoadText.Token;
import chainage.condition.RoadWordList.Entry;
import chainage.condition.RoadWordList.Role;
import chainage.condition.RoadWords.Finding;
import chainage.condition.RoadWords.Meaning;
import chainage.condition.RoadWords.Source;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What listed words mean in their sentence.
 *
 * <p>A text falls into clauses at its punctuation and at words such as "but". In a clause with a question mark or a word
 * of hope or forecast nothing counts, save that "despite the forecast … dry" is dry. A denial reaches the next word of
 * the road when nothing but small words stand between ("not a drop of rain"; but in "no wind and rain" it does not), and
 * goes on over "or". Denied twice is said ("not without rain").
 */
final class RoadPhrases {
    /** Most small words between a denial and what it denies. */
    private static final int REACH = 5;

    /** A phrase of the list, or an unknown word (entry null), over tokens from..to. */
    private record Unit(@Nullable Entry entry, int from, int to, Gap gap) {
        boolean is(Role role) {
            return entry != null && entry.role() == role;
        }

        boolean isSmall() {
            return is(Role.FILLER) || is(Role.OR) || is(Role.DEGREE);
        }
    }

    /** What a word means after what stands round it, over units from..to. */
    private record Said(Meaning meaning, int from, int to, boolean denied) {}

    private final RoadWordList list;

    RoadPhrases(RoadWordList list) {
        this.list = list;
    }

    List<Finding> findings(Source source) {
        List<Token> tokens = RoadText.of(source.text(), source.where().isName());
        List<Unit> units = units(tokens);
        List<Finding> findings = new ArrayList<>();
        int from = 0;
        for (int i = 1; i <= units.size(); i++) {
            if (i == units.size() || startsClause(units.get(i))) {
                clause(tokens, units.subList(from, i), source, findings);
                from = i;
            }
        }
        return findings;
    }

    private List<Unit> units(List<Token> tokens) {
        List<Unit> units = new ArrayList<>();
        for (int i = 0; i < tokens.size(); ) {
            int words = Math.max(1, list.match(tokens, i));
            Entry entry = list.entry(key(tokens, i, i + words));
            units.add(new Unit(entry, i, i + words, tokens.get(i).gap()));
            i += words;
        }
        return units;
    }

    private static String key(List<Token> tokens, int from, int to) {
        if (to - from == 1) {
            return tokens.get(from).key();
        }
        return String.join(
                " ", tokens.subList(from, to).stream().map(Token::key).toList());
    }

    private static boolean startsClause(Unit unit) {
        return unit.gap() == Gap.BREAK || unit.is(Role.BREAK) || unit.is(Role.DESPITE);
    }

    private static void clause(List<Token> tokens, List<Unit> clause, Source source, List<Finding> findings) {
        if (clause.stream().noneMatch(u -> u.is(Role.ROAD))
                || tokens.get(clause.get(0).from()).asked()) {
            return;
        }
        boolean failed = clause.get(0).is(Role.DESPITE);
        List<Said> said = new ArrayList<>();
        boolean planned = planned(clause, 0);
        List<Finding> found = new ArrayList<>();
        boolean dry = false;
        boolean over = false;
        for (int i = 0; i < clause.size(); i++) {
            if (clause.get(i).gap() == Gap.COMMA) {
                planned = planned(clause, i);
            }
            Entry entry = clause.get(i).entry();
            if (entry == null || entry.role() != Role.ROAD) {
                continue;
            }
            Said s = named(tokens, clause, i) ? new Said(Meaning.NONE, i, i + 1, false) : said(clause, i, entry, said);
            said.add(s);
            if (s.meaning() != Meaning.NONE && (!planned || (failed && s.meaning() == Meaning.DRY))) {
                found.add(new Finding(s.meaning(), shown(tokens, clause, s), source.where()));
                dry |= s.meaning() == Meaning.DRY;
                over |= s.meaning() == Meaning.DAMP && entry.falls();
            }
        }
        // "Dry after a week of rain": the turn is what counts.
        if (dry && over) {
            found.removeIf(f -> f.meaning() == Meaning.DAMP);
        }
        findings.addAll(found);
    }

    /** Whether a word is part of a name: with a capital, beside a lane or a café that has one too. */
    private static boolean named(List<Token> tokens, List<Unit> clause, int at) {
        if (!capital(tokens.get(clause.get(at).from()))) {
            return false;
        }
        int behind = at + 1;
        // "Wet Dog Cafe": one more word of the name may stand between.
        if (behind + 1 < clause.size()
                && clause.get(behind).entry() == null
                && capital(tokens.get(clause.get(behind).from()))) {
            behind++;
        }
        if (behind < clause.size()
                && clause.get(behind).is(Role.PLACE)
                && clause.get(behind).gap() != Gap.COMMA
                && capital(tokens.get(clause.get(behind).from()))) {
            return true;
        }
        int before = at;
        while (before > 0
                && clause.get(before).gap() != Gap.COMMA
                && clause.get(before - 1).isSmall()) {
            before--;
        }
        return before > 0
                && clause.get(before).gap() != Gap.COMMA
                && clause.get(before - 1).is(Role.PLACE)
                && capital(tokens.get(clause.get(before - 1).from()));
    }

    /** Begins with a capital, and is not written in capitals throughout. */
    private static boolean capital(Token t) {
        return t.shown().length() > 1
                && Character.isUpperCase(t.shown().codePointAt(0))
                && Character.isLowerCase(t.shown().codePointBefore(t.shown().length()));
    }

    /** Whether a word of forecast or hope stands in the part of the clause, between commas, that starts there. */
    private static boolean planned(List<Unit> clause, int from) {
        for (int i = from; i < clause.size(); i++) {
            if (i > from && clause.get(i).gap() == Gap.COMMA) {
                return false;
            }
            if (clause.get(i).is(Role.PLAN)) {
                return true;
            }
        }
        return false;
    }

    private static Said said(List<Unit> clause, int at, Entry entry, List<Said> before) {
        int behind = at + 1;
        while (behind < clause.size()
                && behind - at < REACH
                && clause.get(behind).gap() != Gap.COMMA
                && clause.get(behind).is(Role.FILLER)) {
            behind++;
        }
        if (behind < clause.size()
                && clause.get(behind).gap() != Gap.COMMA
                && clause.get(behind).is(Role.NOT_BEHIND)
                && entry.meaning() != Meaning.DRY) {
            return new Said(denied(entry.meaning(), false), at, behind + 1, true);
        }
        // "Pluie évitée", at the end of what is said.
        if (entry.falls()
                && behind == clause.size() - 1
                && clause.get(behind).is(Role.AVOID)
                && clause.get(behind).gap() != Gap.COMMA) {
            return new Said(Meaning.DRY, at, behind + 1, true);
        }
        Said last = before.isEmpty() ? null : before.get(before.size() - 1);
        if (last != null && last.denied() && carriesOn(clause, last.to(), at)) {
            return new Said(denied(entry.meaning(), false), last.from(), at + 1, true);
        }
        boolean soft = false;
        int i = at;
        while (i > 0 && clause.get(i).gap() != Gap.COMMA && at - i <= REACH) {
            i--;
            Unit u = clause.get(i);
            if (u.is(Role.NOT)) {
                return deniedTwice(clause, i)
                        ? new Said(entry.meaning(), at, at + 1, false)
                        : new Said(denied(entry.meaning(), soft), i, at + 1, !soft);
            }
            if (u.is(Role.LIKE)) {
                return new Said(Meaning.NONE, i, at + 1, false);
            }
            if (u.is(Role.AVOID) && entry.falls()) {
                return notDone(clause, i)
                        ? new Said(entry.meaning(), at, at + 1, false)
                        : new Said(Meaning.DRY, i, at + 1, true);
            }
            if (u.is(Role.AVOID) && entry.meaning() == Meaning.LOOSE && !notDone(clause, i)) {
                return new Said(Meaning.CLEAN, i, at + 1, true);
            }
            if (u.is(Role.AFTER) && entry.falls()) {
                return new Said(Meaning.DAMP, i, at + 1, false);
            }
            if (!u.isSmall()) {
                break;
            }
            soft |= u.is(Role.DEGREE);
        }
        return new Said(entry.meaning(), at, at + 1, false);
    }

    /** "Not without", "never not". */
    private static boolean deniedTwice(List<Unit> clause, int at) {
        return at > 0 && clause.get(at).gap() != Gap.COMMA && clause.get(at - 1).is(Role.NOT);
    }

    /** "Did not escape", "failed to dodge", "no escape". */
    private static boolean notDone(List<Unit> clause, int at) {
        int i = at;
        while (i > 0 && clause.get(i).gap() != Gap.COMMA && clause.get(i - 1).isSmall()) {
            i--;
        }
        return i > 0 && clause.get(i).gap() != Gap.COMMA && clause.get(i - 1).is(Role.NOT);
    }

    /** "no rain OR mud", "no rain, SLEET or mud". */
    private static boolean carriesOn(List<Unit> clause, int from, int at) {
        boolean or = false;
        for (int i = from; i < at; i++) {
            if (!clause.get(i).isSmall()) {
                return false;
            }
            or |= clause.get(i).is(Role.OR);
        }
        boolean comma = clause.get(at).gap() == Gap.COMMA;
        return or || (comma && from == at && listGoesOn(clause, at));
    }

    private static boolean listGoesOn(List<Unit> clause, int at) {
        for (int i = at + 1; i < clause.size() && i - at <= REACH; i++) {
            if (clause.get(i).is(Role.OR)) {
                return true;
            }
            if (!clause.get(i).is(Role.ROAD) || clause.get(i).gap() != Gap.COMMA) {
                return false;
            }
        }
        return false;
    }

    /** Not wet is dry; not dry is damp, our guess; not indoor, or not clean, may be anything. */
    private static Meaning denied(Meaning meaning, boolean soft) {
        return switch (meaning) {
            case WET -> soft ? Meaning.DAMP : Meaning.DRY;
            case DAMP -> Meaning.DRY;
            case DRY -> Meaning.DAMP;
            case MUDDY -> soft ? Meaning.DAMP : Meaning.CLEAN;
            case LOOSE, DUSTY, GRITTY, SALTED -> soft ? Meaning.NONE : Meaning.CLEAN;
            case NONE, CLEAN, INDOOR -> Meaning.NONE;
        };
    }

    /** As written; what stood between the words shrinks to a space, so that nothing hostile gets through. */
    private static String shown(List<Token> tokens, List<Unit> clause, Said s) {
        StringBuilder shown = new StringBuilder();
        int to = clause.get(s.to() - 1).to();
        for (int i = clause.get(s.from()).from(); i < to; i++) {
            Token t = tokens.get(i);
            if (!shown.isEmpty()) {
                shown.append(
                        t.gap() == Gap.COMMA
                                ? ", "
                                : RoadText.unspaced(t.shown().codePointAt(0)) ? "" : String.valueOf(t.joint()));
            }
            shown.append(t.shown());
        }
        return shown.toString();
    }
}
