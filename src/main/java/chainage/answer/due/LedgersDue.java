package chainage.answer.due;

import chainage.analysis.Analysis;
import chainage.answer.Contradictions;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Json;
import chainage.render.Out;
import chainage.render.Unit;
import chainage.standing.Standing;
import chainage.standing.Standings;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * The chains of several ledgers in one table, nearest its limit first: of a household, a workshop, the depots of a fleet.
 *
 * @param at the instant answered for
 * @param ledgers all that could be read
 * @param format for figures; each ledger's dates are its rides' own
 */
public record LedgersDue(Instant at, List<One> ledgers, Formatter format) implements Answer {
    /**
     * What is kept of one ledger's answer: little, since the rides of hundreds would not fit in memory.
     *
     * @param ledger its file, as it was named
     * @param chains nearest its limit first
     * @param unattributedMetres of rides that no chain has
     * @param contradictions what its facts contradict, and what does not fit; a line each
     * @param contradicts whether facts contradict each other
     */
    public record One(
            String ledger,
            List<Line> chains,
            double unattributedMetres,
            List<String> contradictions,
            boolean contradicts) {
        /**
         * Of an analysis, which can be let go then.
         *
         * @param called what it is called in a table, shorter than its path
         */
        public static One of(String ledger, String called, Analysis analysis, Formatter format) {
            List<Standing> standings = analysis.standings();
            return new One(
                    ledger,
                    standings.stream()
                            .map(s -> Line.of(ledger, called, new DueAnswer.Row(s, analysis, format)))
                            .toList(),
                    analysis.bareMetres(),
                    Contradictions.of(
                            analysis.ledger(),
                            analysis,
                            standings.stream().map(Standing::chain).toList(),
                            format),
                    !analysis.ledger().problems().isEmpty());
        }
    }

    /**
     * A chain, with what is shown of it.
     *
     * @param called what its ledger is called in a table
     * @param rank where it stands among chains of all ledgers
     * @param treat what the column of treatments says
     * @param replace what the column of replacements says
     * @param advice how far it is gone and what to do
     */
    public record Line(
            String ledger,
            String called,
            String chain,
            @Nullable String bike,
            String product,
            Standings.Rank rank,
            boolean beforeNextRide,
            double treatmentUsed,
            double treatmentLeft,
            DueAnswer.@Nullable Days treatBy,
            double elongation,
            double limit,
            double replacementUsed,
            DueAnswer.@Nullable Days replaceOn,
            String nearest,
            String treat,
            String replace,
            String advice) {
        static Line of(String ledger, String called, DueAnswer.Row row) {
            Standing s = row.standing();
            return new Line(
                    ledger,
                    called,
                    s.chain(),
                    s.bike(),
                    s.exposure().product().product(),
                    Standings.Rank.of(s),
                    s.dueBeforeNextRide(),
                    s.treatment().used(),
                    s.treatment().dueInMetres(),
                    DueAnswer.Days.of(s.treatBy(), row.format()),
                    s.wear().elongationPercent().likely(),
                    s.wear().limitPercent(),
                    s.wear().used(),
                    DueAnswer.Days.of(s.replaceOn(), row.format()),
                    s.nearest().name().toLowerCase(Locale.ROOT),
                    row.treatWhen(),
                    row.replaceWhen(),
                    new Advice(row.analysis(), row.format()).advice(s));
        }

        boolean due() {
            return rank.due();
        }
    }

