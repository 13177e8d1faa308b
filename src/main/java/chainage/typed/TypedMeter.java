package chainage.typed;

import java.util.List;
import java.util.Locale;
import java.util.function.Supplier;

/** A power meter, as the rider names it. */
public final class TypedMeter {
    private TypedMeter() {}

    /**
     * Type and serial; a serial alone where one meter seen bears it.
     *
     * @param known those seen, so named
     */
    public static String named(String meter, Supplier<List<String>> known) {
        String typed = meter.strip().toLowerCase(Locale.ROOT);
        if (typed.matches("[^:]+:.+")) {
            return typed;
        }
        List<String> seen =
                known.get().stream().filter(m -> m.endsWith(":" + typed)).toList();
        if (seen.size() == 1) {
            return seen.get(0);
        }
        throw CliError.usage(
                seen.isEmpty()
                        ? "no ride has power of a meter \"" + meter + "\""
                        : "\"" + meter + "\" is " + String.join(" and ", seen),
                seen.isEmpty()
                        ? "chainage meter lists those seen; one of a ride to come is named by type and serial, such as"
                                + " bike_power:31000417"
                        : "name it by type and serial");
    }
}
