package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.Safety;
import chainage.cost.Dose;
import chainage.ledger.Event;
import chainage.ledger.Method;
import chainage.plan.Plan;
import chainage.plan.PlannedTreatment;
import chainage.plan.PotSession;
import chainage.plan.Purchase;
import chainage.plan.Swap;
import chainage.render.Formatter;
import chainage.render.Table;
import chainage.standing.Standing;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** The plan for people: a table of treatments, then sessions, swaps and purchases in sentences. */
final class PlanText {
    private final CommandContext context;
    private final Analysis analysis;
    private final Plan plan;
    private final boolean why;

    PlanText(CommandContext context, Analysis analysis, Plan plan, boolean why) {
        this.context = context;
        this.analysis = analysis;
        this.plan = plan;
        this.why = why;
    }

    void print(int weeks) {
        say((plan.treatments().isEmpty() ? "No treatment falls due in the " : "Treatments of the ")
                + Formatter.count(weeks, "week", "weeks") + " to "
                + context.format().date(plan.until()) + (plan.treatments().isEmpty() ? "." : ":"));
        if (!plan.treatments().isEmpty()) {
            say("");
            context.out().table(needs());
        }
        section("At the pot", plan.sessions().stream().map(this::session).toList());
        section("Next on each bike", plan.swaps().stream().map(this::swap).toList());
        section("To buy", plan.purchases().stream().map(this::purchase).toList());
        section("Left", plan.supplies().stream().map(this::supply).toList());
        if (!context.quiet()) {
            cautions();
        }
    }

    private void say(String line) {
        context.out().line(line);
    }

    /** Lines under a heading, each with its reasons set in; nothing when there are none. */
    private void section(String heading, List<List<String>> items) {
        if (items.isEmpty()) {
            return;
        }
        say("");
        say(heading + ":");
        for (List<String> lines : items) {
            context.out().line(2, lines.get(0));
            if (why) {
                lines.stream().skip(1).forEach(l -> context.out().line(4, l));
            }
        }
    }

    private Table needs() {
        Table table = new Table()
                .left("CHAIN")
                .left("ON")
                .left("PRODUCT")
                .right("USED")
                .whole("CAUTIOUS")
                .whole("LIKELY");
        for (PlannedTreatment n : plan.treatments()) {
            table.row(
                    n.chain(),
                    n.bike() == null ? "shelf" : n.bike(),
                    n.product().product(),
                    Formatter.percent(n.used()),
                    n.cautious() == null ? "before use" : day(n.cautious()),
                    n.likely() == null ? "" : day(n.likely()));
            if (why) {
                table.note(needWhy(context, n));
            }
        }
        return table;
    }

    static String needWhy(CommandContext context, PlannedTreatment n) {
        if (n.bike() == null) {
            return "on the shelf no ride uses it up; it may join a session";
        }
        if (n.used() >= 1) {
            return "its treatment is used up, or you heard it";
        }
        return n.cautious() == null
                ? "no recent rides, so no date"
                : "worthwhile from " + context.format().date(n.from())
                        + "; due by the risk you take, and when likely used up";
    }

    private String day(@Nullable Instant t) {
        return t == null
                ? "–"
                : !t.isAfter(analysis.at()) ? "now" : context.format().date(t);
    }

    private List<String> session(PotSession s) {
        Dose dose = Dose.of(analysis.ledger(), s.product());
        double fixed = analysis.factors().value("plan.fixed-share");
        String chains = s.treatments().stream().map(PlannedTreatment::chain).collect(Collectors.joining(", "));
        String when = s.by().isAfter(analysis.at()) ? "by " + context.format().date(s.by()) : "now";
        boolean timed = !Double.isNaN(dose.minutes());
        List<String> lines = new ArrayList<>();
        lines.add(when + ", " + s.product().product() + ": " + chains
                + (s.treatments().size() == 1
                        ? " alone."
                        : timed
                                ? ". About " + minutes(s.together(dose.minutes(), fixed)) + " minutes in place of "
                                        + minutes(s.oneByOne(dose.minutes())) + " one by one: "
                                        + minutes(s.oneByOne(dose.minutes()) - s.together(dose.minutes(), fixed))
                                        + " saved."
                                : "."));
        PlannedTreatment urgent = s.treatments().get(0);
        lines.add((urgent.cautious() == null
                        ? "none is on a bike, and one of them is used up"
                        : urgent.used() >= 1 ? urgent.chain() + " is due" : urgent.chain() + " is the first to be due")
                + (s.treatments().size() == 1
                        ? ""
                        : "; the others will have used "
                                + Formatter.percent(analysis.factors().value("plan.worthwhile"))
                                + " of their treatment, from which renewing is worthwhile ("
                                + analysis.factors().factor("plan.worthwhile").mark() + ")"));
        if (timed) {
            lines.add(Formatter.number(dose.minutes()) + " minutes a treatment ("
                    + (dose.treatments() == 0
                            ? "as entered"
                            : "mean of " + Formatter.count(dose.treatments(), "treatment", "treatments") + " of yours")
                    + "), " + Formatter.percent(fixed) + " of them once a session ("
                    + analysis.factors().factor("plan.fixed-share").mark() + ")");
        } else {
            lines.add("how long one takes is not known: chainage product set "
                    + Formatter.typed(s.product().product()) + " --minutes 20");
        }
        return lines;
    }

