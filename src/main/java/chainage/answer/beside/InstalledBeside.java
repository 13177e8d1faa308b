package chainage.answer.beside;

import chainage.analysis.Analysis;
import chainage.attribution.AttributedRide;
import chainage.ledger.Event;
import chainage.ledger.Method;
import chainage.quantity.Moment;
import chainage.quantity.PlainText;
import chainage.render.Formatter;
import java.util.ArrayList;
import java.util.List;

/** What is said beside a chain that goes on a bike. */
public final class InstalledBeside {
    private InstalledBeside() {}

    /** What may be wrong with this chain on this bike. */
    public static List<String> of(Analysis before, String c, String b, Formatter format) {
        List<String> said = new ArrayList<>(speeds(before, c, b));
        before.facts()
                .outOfService(c)
                .ifPresent(r -> said.add("but you noted it as " + r.remark().word() + " on " + format.date(r.at())
                        + ": do not ride it"));
        if (before.facts().treatments(c).isEmpty()) {
            Event.ChainDescribed chain = before.facts().chains().get(c);
            said.add("until a treatment is noted " + c
                    + (chain != null && chain.first() == Method.NONE
                            ? " runs untreated"
                            : " runs on " + Method.FACTORY.words())
                    + ": chainage treat " + PlainText.typed(c) + " PRODUCT --on DATE");
        }
        return said;
    }

    /** Rides of the day of a bare date: on which side they fall, and how to say otherwise. */
    public static List<String> sameDay(Analysis before, String bike, Moment at, String command, Formatter format) {
        if (!at.bareDate()) {
            return List.of();
        }
        List<String> starts = before.rides().stream()
                .filter(r -> r.counted() && bike.equals(r.bike()))
                .map(r -> r.filed().ride().start())
                .filter(t -> format.localDay(t).equals(at.day()))
                .map(t -> format.time(t).substring(11))
                .toList();
        if (starts.isEmpty()) {
            return List.of();
        }
        return List.of(Formatter.count(starts.size(), "ride", "rides") + " of that day on " + bike + " (start "
                + String.join(", ", starts) + ") " + (starts.size() == 1 ? "counts" : "count")
                + " as after it; if not, give the time: chainage " + command + " --on \"" + at.day() + " HH:MM\"");
    }

    /** Rides on a bike before its first chain, which stay without one; said when that chain is put on, and not again. */
    public static List<String> ridesBefore(Analysis before, String bike, Moment at, Formatter format) {
        if (before.facts().installations().stream()
                .anyMatch(i -> i.bike().equals(bike) && i.interval().from().isBefore(at.instant()))) {
            return List.of();
        }
        List<AttributedRide> bare = before.exposures().unattributed().stream()
                .filter(r -> bike.equals(r.bike()) && r.filed().ride().start().isBefore(at.instant()))
                .toList();
        if (bare.isEmpty()) {
            return List.of();
        }
        return List.of(NamedRides.of(before, bare, format) + " on " + bike + " before that, from "
                + format.date(bare.get(0).filed().ride().start())
                + (bare.size() == 1 ? ", stays" : ", stay")
                + " without a chain; if one was on, say since when: chainage install CHAIN "
                + PlainText.typed(bike) + " --on DATE; if none is to be noted: chainage bike set "
                + PlainText.typed(bike)
                + " --chains-from "
                + PlainText.typed(at.bareDate() ? at.day().toString() : format.time(at.instant())));
    }

    /** A chain made for another number of cogs than the bike has is too wide or too narrow for it. */
    private static List<String> speeds(Analysis before, String c, String b) {
        Event.ChainDescribed chain = before.facts().chains().get(c);
        Event.BikeDescribed bike = before.facts().bikes().get(b);
        int cogs = bike == null ? 0 : bike.cogs().size();
        return chain == null || chain.speeds() == 0 || cogs == 0 || chain.speeds() == cogs
                ? List.of()
                : List.of("but " + c + " is made for " + Formatter.count(chain.speeds(), "cog", "cogs") + " and " + b
                        + " has " + cogs + ": is it the right chain, on the right bike?");
    }
}