    private static final Columns<Line> COLUMNS = Columns.of(
            Column.<Line>name("ledger", "the file it is in", Line::ledger)
                    .head("LEDGER")
                    .as((l, format) -> l.called()),
            Column.<Line>name("chain", "its name", Line::chain).head("CHAIN"),
            Column.<Line>name("bike", "it is on; null on the shelf", Line::bike)
                    .head("ON")
                    .as((l, format) -> l.bike() == null ? "shelf" : l.bike()),
            Column.name("product", "it was treated with", Line::product),
            Column.<Line>figure("treatment_used", Unit.SHARE, 4, "of the limit of its treatment", Line::treatmentUsed)
                    .head("USED"),
            Column.figure(
                    "treatment_left_metres", Unit.METRES, 1, "of dry, clean road until it is due", Line::treatmentLeft),
            Column.object(
                    "treat_by",
                    "when it is due; null on the shelf or without recent rides",
                    DueAnswer.DAYS,
                    Line::treatBy),
            Column.<Line>shown("TREAT", Unit.DAY, (l, format) -> l.treat()).loud(l -> l.treatmentUsed() >= 1),
            Column.truth(
                    "treat_before_next_ride",
                    "whether a usual ride would take it past its limit",
                    Line::beforeNextRide),
            Column.<Line>figure("elongation_pct", Unit.PERCENT, 4, "how far it is worn, most likely", Line::elongation)
                    .head("WORN %")
                    .as((l, format) -> Formatter.elongation(l.elongation()) + "/" + Formatter.elongation(l.limit())),
            Column.figure("limit_pct", Unit.PERCENT, 4, "elongation at which to replace it", Line::limit),
            Column.figure("replacement_used", Unit.SHARE, 4, "of that limit", Line::replacementUsed),
            Column.object(
                    "replace_on",
                    "when it reaches its limit; null without recent rides",
                    DueAnswer.DAYS,
                    Line::replaceOn),
            Column.<Line>shown("REPLACE", Unit.DAY, (l, format) -> l.replace()).loud(l -> l.replacementUsed() >= 1),
            Column.word("nearest", "treatment or replacement", Line::nearest),
            Column.truth("due", "whether its nearest limit is reached", Line::due),
            Column.prose("advice", "how far it is gone, and what to do", Line::advice));

    private static final Columns<One> LEDGERS = Columns.of(
            Column.name("ledger", "its file", One::ledger),
            Column.count("chains", "in use", (One o) -> o.chains().size()),
            Column.count(
                    "due",
                    "of these, those whose nearest limit is reached",
                    (One o) -> o.chains().stream().filter(Line::due).count()),
            Column.figure(
                    "unattributed_metres", Unit.METRES, 1, "of rides that no chain has", One::unattributedMetres));

    /** What scripts get. */
    public static final Columns<LedgersDue> FIELDS = Columns.of(
            Column.<LedgersDue>time("at", "the instant answered for", LedgersDue::at),
            Column.rows("chains", "of all ledgers, nearest its limit first", COLUMNS, LedgersDue::lines),
            Column.rows("ledgers", "each ledger that could be read", LEDGERS, LedgersDue::ledgers));

    private List<Line> lines() {
        return ledgers.stream()
                .flatMap(l -> l.chains().stream())
                .sorted(Comparator.comparing(Line::rank).thenComparing(Line::ledger))
                .toList();
    }

    /** Whether some chain is due, or would be after a usual ride. */
    public boolean isDue() {
        return ledgers.stream().flatMap(l -> l.chains().stream()).anyMatch(l -> l.due() || l.beforeNextRide());
    }

    @Override
    public Json json() {
        return FIELDS.json(this);
    }

    @Override
    public void print(Out out) {
        List<Line> lines = lines();
        Line nearest = lines.stream()
                .filter(l -> l.bike() != null)
                .findFirst()
                .or(() -> lines.stream().findFirst())
                .orElse(null);
        if (nearest == null) {
            out.line("No chain in use in " + Formatter.count(ledgers.size(), "ledger", "ledgers") + ".");
        } else {
            out.advice(
                    "Nearest its limit: " + nearest.chain() + ", "
                            + (nearest.bike() == null ? "on the shelf" : "on " + nearest.bike()) + ", in "
                            + nearest.ledger() + ". " + nearest.advice(),
                    nearest.due());
            out.line();
            out.table(COLUMNS.table(lines, format));
            out.line();
            out.hint(Formatter.count(lines.stream().filter(Line::due).count(), "chain is", "chains are")
                    + " due, of " + lines.size() + " in " + Formatter.count(ledgers.size(), "ledger", "ledgers")
                    + ". USED 100 %: time to treat. How sure, and why: chainage due --ledger LEDGER --why CHAIN");
        }
        ledgers.stream()
                .filter(l -> l.unattributedMetres() > 0)
                .forEach(l -> out.line(
                        "Without a chain: " + format.distance(l.unattributedMetres()) + " in " + l.ledger() + "."));
    }
}
