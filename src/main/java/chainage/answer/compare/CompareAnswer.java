package chainage.answer.compare;

import chainage.analysis.Analysis;
import chainage.analysis.Comparison;
import chainage.comparison.ComparedProduct;
import chainage.comparison.MoreToSee;
import chainage.comparison.PairComparison;
import chainage.quantity.Estimate;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Json;
import chainage.render.Out;
import chainage.render.Unit;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * Which product lasts longer, and under which the chain wears more slowly.
 *
 * @param analysis it is taken from
 * @param comparison the products and what can be said of every two of them
 * @param why whether the lives, readings and arithmetic are shown
 */
public record CompareAnswer(Analysis analysis, Comparison comparison, boolean why, Formatter format) implements Answer {
    private static final Column<ComparedProduct> PRODUCT = Column.<ComparedProduct>name(
                    "product", "compared", ComparedProduct::product)
            .head("PRODUCT");
    private static final Column<ComparedProduct> METHOD = Column.<ComparedProduct>word(
                    "method",
                    "of treating with it",
                    p -> p.life().product().method().word())
            .head("METHOD")
            .as((p, format) -> p.life().product().method().words());
    private static final Column<ComparedProduct> LIFE = Column.<ComparedProduct>estimate(
                    "life_metres",
                    Unit.METRES,
                    1,
                    "dry, clean distance until a treatment is noisy",
                    p -> p.life().typical())
            .head("LIKELY");
    private static final Column<ComparedProduct> LIVES = Column.<ComparedProduct>count(
                    "lives", "seen", p -> p.life().lives().size())
            .head("LIVES");
    private static final Column<ComparedProduct> HEARD = Column.<ComparedProduct>count(
                    "lives_heard", "of those, run until noisy", p -> p.life().ended())
            .head("NOISY");
    private static final Column<ComparedProduct> WEAR = Column.<ComparedProduct>estimate(
                    "wear_pct_per_1000_km",
                    Unit.PERCENT,
                    5,
                    "elongation by 1000 km of dry, clean road",
                    p -> p.wear().percentPer1000Km())
            .head("LIKELY")
            .as((p, format) -> rate(p.wear().percentPer1000Km().likely(), format));
    private static final Column<ComparedProduct> CHAINS = Column.<ComparedProduct>count(
                    "wear_chains",
                    "ridden mostly on it and measured",
                    p -> p.wear().chains())
            .head("CHAINS");
    private static final Column<ComparedProduct> READINGS = Column.<ComparedProduct>count(
                    "wear_readings", "on those", p -> p.wear().readings())
            .head("READINGS");

    private static final Columns<ComparedProduct> PRODUCTS =
            Columns.of(PRODUCT, METHOD, LIFE, LIVES, HEARD, WEAR, CHAINS, READINGS);

    private static final Columns<ComparedProduct> LIVES_SEEN = Columns.of(
            PRODUCT,
            METHOD,
            LIFE,
            Column.<ComparedProduct>shown(
                    "80 % BETWEEN",
                    Unit.METRES, (p, format) -> {
                        Estimate e = p.life().typical();
                        return format.distance(e.low()) + " and " + format.distance(e.high());
                    }),
            LIVES,
            HEARD);

    private static final Columns<ComparedProduct> WEAR_SEEN = Columns.of(
            PRODUCT,
            WEAR,
            Column.<ComparedProduct>shown(
                    "80 % BETWEEN",
                    Unit.PERCENT, (p, format) -> {
                        Estimate e = p.wear().percentPer1000Km();
                        return rate(e.low(), format) + " and " + rate(e.high(), format);
                    }),
            CHAINS,
            READINGS);

    private static final Columns<PairComparison> PAIRS = Columns.of(
            Column.word("by", "life or wear", v -> v.aspect().name().toLowerCase(Locale.ROOT)),
            Column.name(
                    "better",
                    "the product that is more likely the better",
                    v -> v.better().product()),
            Column.name("worse", "the other", v -> v.worse().product()),
            Column.figure("chance", Unit.SHARE, 4, "that it is the better", PairComparison::chance),
            Column.word(
                    "verdict",
                    "firm, not-yet or unseen",
                    v -> v.finding().name().toLowerCase(Locale.ROOT).replace('_', '-')),
            Column.count("more", "to be seen of each; null where no number would do", v -> {
                MoreToSee more = v.more();
                return more == null || more.hopeless() ? null : more.count();
            }),
            Column.word("more_of", "treatments, readings or chains", v -> {
                MoreToSee more = v.more();
                return more == null ? null : more.of().name().toLowerCase(Locale.ROOT);
            }),
            Column.word("words", "the same as a sentence", CompareAnswer::sentence));

    /** The fields of all. */
    public static final Columns<CompareAnswer> FIELDS = Columns.of(
            Column.time(
                    "at",
                    "the instant up to which all is weighed",
                    a -> a.analysis().at()),
            Column.rows(
                    "products",
                    "in the order asked for",
                    PRODUCTS,
                    a -> a.comparison().products()),
            Column.rows(
                    "comparisons",
                    "every two of them",
                    PAIRS,
                    a -> a.comparison().pairs()));

    private static String rate(double percentPer1000Km, Formatter format) {
        return Formatter.fixed(percentPer1000Km / format.ofMetres(1000), 3);
    }

    @Override
    public Json json() {
        return FIELDS.json(this);
    }

    @Override
    public void print(Out out) {
        List<ComparedProduct> products = comparison.products();
        if (products.size() < 2) {
            out.line((products.isEmpty()
                            ? "No product has been used on a ride yet"
                            : "Only " + products.get(0).product() + " has been used on rides so far")
                    + ", so there is nothing to compare. Note treatments: chainage treat CHAIN PRODUCT");
            return;
        }
        out.line("LIFE of a treatment, until noisy, on dry clean road");
        out.table(LIVES_SEEN.table(products, format));
        say(out, PairComparison.Aspect.LIFE);
        out.line();
        out.line("WEAR in % per 1000 " + format.unit() + " of dry clean road");
        out.table(WEAR_SEEN.table(products, format));
        say(out, PairComparison.Aspect.WEAR);
        if (why) {
            new CompareWhy(analysis, format, out).print(comparison);
        }
    }

    private void say(Out out, PairComparison.Aspect aspect) {
        comparison.pairs().stream().filter(v -> v.aspect() == aspect).forEach(v -> out.line(sentence(v)));
    }

    /** A verdict in a sentence. */
    private static String sentence(PairComparison v) {
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
                                + " of each, run until noisy,";
                    case READINGS ->
                        Formatter.count(need.count(), "more reading", "more readings") + " of each one's chains";
                    case CHAINS ->
                        Formatter.count(need.count(), "more chain", "more chains") + " of each, measured when worn,";
                }
                + " would show it";
    }
}
