package chainage.answer.things;

import chainage.analysis.Analysis;
import chainage.answer.Listing;
import chainage.ledger.Event;
import chainage.ledger.Installation;
import chainage.quantity.Money;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Unit;
import org.jspecify.annotations.Nullable;

/** The rider's bikes. */
public final class BikeList {
    /**
     * A bike.
     *
     * @param chain that is on it; null for none
     * @param metres ridden
     * @param byDefault whether rides that no rule assigns are on it
     */
    public record Row(Event.BikeDescribed bike, @Nullable String chain, double metres, boolean byDefault) {
        static Row of(Analysis analysis, Event.BikeDescribed b) {
            return new Row(
                    b,
                    analysis.ledger()
                            .installedOn(b.bike(), analysis.at())
                            .map(Installation::chain)
                            .orElse(null),
                    analysis.rides().stream()
                            .filter(r -> r.counted()
                                    && analysis.ledger().ridden(b.bike()).equals(r.bike()))
                            .mapToDouble(analysis.exposures()::metresOf)
                            .sum(),
                    analysis.ledger().defaultBike().filter(b.bike()::equals).isPresent());
        }
    }

    public static final Listing<Row> LIST = new Listing<>(
            "bikes",
            "by name",
            Columns.of(
                    Column.<Row>name("bike", "its name", r -> r.bike().bike()).head("BIKE"),
                    Column.<Row>name("chain", "that is on it; null where none is", Row::chain)
                            .head("CHAIN"),
                    Column.<Row>figure("metres", Unit.METRES, 0, "ridden", Row::metres)
                            .head("RIDDEN"),
                    Column.<Row>truth("default", "whether rides that no rule assigns are on it", Row::byDefault)
                            .head("DEFAULT BIKE")
                            .as((r, format) -> r.byDefault() ? "yes" : ""),
                    Column.<Row>truth(
                            "chainless",
                            "whether it has no chain",
                            r -> r.bike().chainless()),
                    Column.<Row>time(
                            "chains_from",
                            "rides before that count for no chain; null where all count",
                            r -> r.bike().chainsFrom()),
                    Column.<Row>name(
                            "follows",
                            "the bike whose rides it shares; null where it has rides of its own",
                            r -> r.bike().follows()),
                    Column.list(
                            "rings", "teeth of the chainrings", r -> r.bike().rings()),
                    Column.list("cogs", "teeth of the cogs", r -> r.bike().cogs()),
                    Column.figure(
                            "circumference_metres",
                            Unit.METRES,
                            6,
                            "of the driven wheel; null where it was not entered",
                            r -> r.bike().circumferenceMetres()),
                    Column.list(
                            "jockeys",
                            "teeth of the jockey wheels, upper first",
                            r -> r.bike().jockeys()),
                    Column.name(
                            "cassette_price",
                            "of a new set of cogs; null where it was not entered",
                            r -> price(r.bike().cassettePrice())),
                    Column.name(
                            "rings_price",
                            "of new chainrings; null where it was not entered",
                            r -> price(r.bike().ringsPrice()))),
            "no bikes yet; add one: chainage bike add NAME");

    private BikeList() {}

    static @Nullable String price(@Nullable Money price) {
        return price == null ? null : price.toString();
    }

    public static Answer of(Analysis analysis, Formatter format) {
        return LIST.of(
                analysis.ledger().bikes().values().stream()
                        .map(b -> Row.of(analysis, b))
                        .toList(),
                format);
    }
}
