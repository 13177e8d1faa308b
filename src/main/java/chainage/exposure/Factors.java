package chainage.exposure;

import chainage.condition.Condition;
import chainage.drivetrain.Drivetrain;
import chainage.drivetrain.Gear;
import chainage.drivetrain.Reference;
import chainage.ledger.Event;
import chainage.ledger.Grit;
import chainage.ledger.Method;
import chainage.ledger.Moisture;
import chainage.quantity.Estimate;
import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * The table of factors that every estimate starts from. None of them is published for bicycles; each row carries its
 * mark.
 */
public final class Factors {
    /** The mark of a value that the rider has set. */
    public static final String OWN = "your own value";

    /**
     * One row.
     *
     * @param key for example {@code treatment.wet.hot-wax}
     * @param value default
     * @param interval 80 % interval with the value as its median; null where none is given
     * @param unit of the value; {@code x} for a multiplier
     * @param mark where it comes from: published, computed, common practice, our guess, or {@link #OWN}
     * @param meaning in words
     */
    public record Factor(
            String key, double value, @Nullable Estimate interval, String unit, String mark, String meaning) {}

    private final Map<String, Factor> rows;

    private Factors(Map<String, Factor> rows) {
        this.rows = rows;
    }

    /**
     * Reads the table.
     *
     * @param table tab-separated lines: key, value, low, high, unit, mark, meaning; lines that start with # are notes
     * @throws IllegalArgumentException when a line is not of that form or a key stands twice
     */
    public static Factors parse(String table) {
        Map<String, Factor> rows = new LinkedHashMap<>();
        for (String line : table.lines().toList()) {
            if (line.isBlank() || line.startsWith("#")) {
                continue;
            }
            String[] cells = line.split("\t", -1);
            if (cells.length != 7) {
                throw new IllegalArgumentException("factor line has " + cells.length + " cells, not 7: " + line);
            }
            double value = Double.parseDouble(cells[1]);
            Estimate interval = cells[2].isEmpty()
                    ? null
                    : new Estimate(Double.parseDouble(cells[2]), value, Double.parseDouble(cells[3]));
            Factor row = new Factor(cells[0], value, interval, cells[4], cells[5], cells[6]);
            if (rows.put(row.key(), row) != null) {
                throw new IllegalArgumentException("factor stands twice: " + row.key());
            }
        }
        return new Factors(Collections.unmodifiableMap(rows));
    }

    /**
     * The table with the rider's own values in place of its own. Keys that it does not know are passed over: a ledger
     * may hold words of another version of the program.
     *
     * @param own by key; where no interval is given, the row's own is kept in proportion to the value
     */
    public Factors with(Map<String, Event.FactorSet> own) {
        if (own.isEmpty()) {
            return this;
        }
        Map<String, Factor> changed = new LinkedHashMap<>(rows);
        own.forEach((key, set) -> changed.computeIfPresent(key, (k, row) -> adjusted(row, set)));
        return new Factors(Collections.unmodifiableMap(changed));
    }

    private static Factor adjusted(Factor row, Event.FactorSet set) {
        Double value = set.value();
        if (value == null) {
            return row;
        }
        Estimate interval = row.interval();
        if (interval != null) {
            double scale = value / row.value();
            interval = new Estimate(
                    set.low() == null ? interval.low() * scale : set.low(),
                    value,
                    set.high() == null ? interval.high() * scale : set.high());
        }
        return new Factor(row.key(), value, interval, row.unit(), OWN, row.meaning());
    }

    /** The mark of a value that the rider's own treatments have moved. */
    public static final String LEARNT = "learnt from your treatments";

    /**
     * The table with the factors of roads on treatments as this rider's treatments have taught them; those that the
     * rider set stay.
     */
    public Factors with(Leaning leaning) {
        if (leaning.equals(Leaning.NONE)) {
            return this;
        }
        Map<String, Factor> changed = new LinkedHashMap<>(rows);
        for (Method method : Method.values()) {
            for (Moisture m : Moisture.values()) {
                changed.computeIfPresent(
                        "treatment." + m.word() + "." + method.word(), (k, row) -> leant(row, leaning.wet()));
            }
            for (Grit g : Grit.values()) {
                changed.computeIfPresent(
                        "treatment." + g.word() + "." + method.word(), (k, row) -> leant(row, leaning.grit()));
            }
        }
        return new Factors(Collections.unmodifiableMap(changed));
    }

    private static Factor leant(Factor row, double times) {
        return row.mark().equals(OWN)
                ? row
                : new Factor(row.key(), 1 + (row.value() - 1) * times, null, row.unit(), LEARNT, row.meaning());
    }

