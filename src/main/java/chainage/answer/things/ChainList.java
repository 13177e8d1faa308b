package chainage.answer.things;

import chainage.analysis.Analysis;
import chainage.answer.Listing;
import chainage.exposure.ChainExposure;
import chainage.ledger.Event;
import chainage.ledger.Installation;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Unit;
import org.jspecify.annotations.Nullable;

/** The rider's chains, in use or not. */
public final class ChainList {
    /**
     * A chain.
     *
     * @param on where it is installed; null on the shelf
     * @param noted what puts it out of service; null for nothing
     */
    public record Row(
            ChainExposure exposure,
            @Nullable Installation on,
            @Nullable String noted) {
        static Row of(Analysis analysis, ChainExposure exposure) {
            String chain = exposure.chain().chain();
            return new Row(
                    exposure,
                    analysis.ledger().installationOf(chain, analysis.at()).orElse(null),
                    analysis.ledger()
                            .outOfService(chain)
                            .map(r -> r.remark().word())
                            .orElse(null));
        }

        private Event.ChainDescribed chain() {
            return exposure.chain();
        }

        private static @Nullable Integer known(int n) {
            return n == 0 ? null : n;
        }
    }

    public static final Listing<Row> LIST = new Listing<>(
            "chains",
            "by name",
            Columns.of(
                    Column.<Row>name("chain", "its name", r -> r.chain().chain())
                            .head("CHAIN"),
                    Column.<Row>name("bike", "it is on; null on the shelf", r -> r.on() == null ? null : r.on().bike())
                            .head("BIKE")
                            .as((r, format) -> (r.on() == null ? "shelf" : r.on().bike())
                                    + (r.noted() == null ? "" : ", " + r.noted())),
                    Column.<Row>time(
                                    "installed_at",
                                    "since when; null on the shelf",
                                    r -> r.on() == null
                                            ? null
                                            : r.on().interval().from())
                            .head("ON IT SINCE")
                            .as((r, format) -> r.on() == null
                                    ? ""
                                    : format.date(r.on().interval().from())),
                    Column.<Row>figure(
                                    "metres",
                                    Unit.METRES,
                                    0,
                                    "ridden",
                                    r -> r.exposure().riddenMetres())
                            .head("TOTAL"),
                    Column.<Row>name(
                                    "product",
                                    "it was treated with",
                                    r -> r.exposure().product().product())
                            .head("TREATED WITH"),
                    Column.<Row>time(
                                    "treated_at",
                                    "when; null where no treatment is noted",
                                    r -> r.exposure().treatedAt())
                            .head("TREATED")
                            .as((r, format) -> r.exposure().treatedAt() == null
                                    ? "–"
                                    : format.date(r.exposure().treatedAt())),
                    Column.count(
                            "speeds",
                            "cogs it is made for; null where it was not entered",
                            r -> Row.known(r.chain().speeds())),
                    Column.count(
                            "pitches",
                            "links; null where it was not entered",
                            r -> Row.known(r.chain().pitches())),
                    Column.figure(
                            "limit_pct",
                            Unit.PERCENT,
                            6,
                            "elongation at which to replace it; null for the usual one",
                            r -> r.chain().limitPercent()),
                    Column.name(
                            "price",
                            "of it; null where it was not entered",
                            r -> BikeList.price(r.chain().price()))),
            "no chains yet; add one: chainage chain add NAME");

    private ChainList() {}

    public static Answer of(Analysis analysis, Formatter format) {
        return LIST.of(
                analysis.exposures().chains().values().stream()
                        .map(c -> Row.of(analysis, c))
                        .toList(),
                format);
    }
}
