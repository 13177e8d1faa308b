package chainage.cli;

import chainage.attribution.AttributedRide;
import chainage.condition.Condition;
import chainage.exposure.ChainMetres;
import chainage.exposure.CountedRide;
import chainage.exposure.RideExposure;
import chainage.ride.Ride;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "rides",
        description = "List rides: when, how far, on which bike and chain, on what road. Latest last.",
        footer = {
            "Examples:",
            "  chainage rides 2026-05-01..2026-05-31",
            "  chainage rides --chain Moss",
            "  chainage rides --unattributed",
            "  chainage rides --all --why    (other activities too, with the reasons)"
        })
final class RidesCommand extends Action {
    @Parameters(arity = "0..*", paramLabel = "RIDE", description = "ids, dates, ranges, last (default: all)")
    List<String> selectors = List.of();

    @Option(names = "--bike", paramLabel = "BIKE", description = "only rides on this bike")
    @Nullable
    String bike;

    @Option(names = "--chain", paramLabel = "CHAIN", description = "only rides on this chain")
    @Nullable
    String chain;

    @Option(names = "--unattributed", description = "only rides without a chain")
    boolean unattributed;

    @Option(names = "--guessed", description = "only rides whose file states no sport, counted by their speed")
    boolean guessed;

    @Option(names = "--all", description = "activities that are no rides as well")
    boolean all;

    @Option(names = "--why", description = "show what each verdict rests on")
    boolean why;

    @Option(names = "--csv", description = Cells.HELP)
    boolean csv;

    @Override
    public Integer call() {
        Desk desk = desk();
        Picture picture = desk.picture();
        String onBike = bike == null ? null : Names.bike(picture.ledger(), bike);
        String onChain = chain == null ? null : Names.chain(picture.ledger(), chain);
        List<AttributedRide> rides = (selectors.isEmpty()
                        ? picture.rides()
                        : desk.rides(picture).select(selectors, onBike, all || !selectors.contains("last")))
                .stream()
                        .filter(r -> all || byId() || r.verdict() != AttributedRide.Verdict.NOT_A_RIDE)
                        .filter(r -> onBike == null || onBike.equals(r.bike()))
                        .filter(r -> onChain == null || onChain.equals(r.chain()))
                        .filter(r -> !guessed || isGuessed(r))
                        .filter(r -> !unattributed || (r.counted() && r.chain() == null))
                        .toList();
        if (desk.json() || csv) {
            List<Json> list = new ArrayList<>();
            rides.forEach(r -> list.add(json(picture, r)));
            if (csv) {
                Cells.print(desk.out(), list);
            } else {
                new Json().put("rides", list).print(desk.out());
            }
            return ExitCode.OK.code();
        }
        if (rides.isEmpty()) {
            desk.out().println(picture.rides().isEmpty() ? Guide.next(desk, picture) : "No ride fits.");
            return ExitCode.OK.code();
        }
        print(desk, picture, rides);
        return ExitCode.OK.code();
    }

    /** What is named by its id is shown whatever it is. */
    private boolean byId() {
        return !selectors.isEmpty() && selectors.stream().allMatch(RideSelection::isId);
    }

    private void print(Desk desk, Picture picture, List<AttributedRide> rides) {
        Words words = desk.words();
        Table table = new Table()
                .whole("RIDE")
                .whole("START")
                .right("RIDDEN")
                .left("BIKE")
                .left("CHAIN")
                .whole("ROAD");
        double metres = 0;
        for (AttributedRide r : rides) {
            CountedRide counted = picture.exposures().counted().get(r.id());
            double ridden = picture.exposures().metresOf(r);
            metres += r.counted() ? ridden : 0;
            table.row(
                    r.id(),
                    words.time(r.filed().ride().start()),
                    words.distance(ridden),
                    r.bike() == null ? "–" : r.bike(),
                    r.chain() == null ? "–" : r.chain(),
                    counted == null
                            ? r.verdict() == AttributedRide.Verdict.TWIN ? "twin" : "no ride"
                            : WhyText.road(counted.condition()));
            if (why) {
                table.note(counted == null ? r.because() : reason(counted));
            }
        }
        table.print(desk.out(), desk.columns());
        if (!desk.quiet()) {
            int those = (int) rides.stream().filter(AttributedRide::counted).count();
            desk.out()
                    .println(Words.count(those, "ride", "rides") + ", " + words.distance(metres)
                            + (those == rides.size() ? "" : "; " + (rides.size() - those) + " not counted"));
        }
    }