    /** Whether the rider set it. */
    boolean isOwn(String key) {
        return factor(key).mark().equals(OWN);
    }

    /** Whether the table has such a row. */
    public boolean has(String key) {
        return rows.containsKey(key);
    }

    /** All rows, in the table's order. */
    public Collection<Factor> all() {
        return rows.values();
    }

    /**
     * One row.
     *
     * @throws IllegalArgumentException when the table has no such key
     */
    public Factor factor(String key) {
        Factor f = rows.get(key);
        if (f == null) {
            throw new IllegalArgumentException("no factor " + key);
        }
        return f;
    }

    public double value(String key) {
        return factor(key).value();
    }

    /** Life of a treatment in metres of dry clean road; null for an untreated chain, which has none to lose. */
    public @Nullable Estimate lifeMetres(Method method) {
        if (method == Method.NONE) {
            return null;
        }
        Factor f = factor("life." + method.word());
        Estimate km = f.interval() == null ? new Estimate(f.value(), f.value(), f.value()) : f.interval();
        return new Estimate(km.low() * 1000, km.likely() * 1000, km.high() * 1000);
    }

    /** The likely life of a treatment in metres of dry clean road; NaN for an untreated chain. */
    public double likelyLifeMetres(Method method) {
        Estimate life = lifeMetres(method);
        return life == null ? Double.NaN : life.likely();
    }

    /** How many times faster than a dry road this one uses the treatment up. */
    public double treatmentFactor(Moisture moisture, Method method) {
        return isDry(moisture) || method == Method.NONE
                ? 1
                : value("treatment." + moisture.word() + "." + method.word());
    }

    /** How many times faster than a clean road this one uses the treatment up. */
    public double treatmentFactor(Grit grit, Method method) {
        return grit == Grit.CLEAN || method == Method.NONE
                ? 1
                : value("treatment." + grit.word() + "." + method.word());
    }

    /** How many times faster than a dry road this one wears the chain. */
    public double wearFactor(Moisture moisture) {
        return isDry(moisture) ? 1 : value("wear." + moisture.word());
    }

    /** How many times faster than a clean road this one wears the chain. */
    public double wearFactor(Grit grit) {
        return grit == Grit.CLEAN ? 1 : value("wear." + grit.word());
    }

    /** How many times faster than dry clean road this one uses the treatment up: the shares of it, times the grit. */
    public double treatmentFactor(Condition c, Method method) {
        return treatmentFactor(c.wetShare(), c.dampShare(), c.grit(), method);
    }

    /**
     * The same of a road's shares.
     *
     * @param wet share of it that is wet
     * @param damp share of it that is damp
     */
    public double treatmentFactor(double wet, double damp, Grit grit, Method method) {
        double wetter =
                wet * (treatmentFactor(Moisture.WET, method) - 1) + damp * (treatmentFactor(Moisture.DAMP, method) - 1);
        return (1 + wetter) * treatmentFactor(grit, method);
    }

    /** How many times faster than dry clean road this one wears the chain: the shares of it, times the grit. */
    public double wearFactor(Condition c) {
        return (1 + wetAddsToWear(c)) * (1 + gritAddsToWear(c));
    }

    /** What the wet shares of this road add to wear: 0 on a dry one, 1 where it is twice as fast. */
    public double wetAddsToWear(Condition c) {
        return c.wetShare() * (wearFactor(Moisture.WET) - 1) + c.dampShare() * (wearFactor(Moisture.DAMP) - 1);
    }

    /** What the grit of this road adds to wear: 0 on a clean one. */
    public double gritAddsToWear(Condition c) {
        return wearFactor(c.grit()) - 1;
    }

    /** Elongation in per cent a metre, dry, clean, at the reference load, while the treatment lasts. */
    public double wearRate(Method method) {
        return value("wear.rate." + method.word()) / 1e6;
    }

    /** The rider that loads are compared with. */
    public Reference reference() {
        return new Reference(
                value("load.watts"),
                value("load.rpm"),
                new Gear(teeth("load.ring"), teeth("load.cog")),
                value("load.pedalled"),
                value("load.speed"),
                value("load.least"),
                value("load.most"),
                value("load.lasting"),
                value("load.spare"));
    }

    /** Teeth come whole, whatever value the rider set. */
    private int teeth(String key) {
        return (int) Math.max(1, Math.round(value(key)));
    }

    /** What is known of a bike's sprockets, with the usual wheel where none is entered. */
    public Drivetrain drivetrain(Event.@Nullable BikeDescribed bike) {
        return Drivetrain.of(bike, value("wheel.circumference"));
    }

    private static boolean isDry(Moisture moisture) {
        return moisture == Moisture.DRY || moisture == Moisture.INDOOR;
    }
}
