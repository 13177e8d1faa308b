package chainage.cli;

import chainage.condition.Condition;
import chainage.exposure.ChainExposure;
import chainage.exposure.Factors;
import chainage.exposure.RideExposure;
import chainage.ledger.Event;
import chainage.ledger.Grit;
import chainage.ledger.Method;
import chainage.ledger.Moisture;
import chainage.quantity.Estimate;
import chainage.standing.Standing;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;

/** The reasons behind one chain's line: rides, factors with their marks, arithmetic. */
final class WhyText {
    private final Desk desk;
    private final Picture picture;
    private final Words words;

    WhyText(Desk desk, Picture picture) {
        this.desk = desk;
        this.picture = picture;
        this.words = desk.words();
    }

    void print(Standing s) {
        desk.out().println();
        lines(picture, s, words).forEach(line -> desk.out().println(DueText.wrap(Words.safe(line))));
        Table table = new Table()
                .whole("RIDE")
                .whole("DAY")
                .right("RIDDEN")
                .whole("ROAD")
                .right("TIMES")
                .right("COUNTS");
        for (RideExposure r : s.exposure().sinceTreatment()) {
            table.row(
                    r.ride().id(),
                    words.date(r.ride().filed().ride().start()),
                    words.distance(r.metres().metres()),
                    road(r.condition()),
                    String.format(Locale.ROOT, "%.2f", r.treatmentFactor()),
                    words.distance(r.treatmentMetres()));
            table.note("road: " + r.condition().from() + "; distance: "
                    + r.metres().from());
        }
        if (!s.exposure().sinceTreatment().isEmpty()) {
            table.print(desk.out());
        }
    }

    static String road(Condition c) {
        String moisture = c.moisture().word() + (c.share() < 1 ? " " + Math.round(c.share() * 100) + "%" : "");
        return c.grit() == Grit.CLEAN ? moisture : moisture + ", " + c.grit().word();
    }

    /** The same in sentences, one a step of the sum. */
    static List<String> lines(Picture picture, Standing s, Words words) {
        List<String> lines = new ArrayList<>();
        lines.addAll(treatment(picture, s, words));
        lines.addAll(wear(s, words));
        return lines;
    }

    private static List<String> treatment(Picture picture, Standing s, Words words) {
        ChainExposure e = s.exposure();
        Method method = e.product().method();
        List<String> lines = new ArrayList<>();
        lines.add(s.chain() + ": "
                + (e.treatedAt() == null
                        ? "no treatment noted, so taken as " + method.words()
                        : e.product().product() + " (" + method.words() + ") since " + words.time(e.treatedAt())));
        Estimate life = s.treatment().lifeMetres();
        if (life == null) {
            lines.add("untreated: it has no treatment to use up and wears at the untreated rate");
        } else {
            lines.add("life on dry clean road: likely " + words.distance(life.likely()) + ", 80 % between "
                    + words.distance(life.low()) + " and " + words.distance(life.high()) + " ("
                    + picture.factors().factor("life." + method.word()).mark() + ")");
            int rides = e.sinceTreatment().size();
            lines.add(Words.count(rides, "ride", "rides") + " since, " + words.distance(e.metresSinceTreatment())
                    + ", counting as " + words.distance(s.treatment().exposureMetres()) + " of "
                    + words.distance(life.likely()) + " = "
                    + Words.percent(s.treatment().exposureMetres() / life.likely()) + ", left "
                    + words.distance(life.likely() - s.treatment().exposureMetres()));
            lines.addAll(factors(picture.factors(), e, method));
        }
        if (s.treatment().noisy() != null) {
            lines.add("you heard it on " + words.date(s.treatment().noisy()) + ", so the treatment counts as used up");
        }
        return lines;
    }

    private static List<String> factors(Factors factors, ChainExposure e, Method method) {
        Set<String> keys = new TreeSet<>();
        for (RideExposure r : e.sinceTreatment()) {
            Condition c = r.condition();
            if (c.moisture() == Moisture.WET || c.moisture() == Moisture.DAMP) {
                keys.add("treatment." + c.moisture().word() + "." + method.word());
            }
            if (c.grit() != Grit.CLEAN) {
                keys.add("treatment." + c.grit().word() + "." + method.word());
            }
        }
        List<String> parts = new ArrayList<>();
        for (String key : keys) {
            Factors.Factor f = factors.factor(key);
            parts.add(key.split("\\.", -1)[1] + " × " + Words.number(f.value()) + " (" + f.mark() + ")");
        }
        return parts.isEmpty() ? List.of() : List.of("factors: " + String.join(", ", parts));
    }

    private static List<String> wear(Standing s, Words words) {
        List<String> lines = new ArrayList<>();
        Event.Measured reading = s.wear().reading();
        Estimate worn = s.wear().elongationPercent();
        lines.add("elongation: likely " + Words.elongation(worn.likely()) + " %, 80 % between "
                + Words.elongation(worn.low()) + " and " + Words.elongation(worn.high()) + " %, limit "
                + Words.elongation(s.wear().limitPercent()) + " %, "
                + (reading == null
                        ? "summed from new by the table's rates (our guess) over "
                                + words.distance(s.exposure().riddenMetres())
                        : "from your reading of " + words.date(reading.at()) + " ("
                                + MeasureCommand.words(reading.reading()) + ") and the table's rates since"));
        if (s.wear().damaged() != null) {
            lines.add("you saw damage on " + words.date(s.wear().damaged()) + ": replace it whatever the figures say");
        }
        return lines;
    }
}