    private static String reason(CountedRide counted) {
        AttributedRide r = counted.ride();
        RideExposure e = counted.exposure();
        return "bike: " + (r.bikeFrom() == null ? "no rule names one" : r.bikeFrom()) + "; road: "
                + counted.condition().from() + "; distance: " + counted.metres().from()
                + (e == null
                        ? ""
                        : String.format(
                                Locale.ROOT,
                                "; load %.2f: %s; counts %.2f times for the treatment, %.2f for wear",
                                e.load().value(),
                                e.load().from() + (e.load().known() ? "" : ", so taken as 1"),
                                e.treatmentFactor(),
                                e.wearFactor() * e.load().value()));
    }

    /** True for a ride that only its speed makes one. */
    static boolean isGuessed(AttributedRide r) {
        return r.counted() && r.guessed();
    }

    static Json json(Picture picture, AttributedRide r) {
        Ride ride = r.filed().ride();
        CountedRide counted = picture.exposures().counted().get(r.id());
        Condition c = counted == null ? null : counted.condition();
        RideExposure e = counted == null ? null : counted.exposure();
        ChainMetres metres = counted == null ? null : counted.metres();
        return new Json()
                .put("id", r.id())
                .put(
                        "file",
                        r.filed().paths().isEmpty() ? "" : r.filed().paths().get(0))
                .put("format", ride.format().word())
                .put("session", ride.key().session())
                .put("start", ride.start())
                .number("elapsed_s", ride.elapsedSeconds(), 1)
                .number("moving_s", ride.movingSeconds(), 1)
                .number("metres", ride.distance().metres(), 1)
                .put("metres_from", ride.distance().from().words())
                .put("sport", ride.activity().sport())
                .put("sub_sport", ride.activity().subSport())
                .put("verdict", r.verdict().name().toLowerCase(Locale.ROOT).replace('_', '-'))
                .put("because", r.because())
                .put("bike", r.bike())
                .put("bike_from", r.bikeFrom())
                .put("chain", r.chain())
                .put("product", e == null ? null : e.product().product())
                .put("treated_at", e == null ? null : e.treatedAt())
                .put("moisture", c == null ? null : c.moisture().word())
                .put("grit", c == null ? null : c.grit().word())
                .number("wet_share", c == null ? Double.NaN : c.wetShare(), 3)
                .number("damp_share", c == null ? Double.NaN : c.dampShare(), 3)
                .put("condition_from", c == null ? null : c.from())
                .put("twin_of", r.twinOf())
                .number("avg_watts", ride.effort().watts(), 1)
                .number("chain_metres", metres == null ? Double.NaN : metres.metres(), 1)
                .put("chain_metres_from", metres == null ? null : metres.from())
                .number("treatment_metres", e == null ? Double.NaN : e.treatmentMetres(), 1)
                .number("wear_metres", e == null ? Double.NaN : e.wearMetres(), 1)
                .number("load", e == null ? Double.NaN : e.load().value(), 3)
                .put("load_from", e == null ? null : e.load().from())
                .number("load_usable", e == null ? Double.NaN : e.load().usable(), 3)
                .put("sensors", ride.devices().stream().map(Ride.Device::name).toList())
                .put("title", ride.labels().title())
                .put("remarks", ride.remarks())
                .put("salvaged", ride.salvaged());
    }
}
