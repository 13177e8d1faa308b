package chainage.cli;

import chainage.cost.Dose;
import chainage.ledger.Event;
import chainage.ledger.Method;
import chainage.plan.Need;
import chainage.plan.Plan;
import chainage.plan.Purchase;
import chainage.plan.Session;
import chainage.plan.Swap;
import chainage.standing.Standing;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** The plan for people: a table of treatments, then sessions, swaps and purchases in sentences. */
final class PlanText {
    private final Desk desk;
    private final Picture picture;
    private final Plan plan;
    private final boolean why;

    PlanText(Desk desk, Picture picture, Plan plan, boolean why) {
        this.desk = desk;
        this.picture = picture;
        this.plan = plan;
        this.why = why;
    }

    void print(int weeks) {
        say((plan.needs().isEmpty() ? "No treatment falls due in the " : "Treatments of the ")
                + Words.count(weeks, "week", "weeks") + " to "
                + desk.words().date(plan.until()) + (plan.needs().isEmpty() ? "." : ":"));
        if (!plan.needs().isEmpty()) {
            say("");
            needs().print(desk.out(), desk.columns());
        }
        section("At the pot", plan.sessions().stream().map(this::session).toList());
        section("Next on each bike", plan.swaps().stream().map(this::swap).toList());
        section("To buy", plan.purchases().stream().map(this::purchase).toList());
        section("Left", plan.supplies().stream().map(this::supply).toList());
        if (!desk.quiet()) {
            cautions();
        }
    }

    private void say(String line) {
        desk.out().println(DueText.wrap(Words.safe(line)));
    }

