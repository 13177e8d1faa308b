package chainage.answer.plan;

import chainage.analysis.Analysis;
import chainage.cost.Dose;
import chainage.ledger.Event;
import chainage.plan.PlannedTreatment;
import chainage.plan.PotSession;
import chainage.plan.Purchase;
import chainage.plan.Swap;
import chainage.quantity.PlainText;
import chainage.render.Formatter;
import chainage.standing.Standing;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * The parts of a plan in words: each a sentence, and behind it the reasons.
 *
 * @param analysis it is planned from
 */
record PlanWords(Analysis analysis, Formatter format) {
    /** What the dates of a treatment rest on. */
    String reason(PlannedTreatment t) {
        if (t.bike() == null) {
            return "on the shelf: no ride wears it off; it can join a session";
        }
        if (t.used() >= 1) {
            return t.heard() == null ? "its treatment is due" : "you heard it on " + format.date(t.heard());
        }
        return t.cautious() == null
                ? "no recent rides, so no date"
                : "worthwhile from " + format.date(t.from()) + "; due by the risk you take, and when likely worn off";
    }

    /** A day, or now where it is past. */
    String day(@Nullable Instant t) {
        return t == null ? "–" : !t.isAfter(analysis.at()) ? "now" : format.date(t);
    }

    /** A session, and what it rests on. */
    List<String> session(PotSession s) {
        Dose dose = Dose.of(analysis.ledger(), s.product());
        double fixed = analysis.factors().value("plan.fixed-share");
        String chains = s.treatments().stream().map(PlannedTreatment::chain).collect(Collectors.joining(", "));
        String when = s.by().isAfter(analysis.at()) ? "by " + format.date(s.by()) : "now";
        boolean timed = !Double.isNaN(dose.minutes());
        List<String> lines = new ArrayList<>();
        lines.add(when + ", " + s.product().product() + ": " + chains
                + (s.treatments().size() == 1
                        ? "."
                        : timed
                                ? ". About " + whole(s.together(dose.minutes(), fixed)) + " minutes in place of "
                                        + whole(s.oneByOne(dose.minutes())) + " one by one: "
                                        + whole(s.oneByOne(dose.minutes()) - s.together(dose.minutes(), fixed))
                                        + " saved."
                                : "."));
        PlannedTreatment urgent = s.treatments().get(0);
        lines.add((urgent.cautious() == null
                        ? "none is on a bike, and one of them is due"
                        : urgent.used() >= 1 ? urgent.chain() + " is due" : urgent.chain() + " is the first to be due")
                + (s.treatments().size() == 1
                        ? ""
                        : "; the others will have used at least "
                                + Formatter.percent(analysis.factors().value("plan.worthwhile"))
                                + " of their treatment, from which renewing is worthwhile ("
                                + analysis.factors().factor("plan.worthwhile").mark() + ")"));
        if (timed) {
            lines.add(whole(dose.minutes()) + " minutes a treatment ("
                    + (dose.treatments() == 0
                            ? "as entered"
                            : "mean of " + Formatter.count(dose.treatments(), "treatment", "treatments") + " of yours")
                    + "), " + Formatter.percent(fixed) + " of them once a session ("
                    + analysis.factors().factor("plan.fixed-share").mark() + ")");
        } else {
            lines.add("how long one takes is not known: chainage product set "
                    + PlainText.typed(s.product().product()) + " --minutes 20");
        }
        return lines;
    }

    static String whole(double minutes) {
        return Formatter.fixed(minutes, 0);
    }

    /** Why a bike's next chain fits; nothing without one. */
    static String fits(Swap s) {
        return s.fits() == null
                ? ""
                : switch (s.fits()) {
                    case WAS_ON_IT -> "it was on " + s.bike() + " before";
                    case AS_LONG_AND_NARROW ->
                        "as many links and speeds as " + s.now().chain();
                };
    }

    /** A bike's next chain, and why that one. */
    List<String> swap(Swap s) {
        List<String> lines = new ArrayList<>();
        Standing next = s.next();
        String present = s.now().chain();
        if (next == null) {
            lines.add(s.bike() + ": no chain on the shelf is known to fit"
                    + (s.now().wear().used() >= 1
                            ? ", and " + present + " is past its limit."
                            : "; " + present + " stays."));
            lines.add(
                    "a chain fits that was on the bike before, or has as many links and speeds as the one on it, and"
                            + " that no other bike takes first; if one does, say so: chainage chain set NAME --speeds N --links N");
            return lines;
        }
        lines.add(s.bike() + ": " + next.chain() + " in place of " + present
                + (s.when() == null ? "" : s.when().isAfter(analysis.at()) ? ", about " + day(s.when()) : ", now")
                + (s.treatFirst() ? "; treat " + next.chain() + " first" : "") + ". It is "
                + Formatter.percent(next.treatment().used()) + " used, worn "
                + Formatter.elongation(next.wear().elongationPercent().likely()) + " of "
                + Formatter.elongation(next.wear().limitPercent()) + " %.");
        lines.add(fits(s) + "; of those on the shelf that fit the best treated comes first, then the least worn, and"
                + " never one that is out of service or past its limit");
        lines.add(present + ": " + Formatter.percent(s.now().treatment().used()) + " used, worn "
                + Formatter.elongation(s.now().wear().elongationPercent().likely()) + " of "
                + Formatter.elongation(s.now().wear().limitPercent()) + " %");
        return lines;
    }

    /** A purchase, and what it rests on. */
    List<String> purchase(Purchase p) {
        List<String> lines = new ArrayList<>();
        String by = p.by() == null ? "" : p.by().isAfter(analysis.at()) ? " by " + day(p.by()) : " now";
        if (p instanceof Purchase.Chain c) {
            Standing w = c.worn();
            Event.Remarked outOfService = w.wear().outOfService();
            lines.add("a chain" + by + ", in place of " + w.chain()
                    + (outOfService != null
                            ? ", which you noted as " + outOfService.remark().word() + "."
                            : ": worn to " + Formatter.percent(w.wear().used()) + " of its limit"
                                    + (w.replaceOn() == null || w.wear().used() >= 1
                                            ? "."
                                            : ", due about "
                                                    + format.date(w.replaceOn().likely()) + ".")));
            lines.add("by the early end of chainage due's dates; a gauge reading overrules it");
        } else if (p instanceof Purchase.Refill c) {
            lines.add(c.supply().product().product() + by + ": what is left suffices for "
                    + Formatter.count((long) c.supply().treatmentsLeft(), "treatment", "treatments") + ".");
            lines.addAll(supply(c.supply()).subList(1, 2));
        }
        return lines;
    }

    /** What is left of a product, and how that is known. */
    List<String> supply(Purchase.Supply s) {
        List<String> lines = new ArrayList<>();
        lines.add(s.product().product() + ": " + Formatter.fixed(s.stock().millilitres(), 0) + " of "
                + Formatter.fixed(s.stock().boughtMillilitres(), 0) + " ml, about "
                + Formatter.count(Math.round(s.treatmentsLeft()), "treatment", "treatments")
                + (s.runsOut() == null ? "." : ", to " + format.month(s.runsOut()) + "."));
        lines.add(Formatter.count(s.stock().treatments(), "treatment", "treatments") + " since the first purchase"
                + (s.stock().unnoted() == 0 ? "" : ", " + s.stock().unnoted() + " without an amount")
                + "; " + Formatter.number(s.dose().millilitres()) + " ml each on the mean, "
                + Formatter.fixed(28 * s.treatmentsPerDay(), 1) + " in four weeks");
        return lines;
    }
}
