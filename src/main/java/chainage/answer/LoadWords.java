package chainage.answer;

import chainage.drivetrain.Load;
import chainage.drivetrain.LoadReason;
import chainage.render.Formatter;
import java.util.List;
import java.util.stream.Collectors;

/** What loads rest on, in words. */
public final class LoadWords {
    private LoadWords() {}

    /** All of it, in one phrase. */
    public static String of(List<LoadReason> reasons) {
        return reasons.stream().map(LoadWords::of).collect(Collectors.joining("; "));
    }

    /** What most loads of its sort rest on; what follows it differs from ride to ride. */
    public static String first(Load load) {
        return of(load.from().get(0)) + taken(load);
    }

    /** All of it, and what it is taken as where nothing says how hard. */
    public static String all(Load load) {
        return of(load.from()) + taken(load);
    }

    private static String taken(Load load) {
        return load.known() ? "" : ", so taken as 1";
    }

    private static String of(LoadReason reason) {
        if (reason instanceof LoadReason.NoPower r) {
            return r.cadence()
                    ? "cadence but no power in the file: nothing says how hard"
                    : "no power and no cadence in the file";
        }
        if (reason instanceof LoadReason.NoTime) {
            return "power without time in the file";
        }
        if (reason instanceof LoadReason.NoDistance) {
            return "no distance to spread the work over";
        }
        if (reason instanceof LoadReason.MeanPower r) {
            return "power without cadence: mean power in " + r.gear() + (r.only() ? ", the bike's only gear" : "");
        }
        if (reason instanceof LoadReason.ReferenceGear r) {
            return "power in " + r.gear() + ", the reference gear: "
                    + (r.entered()
                            ? "no gear of the bike fits its speed and cadence"
                            : "its file names no gears and the bike's rings and cogs are not entered");
        }
        if (reason instanceof LoadReason.ByGear r) {
            return switch (r.gears()) {
                case STATED -> "power and the gears in the file";
                case BY_DEVELOPMENT -> "power and gears by development";
                case BOTH -> "power and gears, in part by development";
            };
        }
        return part(reason);
    }

    /** What holds for a part of the ride, or was bent. */
    private static String part(LoadReason reason) {
        if (reason instanceof LoadReason.Unfitting r) {
            return Formatter.percent(r.share()) + " of the energy fits no gear of the bike, taken as " + r.as();
        }
        if (reason instanceof LoadReason.Several r) {
            return "for " + Formatter.percent(r.share())
                    + " of the energy several gears fit, the straighter chain taken";
        }
        if (reason instanceof LoadReason.WithoutCadence r) {
            return Formatter.percent(r.share())
                    + " of the energy came without cadence, or with a cadence of 0, taken as in the same gears";
        }
        if (reason instanceof LoadReason.Uncovered r) {
            return Formatter.percent(r.share()) + " of the time has no cadence, taken to be like the rest";
        }
        if (reason instanceof LoadReason.Cut r) {
            return Formatter.fixed(r.watts(), 0) + " W cut to " + Formatter.fixed(r.most(), 0)
                    + " W, more than anybody holds so long";
        }
        if (reason instanceof LoadReason.Bound r) {
            return Formatter.fixed(r.exact(), 2) + " taken as " + Formatter.fixed(r.value(), 2)
                    + ", the bound of what is believed";
        }
        if (reason instanceof LoadReason.Motor r) {
            return "a motor helps, " + r.times() + " times (load.motor, " + r.mark() + ")";
        }
        throw new AssertionError(reason);
    }
}