    private static String minutes(double minutes) {
        return Long.toString(Math.round(minutes));
    }

    private List<String> swap(Swap s) {
        List<String> lines = new ArrayList<>();
        Standing next = s.next();
        String present = s.now().chain();
        if (next == null) {
            lines.add(s.bike() + ": no chain on the shelf fits"
                    + (s.now().wear().used() >= 1
                            ? ", and " + present + " is past its limit."
                            : "; " + present + " stays."));
            lines.add("a chain fits that was on the bike before, or has as many links and speeds as the one on it");
            return lines;
        }
        lines.add(s.bike() + ": " + next.chain() + " after " + present
                + (s.when() == null ? "" : s.when().isAfter(analysis.at()) ? ", about " + day(s.when()) : ", now")
                + (s.treatFirst() ? "; treat it first" : "") + ". "
                + Formatter.percent(next.treatment().used()) + " of its treatment used, worn "
                + Formatter.elongation(next.wear().elongationPercent().likely()) + " of "
                + Formatter.elongation(next.wear().limitPercent()) + " %.");
        lines.add(s.fits() + "; of those on the shelf that fit the best treated comes first, then the least worn, and"
                + " never one that is damaged, retired or past its limit");
        lines.add(present + ": " + Formatter.percent(s.now().treatment().used()) + " of its treatment used, worn "
                + Formatter.elongation(s.now().wear().elongationPercent().likely()) + " of "
                + Formatter.elongation(s.now().wear().limitPercent()) + " %");
        return lines;
    }

    private List<String> purchase(Purchase p) {
        List<String> lines = new ArrayList<>();
        String by = p.by() == null ? "" : p.by().isAfter(analysis.at()) ? " by " + day(p.by()) : " now";
        if (p instanceof Purchase.Chain c) {
            Standing w = c.worn();
            Event.Remarked condemned = w.wear().condemned();
            lines.add("a chain" + by + ", in place of " + w.chain()
                    + (condemned != null
                            ? ", which you noted as " + condemned.remark().word() + "."
                            : ": worn to " + Formatter.percent(w.wear().used()) + " of its limit"
                                    + (w.replaceOn() == null || w.wear().used() >= 1
                                            ? "."
                                            : ", due about "
                                                    + context.format()
                                                            .date(w.replaceOn().likely()) + ".")));
            lines.add("by the early end of chainage due's dates; a gauge reading overrules it");
        } else if (p instanceof Purchase.Refill c) {
            lines.add(c.supply().product().product() + by + ": what is left suffices for "
                    + Formatter.count((long) c.supply().treatmentsLeft(), "treatment", "treatments") + ".");
            lines.addAll(supply(c.supply()).subList(1, 2));
        }
        return lines;
    }

    private List<String> supply(Purchase.Supply s) {
        List<String> lines = new ArrayList<>();
        lines.add(s.product().product() + ": " + figure(s.stock().millilitres()) + " of "
                + figure(s.stock().boughtMillilitres()) + " ml, about "
                + Formatter.count(Math.round(s.treatmentsLeft()), "treatment", "treatments")
                + (s.runsOut() == null
                        ? "."
                        : ", to " + context.format().date(s.runsOut()).substring(0, 7) + "."));
        lines.add(Formatter.count(s.stock().treatments(), "treatment", "treatments") + " since the first purchase"
                + (s.stock().unnoted() == 0 ? "" : ", " + s.stock().unnoted() + " without an amount")
                + "; " + Formatter.number(s.dose().millilitres()) + " ml each on the mean, "
                + String.format(Locale.ROOT, "%.1f", 28 * s.treatmentsPerDay()) + " in four weeks");
        return lines;
    }

    private static String figure(double value) {
        return String.format(Locale.ROOT, "%.0f", value);
    }

    private void cautions() {
        boolean unrecorded =
                plan.supplies().isEmpty() && !analysis.ledger().products().isEmpty();
        if (!plan.treatments().isEmpty() || !plan.purchases().isEmpty() || unrecorded) {
            say("");
        }
        boolean pot = plan.treatments().stream().anyMatch(n -> n.product().method() == Method.HOT_WAX);
        if (!plan.treatments().isEmpty()) {
            say(Safety.treating(pot ? Method.HOT_WAX : Method.WET_OIL));
        }
        if (plan.purchases().stream().anyMatch(p -> p instanceof Purchase.Chain)) {
            say(Safety.REPLACING);
        }
        if (unrecorded) {
            say("To be told when a product runs out, note what you buy: chainage product buy PRODUCT");
        }
    }
}
