package chainage.cli;

import chainage.analysis.Analysis;
import chainage.comparison.ComparedProduct;
import chainage.comparison.MoreToSee;
import chainage.comparison.PairComparison;
import chainage.comparison.Spreads;
import chainage.ledger.Event;
import chainage.ledger.Method;
import chainage.quantity.Estimate;
import chainage.render.Formatter;
import chainage.render.Json;
import chainage.render.Table;
import chainage.treatment.ProductLife;
import chainage.wear.ProductWear;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "compare",
        description = {
            "Which product lasts longer, and under which the chain wears more slowly, by your own remarks, renewals and"
                    + " readings; and what is still to be seen."
        },
        footer = {
            "Examples:",
            "  chainage compare",
            "  chainage compare \"Kettle Block\" \"Lantern Drip\" --why",
            "",
            "A verdict takes a chance of 90 %%, and something seen of both products. Life is",
            "learnt when you note what you hear (chainage remark CHAIN noisy), wear when you",
            "measure (chainage measure). How it is reckoned: chainage explain compare"
        })
final class CompareCommand extends Action {
    @Parameters(arity = "0..*", paramLabel = "PRODUCT", description = "only these (else all that you have used)")
    List<String> products = List.of();

    @Option(names = "--why", description = "show the lives, readings and arithmetic behind each verdict")
    boolean why;

    @Override
    public Integer call() {
        CommandContext context = context();
        Analysis analysis = context.analysis();
        List<ComparedProduct> candidates = candidates(analysis);
        List<PairComparison> verdicts = PairComparison.of(candidates, Spreads.of(analysis.factors()));
        if (context.json()) {
            context.out().json(json(analysis, candidates, verdicts));
            return ExitCode.OK.code();
        }
        if (candidates.size() < 2) {
            context.out()
                    .line((candidates.isEmpty()
                                    ? "No product has been ridden on yet"
                                    : "Only " + candidates.get(0).product() + " has been ridden on so far")
                            + ", so there is nothing to compare. Note treatments: chainage treat CHAIN PRODUCT");
            return ExitCode.OK.code();
        }
        lives(candidates);
        say(verdicts, PairComparison.Aspect.LIFE);
        context.out().line();
        wear(candidates);
        say(verdicts, PairComparison.Aspect.WEAR);
        if (why) {
            new CompareWhy(context, analysis).print(candidates, verdicts);
        }
        return ExitCode.OK.code();
    }

    private List<ComparedProduct> candidates(Analysis analysis) {
        Map<String, Event.ProductDescribed> wanted = new LinkedHashMap<>();
        for (String typed : products) {
            Event.ProductDescribed p = Names.product(analysis.ledger(), typed);
            if (p.method() == Method.NONE) {
                throw CliError.usage(
                        "\"" + p.product() + "\" is no treatment", "name products, or leave them out for all");
            }
            wanted.put(p.product(), p);
        }
        if (!products.isEmpty() && wanted.size() < 2) {
            throw CliError.usage(
                    "there is one product to compare, " + String.join("", wanted.keySet()),
                    "name two or more, or none for all");
        }
        if (wanted.isEmpty()) {
            analysis.estimates()
                    .lives()
                    .products()
                    .forEach(l -> wanted.put(l.product().product(), l.product()));
        }
        return wanted.values().stream()
                .map(p -> ComparedProduct.of(
                        p,
                        analysis.estimates().lives(),
                        analysis.estimates().wear(),
                        analysis.exposures().chains().values(),
                        analysis.factors()))
                .toList();
    }

    private void lives(List<ComparedProduct> candidates) {
        context().out().line("LIFE of a treatment, until it is heard, on dry clean road");
        Table table = new Table()
                .left("PRODUCT")
                .left("METHOD")
                .right("LIKELY")
                .right("80 % BETWEEN")
                .right("LIVES")
                .right("HEARD");
        for (ComparedProduct c : candidates) {
            ProductLife l = c.life();
            Estimate e = l.typical();
            table.row(
                    c.product(),
                    l.product().method().words(),
                    context().format().distance(e.likely()),
                    context().format().distance(e.low()) + " and "
                            + context().format().distance(e.high()),
                    Integer.toString(l.lives().size()),
                    Integer.toString(l.ended()));
        }
        context().out().table(table);
    }

