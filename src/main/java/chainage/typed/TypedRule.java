package chainage.typed;

import chainage.ledger.Event;
import chainage.ledger.Rule;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** Rules that give rides to bikes, as the rider types their conditions. */
public final class TypedRule {
    private TypedRule() {}

    /** Speeds at which an activity of unstated sport counts as a ride. */
    public static Event.SpeedBandSet band(String typed) {
        String t = typed.strip().toLowerCase(Locale.ROOT);
        double kmh = t.endsWith(QuantityParser.MPH) ? QuantityParser.KMH_A_MPH : 1;
        String[] ends = t.replaceFirst("\\s*(km/h|mph)$", "").split("\\.\\.", -1);
        try {
            double low = kmh * TypedNumber.of(ends[0]);
            double high = kmh * TypedNumber.of(ends[ends.length - 1]);
            if (ends.length == 2 && low >= 0 && low < high && high <= 150) {
                return new Event.SpeedBandSet(low, high);
            }
        } catch (NumberFormatException e) {
            // said below
        }
        throw CliError.usage(
                "--cyclist \"" + typed + "\" is no range of speeds",
                "write two speeds in km/h such as 8..55, or 5..34mph");
    }

    /** The condition that is named; null where none is. */
    public static Rule.@Nullable When when(@Nullable String sensor, @Nullable String path, @Nullable String subSport) {
        List<Rule.When> named = new ArrayList<>();
        if (sensor != null) {
            String[] parts = sensor.strip().toLowerCase(Locale.ROOT).split(":", 2);
            if (parts.length < 2 || parts[0].isEmpty() || parts[1].isEmpty()) {
                throw CliError.usage(
                        "--sensor \"" + sensor + "\" is not TYPE:SERIAL",
                        "write it such as bike_power:31000417; chainage assign lists those seen");
            }
            named.add(new Rule.Sensor(parts[0], parts[1]));
        }
        if (path != null) {
            if (path.isBlank()) {
                throw CliError.usage("--path is empty", "give a folder or file name such as commute or \"runs/*\"");
            }
            named.add(new Rule.Path(path.strip()));
        }
        if (subSport != null) {
            named.add(new Rule.SubSport(subSport.strip().toLowerCase(Locale.ROOT)));
        }
        if (named.size() > 1) {
            throw CliError.usage("several conditions are named", "make a rule of each");
        }
        return named.isEmpty() ? null : named.get(0);
    }
}
