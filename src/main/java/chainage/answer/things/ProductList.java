package chainage.answer.things;

import chainage.answer.Listing;
import chainage.cost.Dose;
import chainage.cost.Stock;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Method;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Unit;
import java.util.Arrays;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** The rider's products. */
public final class ProductList {
    /**
     * A product.
     *
     * @param treatments with it
     */
    public record Row(Event.ProductDescribed product, Dose dose, Stock stock, long treatments) {
        static Row of(Ledger ledger, Event.ProductDescribed p) {
            return new Row(
                    p,
                    Dose.of(ledger, p),
                    Stock.of(ledger, p),
                    ledger.treatmentsWith(p.product()).size());
        }
    }

    public static final Listing<Row> LIST = new Listing<>(
            "products",
            "by name",
            Columns.of(
                    Column.<Row>name("product", "its name", r -> r.product().product())
                            .head("PRODUCT"),
                    Column.<Row>word(
                                    "method",
                                    "how it is applied",
                                    r -> r.product().method().word())
                            .head("METHOD")
                            .as((r, format) -> r.product().method().words()),
                    Column.<Row>name(
                            "price",
                            "of a package",
                            r -> BikeList.price(r.product().price())),
                    Column.shown(
                            "PRICE",
                            Unit.MONEY,
                            (r, format) -> text(BikeList.price(r.product().price()))),
                    Column.<Row>figure(
                                    "package_ml",
                                    Unit.MILLILITRES,
                                    6,
                                    "in a package",
                                    r -> r.product().packageMillilitres())
                            .head("AMOUNT")
                            .as((r, format) -> r.product().packageMillilitres() == null
                                    ? "–"
                                    : Formatter.number(r.product().packageMillilitres()) + " ml"),
                    Column.<Row>figure(
                                    "treatment_ml",
                                    Unit.MILLILITRES,
                                    2,
                                    "that a treatment takes; null where it was not entered",
                                    r -> r.dose().millilitres())
                            .head("EACH")
                            .as((r, format) -> millilitres(r.dose().millilitres())),
                    Column.figure(
                            "treatment_minutes",
                            Unit.MINUTES,
                            1,
                            "that a treatment takes; null where it was not entered",
                            r -> r.dose().minutes()),
                    Column.<Row>figure(
                                    "left_ml",
                                    Unit.MILLILITRES,
                                    1,
                                    "left of what was bought; null where no purchase is noted",
                                    r -> r.stock().millilitres())
                            .head("LEFT")
                            .as((r, format) -> millilitres(r.stock().millilitres())),
                    Column.<Row>count("treatments", "with it", Row::treatments).head("TIMES USED")),
            "no products yet; add one: chainage product add NAME --method hot-wax, or name a method when you treat: "
                    + Arrays.stream(Method.values()).map(Method::word).collect(Collectors.joining(", ")));

    private ProductList() {}

    public static Answer of(Ledger ledger, Formatter format) {
        return LIST.of(
                ledger.products().values().stream().map(p -> Row.of(ledger, p)).toList(), format);
    }

    private static String text(@Nullable String text) {
        return text == null ? "–" : text;
    }

    private static String millilitres(double amount) {
        return Double.isNaN(amount) ? "–" : Formatter.number(Math.round(amount * 10) / 10.0) + " ml";
    }
}
