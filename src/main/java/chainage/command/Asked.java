package chainage.command;

import chainage.quantity.LocalClock;
import chainage.render.Formatter;
import chainage.typed.CliError;
import chainage.typed.Setting;
import chainage.typed.TypedMoment;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import java.util.SortedMap;
import org.jspecify.annotations.Nullable;

/**
 * What the options of every command say of units, time and colour, each null where it was left out: a setting holds then, and the
 * default where there is none.
 */
public record Asked(
        @Nullable String units,
        @Nullable String zone,
        @Nullable String at,
        @Nullable String color) {
    /** No option is given. */
    public static final Asked NOTHING = new Asked(null, null, null, null);

    public Asked {
        if (units != null) {
            Setting.UNITS.read("--units", units);
        }
        if (zone != null) {
            Setting.ZONE.read("--zone", zone);
        }
        if (color != null && !Colour.WHEN.contains(color)) {
            throw CliError.usage(
                    Colour.OPTION + " \"" + color + "\" is not understood",
                    "use " + String.join(", ", Colour.WHEN).replaceFirst(", ([^,]*)$", " or $1"));
        }
        if (at != null) {
            // Whether it is a date does not depend on the zone.
            now(at, Instant.EPOCH, LocalClock.of(ZoneOffset.UTC));
        }
    }

    /** How figures and dates are written. */
    Formatter format(SortedMap<String, List<String>> settings, ZoneId machine) {
        String home = one(zone, Setting.ZONE, settings);
        return new Formatter(
                "imperial".equals(one(units, Setting.UNITS, settings)), home == null ? machine : ZoneId.of(home));
    }

    /** The instant as of which is answered. */
    Instant now(Instant clock, LocalClock home) {
        return at == null ? clock : now(at, clock, home);
    }

    private static Instant now(String at, Instant clock, LocalClock home) {
        return TypedMoment.of(at, clock, home).instant();
    }

    /** The same in plain text, for what is no terminal. */
    public Asked plain() {
        return new Asked(units, zone, at, "never");
    }

    /** The same, answered as of the present, for a text that is kept. */
    public Asked kept() {
        return new Asked(units, zone, null, "never");
    }

    /** What an option says of a setting; null where it says nothing. */
    @Nullable
    public String of(Setting setting) {
        return setting == Setting.UNITS ? units : setting == Setting.ZONE ? zone : null;
    }

    private static @Nullable String one(
            @Nullable String typed, Setting setting, SortedMap<String, List<String>> settings) {
        if (typed != null) {
            return typed;
        }
        List<String> own = setting.in(settings);
        return own.isEmpty() ? null : own.get(0);
    }
}
