package chainage.typed;

import chainage.answer.things.FactorList;
import chainage.exposure.Factors;
import chainage.exposure.Factors.Factor;
import chainage.ledger.Event;
import chainage.ledger.Method;
import chainage.render.Formatter;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** A factor and its value, as the rider types them. */
public final class TypedFactor {
    private TypedFactor() {}

    /** The factor that is named. */
    public static Factor row(Factors table, String typed) {
        String key = Method.keyToday(typed);
        if (!table.has(key)) {
            List<String> keys = table.all().stream().map(Factor::key).toList();
            throw CliError.usage(
                    "there is no factor \"" + key + "\"", Alike.hint(key, keys, "chainage factors lists them all"));
        }
        return table.factor(key);
    }

    /** Multipliers of 0 would make rides free of charge, and divide by nothing elsewhere. */
    public static double value(Factor row, String typed) {
        double least = row.value() > 0 ? 0 : -1000;
        try {
            double v = TypedNumber.of(typed.replaceFirst("\\s*" + "(%|x|km)?$", ""));
            double most = row.unit().equals("share") ? 1 : Math.max(1, Math.abs(row.value())) * 1000;
            if (v > least && v <= most) {
                return v;
            }
        } catch (NumberFormatException e) {
            // said below
        }
        throw CliError.usage(
                "\"" + typed + "\" cannot be " + row.key(),
                "write a number above 0"
                        + (row.unit().equals("share")
                                ? " and up to 1"
                                : FactorList.unit(row).isEmpty() ? "" : " in " + FactorList.unit(row))
                        + "; the table has "
                        + FactorList.figure(row));
    }

    /**
     * A factor's new value.
     *
     * @param low end of its interval; null where it is left out, and then the high one must be
     */
    public static Event.FactorSet set(Factor row, String typed, @Nullable String low, @Nullable String high) {
        double v = value(row, typed);
        Double lowest = low == null ? null : value(row, low);
        Double highest = high == null ? null : value(row, high);
        if ((lowest == null) != (highest == null)) {
            throw CliError.usage("an interval has two ends", "give both --low and --high, or neither");
        }
        if (lowest != null && row.interval() == null) {
            throw CliError.usage(row.key() + " has no interval", "leave --low and --high out");
        }
        if (lowest != null && highest != null && !(lowest < v && v < highest)) {
            throw CliError.usage(
                    Formatter.number(v) + " is not between " + Formatter.number(lowest) + " and "
                            + Formatter.number(highest),
                    "give --low below the value and --high above it");
        }
        return new Event.FactorSet(row.key(), v, lowest, highest);
    }
}