    private void wear(List<ComparedProduct> candidates) {
        context().out().line("WEAR in % per 1000 " + context().format().unit() + " of dry clean road");
        Table table = new Table()
                .left("PRODUCT")
                .right("LIKELY")
                .right("80 % BETWEEN")
                .right("CHAINS")
                .right("READINGS");
        for (ComparedProduct c : candidates) {
            ProductWear w = c.wear();
            Estimate e = w.percentPer1000Km();
            table.row(
                    c.product(),
                    rate(e.likely()),
                    rate(e.low()) + " and " + rate(e.high()),
                    Integer.toString(w.chains()),
                    Integer.toString(w.readings()));
        }
        context().out().table(table);
    }

    private String rate(double percentPer1000Km) {
        return Formatter.fixed(percentPer1000Km / context().format().ofMetres(1000), 3);
    }

    private void say(List<PairComparison> verdicts, PairComparison.Aspect aspect) {
        verdicts.stream()
                .filter(v -> v.aspect() == aspect)
                .forEach(v -> context().out().line(sentence(v)));
    }

    /** A verdict in a sentence. */
    static String sentence(PairComparison v) {
        boolean life = v.aspect() == PairComparison.Aspect.LIFE;
        String chance = Formatter.percent(Math.min(0.99, v.chance()));
        String better = v.better().product();
        String worse = v.worse().product();
        return switch (v.finding()) {
            case FIRM ->
                better + (life ? " lasts longer than " + worse : " wears a chain more slowly than " + worse)
                        + ": chance " + (v.chance() > 0.99 ? "over 99 %" : chance) + ".";
            case NOT_YET ->
                "Not yet: that " + better + (life ? " lasts longer than " : " wears a chain more slowly than ") + worse
                        + " has a chance of " + chance + "; " + more(v.more()) + ".";
            case UNSEEN ->
                "No evidence of yours: " + better + " or " + worse + "; "
                        + (life ? "no life was seen of " : "no chain ridden mostly on it was measured for ")
                        + String.join(" and ", unseen(v)) + ".";
        };
    }

    private static List<String> unseen(PairComparison v) {
        return Stream.of(v.better(), v.worse())
                .filter(c -> !c.seen(v.aspect()))
                .map(ComparedProduct::product)
                .toList();
    }

    private static String more(@Nullable MoreToSee need) {
        if (need == null || need.hopeless()) {
            return "as they look now, not even " + MoreToSee.MOST + " more of each would show a difference";
        }
        return "about "
                + switch (need.of()) {
                    case TREATMENTS ->
                        Formatter.count(need.count(), "more treatment", "more treatments")
                                + " of each, ridden until heard,";
                    case READINGS ->
                        Formatter.count(need.count(), "more reading", "more readings") + " of each one's chains";
                    case CHAINS ->
                        Formatter.count(need.count(), "more chain", "more chains") + " of each, measured when worn,";
                }
                + " would show it";
    }

    private static Json json(Analysis analysis, List<ComparedProduct> candidates, List<PairComparison> verdicts) {
        List<Json> products = new ArrayList<>();
        for (ComparedProduct c : candidates) {
            products.add(new Json()
                    .put("product", c.product())
                    .put("method", c.life().product().method().word())
                    .estimate("life_metres", c.life().typical(), 1)
                    .put("lives", c.life().lives().size())
                    .put("lives_heard", c.life().ended())
                    .estimate("wear_pct_per_1000_km", c.wear().percentPer1000Km(), 5)
                    .put("wear_chains", c.wear().chains())
                    .put("wear_readings", c.wear().readings()));
        }
        List<Json> pairs = new ArrayList<>();
        for (PairComparison v : verdicts) {
            MoreToSee need = v.more();
            pairs.add(new Json()
                    .put("by", v.aspect().name().toLowerCase(Locale.ROOT))
                    .put("better", v.better().product())
                    .put("worse", v.worse().product())
                    .number("chance", v.chance(), 4)
                    .put("verdict", v.finding().name().toLowerCase(Locale.ROOT).replace('_', '-'))
                    .put("more", need == null || need.hopeless() ? null : need.count())
                    .put("more_of", need == null ? null : need.of().name().toLowerCase(Locale.ROOT))
                    .put("words", sentence(v)));
        }
        return new Json().put("at", analysis.at()).put("products", products).put("comparisons", pairs);
    }
}
