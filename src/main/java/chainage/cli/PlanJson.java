package chainage.cli;

import chainage.analysis.Analysis;
import chainage.cost.Dose;
import chainage.plan.Plan;
import chainage.plan.PlannedTreatment;
import chainage.plan.PotSession;
import chainage.plan.Purchase;
import chainage.plan.Swap;
import chainage.render.Json;
import chainage.standing.Standing;

/** The plan for scripts. */
record PlanJson(Analysis analysis, Plan plan) {
    void print(CommandContext context) {
        context.out()
                .json(new Json()
                        .put("at", analysis.at())
                        .put("until", plan.until())
                        .put(
                                "treatments",
                                plan.treatments().stream()
                                        .map(n -> need(context, n))
                                        .toList())
                        .put(
                                "sessions",
                                plan.sessions().stream().map(this::session).toList())
                        .put("next", plan.swaps().stream().map(PlanJson::swap).toList())
                        .put(
                                "buy",
                                plan.purchases().stream()
                                        .map(PlanJson::purchase)
                                        .toList())
                        .put(
                                "supplies",
                                plan.supplies().stream().map(PlanJson::supply).toList()));
    }

    private static Json need(CommandContext context, PlannedTreatment n) {
        return new Json()
                .put("chain", n.chain())
                .put("bike", n.bike())
                .put("product", n.product().product())
                .number("treatment_used", n.used(), 4)
                .put("from", n.from())
                .put("cautious", n.cautious())
                .put("likely", n.likely())
                .put("why", PlanText.needWhy(context, n));
    }

    private Json session(PotSession s) {
        double minutes = Dose.of(analysis.ledger(), s.product()).minutes();
        return new Json()
                .put("by", s.by())
                .put("product", s.product().product())
                .put(
                        "chains",
                        s.treatments().stream().map(PlannedTreatment::chain).toList())
                .number("minutes", s.together(minutes, analysis.factors().value("plan.fixed-share")), 1)
                .number("minutes_one_by_one", s.oneByOne(minutes), 1);
    }

    private static Json swap(Swap s) {
        Standing next = s.next();
        return new Json()
                .put("bike", s.bike())
                .put("chain", s.now().chain())
                .put("next", next == null ? null : next.chain())
                .put("when", s.when())
                .put("treat_first", s.treatFirst())
                .number(
                        "next_treatment_used",
                        next == null ? Double.NaN : next.treatment().used(),
                        4)
                .number(
                        "next_elongation_pct",
                        next == null
                                ? Double.NaN
                                : next.wear().elongationPercent().likely(),
                        4)
                .put("why", s.fits());
    }

    private static Json purchase(Purchase p) {
        Json json = new Json().put("by", p.by());
        return p instanceof Purchase.Chain c
                ? json.put("what", "chain").put("in_place_of", c.worn().chain())
                : p instanceof Purchase.Refill c
                        ? json.put("what", "product")
                                .put("product", c.supply().product().product())
                        : json;
    }

    private static Json supply(Purchase.Supply s) {
        return new Json()
                .put("product", s.product().product())
                .number("left_ml", s.stock().millilitres(), 1)
                .number("bought_ml", s.stock().boughtMillilitres(), 1)
                .number("treatments_left", s.treatmentsLeft(), 2)
                .put("runs_out", s.runsOut());
    }
}