    /** Lines under a heading, each with its reasons set in; nothing when there are none. */
    private void section(String heading, List<List<String>> items) {
        if (items.isEmpty()) {
            return;
        }
        say("");
        say(heading + ":");
        for (List<String> lines : items) {
            desk.out().println(DueText.wrap(Words.safe(lines.get(0)), 2));
            if (why) {
                lines.stream().skip(1).forEach(l -> desk.out().println(DueText.wrap(Words.safe(l), 4)));
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
        for (Need n : plan.needs()) {
            table.row(
                    n.chain(),
                    n.bike() == null ? "shelf" : n.bike(),
                    n.product().product(),
                    Words.percent(n.used()),
                    n.cautious() == null ? "before use" : day(n.cautious()),
                    n.likely() == null ? "" : day(n.likely()));
            if (why) {
                table.note(needWhy(desk, n));
            }
        }
        return table;
    }

    static String needWhy(Desk desk, Need n) {
        if (n.bike() == null) {
            return "on the shelf no ride uses it up; it may join a session";
        }
        if (n.used() >= 1) {
            return "its treatment is used up, or you heard it";
        }
        return n.cautious() == null
                ? "no recent rides, so no date"
                : "worthwhile from " + desk.words().date(n.from())
                        + "; due by the risk you take, and when likely used up";
    }

    private String day(@Nullable Instant t) {
        return t == null ? "–" : !t.isAfter(picture.at()) ? "now" : desk.words().date(t);
    }

    private List<String> session(Session s) {
        Dose dose = Dose.of(picture.ledger(), s.product());
        double fixed = picture.factors().value("plan.fixed-share");
        String chains = s.needs().stream().map(Need::chain).collect(Collectors.joining(", "));
        String when = s.by().isAfter(picture.at()) ? "by " + desk.words().date(s.by()) : "now";
        boolean timed = !Double.isNaN(dose.minutes());
        List<String> lines = new ArrayList<>();
        lines.add(when + ", " + s.product().product() + ": " + chains
                + (s.needs().size() == 1
                        ? " alone."
                        : timed
                                ? ". About " + minutes(s.together(dose.minutes(), fixed)) + " minutes in place of "
                                        + minutes(s.oneByOne(dose.minutes())) + " one by one: "
                                        + minutes(s.oneByOne(dose.minutes()) - s.together(dose.minutes(), fixed))
                                        + " saved."
                                : "."));
        Need urgent = s.needs().get(0);
        lines.add((urgent.cautious() == null
                        ? "none is on a bike, and one of them is used up"
                        : urgent.used() >= 1 ? urgent.chain() + " is due" : urgent.chain() + " is the first to be due")
                + (s.needs().size() == 1
                        ? ""
                        : "; the others will have used "
                                + Words.percent(picture.factors().value("plan.worthwhile"))
                                + " of their treatment, from which renewing is worthwhile ("
                                + picture.factors().factor("plan.worthwhile").mark() + ")"));
        if (timed) {
            lines.add(Words.number(dose.minutes()) + " minutes a treatment ("
                    + (dose.treatments() == 0
                            ? "as entered"
                            : "mean of " + Words.count(dose.treatments(), "treatment", "treatments") + " of yours")
                    + "), " + Words.percent(fixed) + " of them once a session ("
                    + picture.factors().factor("plan.fixed-share").mark() + ")");
        } else {
            lines.add("how long one takes is not known: chainage product set "
                    + Words.typed(s.product().product()) + " --minutes 20");
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
                + (s.when() == null ? "" : s.when().isAfter(picture.at()) ? ", about " + day(s.when()) : ", now")
                + (s.treatFirst() ? "; treat it first" : "") + ". "
                + Words.percent(next.treatment().used()) + " of its treatment used, worn "
                + Words.elongation(next.wear().elongationPercent().likely()) + " of "
                + Words.elongation(next.wear().limitPercent()) + " %.");
        lines.add(s.fits() + "; of those on the shelf that fit the best treated comes first, then the least worn, and"
                + " never one that is damaged, retired or past its limit");
        lines.add(present + ": " + Words.percent(s.now().treatment().used()) + " of its treatment used, worn "
                + Words.elongation(s.now().wear().elongationPercent().likely()) + " of "
                + Words.elongation(s.now().wear().limitPercent()) + " %");
        return lines;
    }

    private List<String> purchase(Purchase p) {
        List<String> lines = new ArrayList<>();
        String by = p.by() == null ? "" : p.by().isAfter(picture.at()) ? " by " + day(p.by()) : " now";
        if (p instanceof Purchase.Chain c) {
            Standing w = c.worn();
            Event.Remarked condemned = w.wear().condemned();
            lines.add("a chain" + by + ", in place of " + w.chain()
                    + (condemned != null
                            ? ", which you noted as " + condemned.remark().word() + "."
                            : ": worn to " + Words.percent(w.wear().used()) + " of its limit"
                                    + (w.replaceOn() == null || w.wear().used() >= 1
                                            ? "."
                                            : ", due about "
                                                    + desk.words()
                                                            .date(w.replaceOn().likely()) + ".")));
            lines.add("by the early end of chainage due's dates; a gauge reading overrules it");
        } else if (p instanceof Purchase.Refill c) {
            lines.add(c.supply().product().product() + by + ": what is left suffices for "
                    + Words.count((long) c.supply().treatmentsLeft(), "treatment", "treatments") + ".");
            lines.addAll(supply(c.supply()).subList(1, 2));
        }
        return lines;
    }

    private List<String> supply(Purchase.Supply s) {
        List<String> lines = new ArrayList<>();
        lines.add(s.product().product() + ": " + figure(s.stock().millilitres()) + " of "
                + figure(s.stock().boughtMillilitres()) + " ml, about "
                + Words.count(Math.round(s.treatmentsLeft()), "treatment", "treatments")
                + (s.runsOut() == null
                        ? "."
                        : ", to " + desk.words().date(s.runsOut()).substring(0, 7) + "."));
        lines.add(Words.count(s.stock().treatments(), "treatment", "treatments") + " since the first purchase"
                + (s.stock().unnoted() == 0 ? "" : ", " + s.stock().unnoted() + " without an amount")
                + "; " + Words.number(s.dose().millilitres()) + " ml each on the mean, "
                + String.format(Locale.ROOT, "%.1f", 28 * s.treatmentsPerDay()) + " in four weeks");
        return lines;
    }

    private static String figure(double value) {
        return String.format(Locale.ROOT, "%.0f", value);
    }

    private void cautions() {
        boolean unrecorded =
                plan.supplies().isEmpty() && !picture.ledger().products().isEmpty();
        if (!plan.needs().isEmpty() || !plan.purchases().isEmpty() || unrecorded) {
            say("");
        }
        boolean pot = plan.needs().stream().anyMatch(n -> n.product().method() == Method.HOT_WAX);
        if (!plan.needs().isEmpty()) {
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
