package chainage.answer.compare;

import chainage.analysis.Analysis;
import chainage.analysis.Comparison;
import chainage.analysis.MeasuredComparison;
import chainage.answer.loss.PairWords;
import chainage.comparison.ComparedProduct;
import chainage.comparison.MoreToSee;
import chainage.comparison.PairComparison;
import chainage.ledger.Event;
import chainage.quantity.Estimate;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Json;
import chainage.render.Out;
import chainage.render.Unit;
import chainage.treatment.OtherRiders;
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
            .head("SEEN");
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
                    "BETWEEN (80 %)",
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
                    "BETWEEN (80 %)",
                    Unit.PERCENT, (p, format) -> {
                        Estimate e = p.wear().percentPer1000Km();
                        return rate(e.low(), format) + " and " + rate(e.high(), format);
                    }),
            CHAINS,
            READINGS);

    /** What two power meters measured of two products. */
    private record Measured(MeasuredComparison of, String words) {}

    private static final Columns<Measured> MEASURED = Columns.of(
            Column.name(
                    "better",
                    "the product that more likely loses less",
                    m -> m.of().better().product()),
            Column.name("worse", "the other", m -> m.of().worse().product()),
            Column.figure(
                    "more_pct",
                    Unit.PERCENT,
                    3,
                    "of the power that the worse loses more in the middle of its life",
                    m -> 100 * m.of().more().middle()),
            Column.figure(
                    "more_pct_low",
                    Unit.PERCENT,
                    3,
                    "10 % below",
                    m -> 100 * m.of().more().low()),
            Column.figure(
                    "more_pct_high",
                    Unit.PERCENT,
                    3,
                    "10 % above",
                    m -> 100 * m.of().more().high()),
            Column.figure("chance", Unit.SHARE, 4, "that it does", m -> m.of().chance()),
            Column.word(
                    "verdict",
                    "firm, not-yet or unseen",
                    m -> m.of().finding().name().toLowerCase(Locale.ROOT).replace('_', '-')),
            Column.count(
                    "more_rides",
                    "to be recorded by both meters with each; null where it is told, or no number would do",
                    m -> m.of().needed() == 0 || m.of().needed() > MoreToSee.MOST ? null : m.of().needed()),
            Column.word("words", "the same as a sentence", Measured::words));

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
            Column.word("more_of", "treatments, readings or chains; null where the verdict stands", v -> {
                MoreToSee more = v.more();
                return more == null ? null : more.of().name().toLowerCase(Locale.ROOT);
            }),
            Column.word("words", "the same as a sentence", CompareAnswer::sentence));

    /** What other riders have shown of two products. */
    private record OfOthers(PairComparison pair, OtherRiders.Compared seen) {
        private String words() {
            String better = pair.better().product();
            String worse = pair.worse().product();
            int longer = seen.longer();
            return "From " + Formatter.count(seen.riders(), "rider", "riders") + ", "
                    + Formatter.count(seen.lives(), "life", "lives") + ": "
                    + (seen.both() == 0
                            ? "none has used both " + better + " and " + worse
                            : better + " lasts longer than " + worse + " for " + longer + " of the " + seen.both()
                                    + " who used both")
                    + "; chance "
                    + (pair.chance() > 0.99 ? "over 99 %" : Formatter.percent(Math.min(0.99, pair.chance())))
                    + (seen.both() == 0 ? " that " + better + " lasts longer with you." : " that it would for you.");
        }
    }

    private static final Columns<OfOthers> OTHERS = Columns.of(
            Column.name(
                    "better",
                    "the product that is more likely the better with you",
                    o -> o.pair().better().product()),
            Column.name("worse", "the other", o -> o.pair().worse().product()),
            Column.count("riders", "others who have used either", o -> o.seen().riders()),
            Column.count("lives", "that they have shown of both", o -> o.seen().lives()),
            Column.count("both", "others who have used both", o -> o.seen().both()),
            Column.count(
                    "longer",
                    "of these, the ones with whom the first lasted longer",
                    o -> o.seen().longer()),
            Column.figure(
                    "chance",
                    Unit.SHARE,
                    4,
                    "that it lasts longer with you, with all that is known",
                    o -> o.pair().chance()),
            Column.word("words", "the same as a sentence", OfOthers::words));

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
                    a -> a.comparison().pairs()),
            Column.rows("measured", "by rides with two power meters, every two", MEASURED, CompareAnswer::measured),
            Column.rows("others", "what other riders have shown of lives, every two", OTHERS, CompareAnswer::others));

    private List<OfOthers> others() {
        OtherRiders riders = analysis.others().weighed();
        return comparison.pairs().stream()
                .filter(v -> v.aspect() == PairComparison.Aspect.LIFE)
                .map(v -> new OfOthers(
                        v,
                        riders.compared(
                                v.better().life().product(), v.worse().life().product(), analysis.factors())))
                .filter(o -> o.seen().riders() > 0)
                .toList();
    }

    private List<Measured> measured() {
        List<Event.ProductDescribed> products =
                comparison.products().stream().map(p -> p.life().product()).toList();
        return MeasuredComparison.of(analysis, products).stream()
                .map(c -> new Measured(c, MeasuredWords.sentence(analysis, c)))
                .toList();
    }

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
        out.line("LIFE of a typical treatment, until noisy, on dry, clean road: half of them last longer");
        out.table(LIVES_SEEN.table(products, format));
        say(out, PairComparison.Aspect.LIFE);
        out.hint(
                "SEEN: your treatments that were ridden on, those in force among them; NOISY: of these, run until noisy."
                        + " For a chain, chainage due leaves the one in force out, which does not judge itself, and tells"
                        + " how a single one may end.");
        // Where nobody has used both, what others have shown is in the chance above.
        others().stream().filter(o -> o.seen().both() > 0).forEach(o -> out.line(o.words()));
        out.line();
        out.line("WEAR in % per 1000 " + format.unit() + " of dry clean road");
        out.table(WEAR_SEEN.table(products, format));
        say(out, PairComparison.Aspect.WEAR);
        List<Measured> measured = measured();
        if (!measured.isEmpty()) {
            out.line();
            out.line("LOSS by "
                    + PairWords.rides(
                            analysis.pairs().learnt().seen().size(),
                            analysis.pairs().others().shown())
                    + " with two power meters, in the middle of a life");
            measured.stream()
                    .filter(m -> m.of().finding() != PairComparison.Finding.UNSEEN)
                    .forEach(m -> out.line(m.words()));
            List<String> unseen = products.stream()
                    .filter(p -> !analysis.pairs().isSeen(p.life().product()))
                    .map(ComparedProduct::product)
                    .toList();
            if (!unseen.isEmpty()) {
                out.line("Not measured yet: " + String.join(", ", unseen) + ".");
            }
            out.hint("How rides are made to tell: chainage explain pairs; which chain next: chainage compare --next");
        }
        if (why) {
            new CompareWhy(analysis, format, out).print(comparison);
        }
    }

    /** Every pair of which both were seen, and in one sentence those that were not. */
    private void say(Out out, PairComparison.Aspect aspect) {
        comparison.pairs().stream()
                .filter(v -> v.aspect() == aspect && v.finding() != PairComparison.Finding.UNSEEN)
                .forEach(v -> out.line(sentence(v)));
        List<String> unseen = comparison.products().stream()
                .filter(p -> !p.seen(aspect))
                .map(ComparedProduct::product)
                .toList();
        if (!unseen.isEmpty()) {
            out.line((aspect == PairComparison.Aspect.LIFE
                            ? "By the built-in table and your other products, since no treatment of yours was seen: "
                            : "By the built-in table and your other chains, since no chain was measured that got 80 % of its wear on one of them: ")
                    + String.join(", ", unseen) + ".");
        }
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
                        + ": chance " + (v.chance() > 0.99 ? "over 99 %" : chance)
                        + (life && byTable(v) ? ", more by the built-in table than by your treatments." : ".");
            case NOT_YET ->
                "Not sure yet: " + better + (life ? " lasts longer than " : " wears a chain more slowly than ") + worse
                        + ", chance " + chance + "; " + more(v.more()) + ".";
            case UNSEEN ->
                "Nothing of yours tells " + better + " from " + worse + " yet: "
                        + (life ? "no treatment was seen of " : "no chain was measured that ran mostly on ")
                        + String.join(" or ", unseen(v)) + ".";
        };
    }

    /** Whether what sets two lives apart is mostly what the table said of their methods. */
    private static boolean byTable(PairComparison v) {
        return Math.max(v.better().life().tableWeight(), v.worse().life().tableWeight()) > 0.5;
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
